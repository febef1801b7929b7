"""Pieces of cloth or card, and assemblies of pieces; mm.

A piece lies in its own frame, as it lies when it is marked or cut, with the lower left corner of
its box at the origin. An assembly is a finished outline tiled by parts, each set down in the
assembly's frame by its places.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from cutpaths.geometry.marks import Mark
from cutpaths.geometry.polygons import Ring, box
from cutpaths.shapes import Circle, Motion, Path, Point


class PieceKind(StrEnum):
    """What a piece is."""

    PATCH = "patch"
    TOP = "top"
    BACKING = "backing"
    TEMPLATE = "corner template"
    WASTE = "waste"


class Face(StrEnum):
    """Which face is up as the piece lies in its own frame."""

    RIGHT = "right side up"
    WRONG = "wrong side up"
    EITHER = "either face up"


@dataclass(frozen=True, slots=True)
class Grain:
    """How the cloth's lengthwise threads run in the piece's frame.

    Attributes:
        way: unit vector along the threads, toward the head of the blanket.
        headed: whether the cloth has an up, so that only this way round is right.
    """

    way: Point
    headed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
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

    @property
    def count(self) -> int:
        """How many of it one blanket takes."""
        return len(self.places)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its box."""
        left, bottom, right, top = box(self.outline)
        return right - left, top - bottom


@dataclass(frozen=True, slots=True)
class Seam:
    """A finished seam between parts of an assembly, from end to end."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """A finished outline tiled by parts, and the seams between them.

    Attributes:
        outline: finished outline, counter-clockwise.
        parts: pieces, or assemblies inside it.
        seams: in the order of sewing.
        places: where it stands in an assembly round it; one place as it is at the outermost.
    """

    outline: Ring
    parts: tuple[Piece | Assembly, ...]
    seams: tuple[Seam, ...]
    places: tuple[Motion, ...] = (Motion(),)

    def pieces(self) -> tuple[Piece, ...]:
        """The pieces of all its parts, each with its places in this assembly's frame."""
        return tuple(piece for part in self.parts for piece in _pieces(part))


def _pieces(part: Piece | Assembly) -> tuple[Piece, ...]:
    if isinstance(part, Piece):
        return (part,)
    return tuple(
        replace(piece, places=tuple(p.then(q) for q in part.places for p in piece.places))
        for piece in part.pieces()
    )
