"""Pieces of cloth or card, and assemblies of pieces; mm.

A piece lies in its own frame, as it lies when it is marked or cut, with the lower left corner of
its box at the origin. An assembly is a finished outline tiled by parts, each set down in the
assembly's frame by its places.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction

from cutpaths.geometry.marks import Mark
from cutpaths.geometry.patch_shapes import PatchShape
from cutpaths.geometry.polygons import Ring, box, distance
from cutpaths.shapes import Circle, Motion, Path, Point
from cutpaths.values import Value, replace


class PieceKind(StrEnum):
    """What a piece is."""

    PATCH = "patch"
    TOP = "top"
    BACKING = "backing"
    PANEL = "panel of the backing"
    FILLING = "filling"
    TEMPLATE = "corner template"
    WASTE = "waste"


class Face(StrEnum):
    """Which face is up as the piece lies in its own frame."""

    RIGHT = "right side up"
    WRONG = "wrong side up"
    EITHER = "either face up"


class Grain(Value):
    """How the cloth's lengthwise threads run in the piece's frame.

    Attributes:
        way: unit vector along the threads, toward the head of the blanket.
        headed: whether the cloth has an up, so that only this way round is right.
    """

    way: Point
    headed: bool


class Piece(Value, kw_only=True):
    """One piece; alike pieces are one `Piece` with several places.

    Attributes:
        key: its name, capitals and digits: `BACKING`, `PATCH-1`.
        kind: what it is.
        fabric: name of its fabric; empty for card, and for a top sewn of several.
        face: which face is up.
        grain: how the threads run; None where that does not matter.
        outline: cut outline, counter-clockwise.
        holes: closed shapes cut out of it.
        marks: what is marked on the face that is up.
        places: the motions that set it down in its assembly, or in the front view.
        shape: a patch's exact finished sizes; None for other pieces.
    """

    key: str
    kind: PieceKind
    fabric: str
    face: Face
    grain: Grain | None
    outline: Ring
    holes: tuple[Path | Circle, ...] = ()
    marks: tuple[Mark, ...]
    places: tuple[Motion, ...]
    shape: PatchShape | None = None

    @property
    def count(self) -> int:
        """How many of it one blanket takes."""
        return len(self.places)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its box."""
        left, bottom, right, top = box(self.outline)
        return right - left, top - bottom


class Stage(StrEnum):
    """When a seam of a top is sewn."""

    UNIT = "units"
    ROW = "rows"
    TOP = "rows to top"


class Seam(Value):
    """A finished seam between parts of an assembly, from end to end.

    Attributes:
        stage: when it is sewn.
        press: unit vector of the way both allowances are pressed; None when pressed open.
        partial: whether it belongs to a ring of seams of which one is first sewn in part.
    """

    start: Point
    end: Point
    stage: Stage = Stage.TOP
    press: Point | None = None
    partial: bool = False

    @property
    def length(self) -> float:
        """Length sewn, from finished end to finished end."""
        return distance(self.start, self.end)

    def moved(self, motion: Motion) -> Seam:
        """The seam in another frame."""
        press = None
        if self.press is not None:
            press = replace(motion, dx=0.0, dy=0.0).point(self.press)
        ends = motion.point(self.start), motion.point(self.end)
        return replace(self, start=ends[0], end=ends[1], press=press)


class TrianglePairs(Value):
    """Squares of two alike triangles of two fabrics.

    Attributes:
        fabrics: both, in the order of the alphabet.
        finished: finished side of the square.
        count: how many squares.
    """

    fabrics: tuple[str, str]
    finished: Fraction
    count: int


class Assembly(Value, kw_only=True):
    """A finished outline tiled by parts, and the seams between them.

    Attributes:
        outline: finished outline, counter-clockwise.
        parts: pieces, or assemblies inside it.
        seams: between its parts, in the order of sewing.
        places: where it stands in an assembly round it; one place as it is at the outermost.
        pairs: what may be sewn as pairs of triangles before cutting, in all its parts.
    """

    outline: Ring
    parts: tuple[Piece | Assembly, ...]
    seams: tuple[Seam, ...]
    places: tuple[Motion, ...] = (Motion(),)
    pairs: tuple[TrianglePairs, ...] = ()

    def pieces(self) -> tuple[Piece, ...]:
        """The pieces of all its parts, each once with all its places in this assembly's frame.

        They are in the order of their keys' numbers.
        """
        found: dict[str, Piece] = {}
        places: dict[str, list[Motion]] = {}
        for part in self.parts:
            for piece, motions in _pieces(part):
                found.setdefault(piece.key, piece)
                places.setdefault(piece.key, []).extend(motions)
        keys = sorted(found, key=lambda key: (len(key), key))
        return tuple(replace(found[key], places=tuple(places[key])) for key in keys)

    def all_seams(self) -> tuple[Seam, ...]:
        """The seams of all its parts and its own, in the order of sewing, in its own frame.

        A part is sewn before what it is a part of, so its seams are all those of a unit.
        """
        inner = [
            replace(seam.moved(place), stage=Stage.UNIT)
            for part in self.parts
            if isinstance(part, Assembly)
            for place in part.places
            for seam in part.all_seams()
        ]
        return (*inner, *self.seams)


def _pieces(part: Piece | Assembly) -> Iterator[tuple[Piece, Sequence[Motion]]]:
    """The pieces of a part, and their places in the frame of what it is a part of."""
    if isinstance(part, Piece):
        yield part, part.places
        return
    for piece in part.pieces():
        yield piece, [place.then(outer) for outer in part.places for place in piece.places]
