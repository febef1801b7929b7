"""Top and backing laid on paper in the front view, as their own marks say they belong together.

The backing lies as its place says, wrong side up. Where the top goes is found anew from two mated
marks: folding the backing along the crease of a side's border carries that side's dots onto the
top's. Folded over, nothing is sewn: the centers lie on one another.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from cutpaths.geometry.assembly import Face, Piece
from cutpaths.geometry.marks import Mark, MarkKind, corner_name, letter
from cutpaths.geometry.polygons import Ring, box, carry, distance, edges, middle
from cutpaths.pieces import Kit
from cutpaths.project.model import BackingCorners
from cutpaths.proof.planes import Line, fold, off_segment
from cutpaths.proof.reading import Measure
from cutpaths.proof.taped import seam_as_taped
from cutpaths.shapes import IDENTITY, Motion, Point
from cutpaths.values import Value

Key = tuple[MarkKind, str]


class Laid(Value):
    """A piece laid down: its outline and its marks by kind and place, where they lie then."""

    outline: Ring
    marks: Mapping[Key, tuple[Mark, ...]]

    def all(self, kind: MarkKind, at: str = "") -> tuple[Mark, ...]:
        """The marks of one kind at one place."""
        return self.marks.get((kind, at), ())

    def point(self, kind: MarkKind, at: str) -> Point:
        """The first point of a mark that is there once."""
        return self.marks[kind, at][0].points[0]

    def line(self, kind: MarkKind, at: str) -> Line:
        """The first two points of a mark that is there once."""
        first, second, *_ = self.marks[kind, at][0].points
        return first, second

    def of_kind(self, *kinds: MarkKind) -> tuple[Mark, ...]:
        """All marks of some kinds."""
        return tuple(m for (kind, _), marks in self.marks.items() if kind in kinds for m in marks)


def lay(piece: Piece, motion: Motion) -> Laid:
    """Lays a piece down."""
    marks: dict[Key, list[Mark]] = {}
    for mark in piece.marks:
        marks.setdefault((mark.kind, mark.at), []).append(mark.moved(motion))
    return Laid(motion.ring(piece.outline), {key: tuple(found) for key, found in marks.items()})


class Paper(Value, kw_only=True, dict=True):  # room for what is worked out once
    """What lies on the paper.

    Attributes:
        kit: the pieces as they are.
        measure: makes readings in the project's unit.
        sides, corners: their names; corner i is where side i starts.
        found: where the top goes, by its marks.
        top, backing: the pieces laid down, the backing not yet folded.
        fold: for each side, what folding its border does to the backing's marks there.
        seam: the seam polygon; side i starts at point i.
        sewn: whether seams join the layers.
        trimmed_along: for each corner the two lines that its trim runs outside of, into the fold
            point and out of it: the halves of the miter, or of the corner fold.
    """

    kit: Kit
    measure: Measure
    sides: tuple[str, ...]
    corners: tuple[str, ...]
    found: Motion
    top: Laid
    backing: Laid
    fold: Mapping[str, Motion]
    seam: Ring
    sewn: bool
    trimmed_along: tuple[tuple[Line, Line], ...]

    @property
    def borders(self) -> tuple[float, ...]:
        """The border that the paper must show on each side, half the turn of cloth in it."""
        project = self.kit.project
        return tuple(float(border + project.turn_of_cloth / 2) for border in project.borders)

    @cached_property
    def raw_edges(self) -> tuple[Line, ...]:
        """The top's raw edge on each side: that which its center mark reaches."""
        edge_of = edges(self.top.outline)
        ends = (self.top.line(MarkKind.CENTER, side)[1] for side in self.sides)
        return tuple(min(edge_of, key=lambda line: off_segment(end, line)) for end in ends)

    @property
    def far(self) -> float:
        """Farther than anything on the paper reaches."""
        left, bottom, right, top = box(self.backing.outline)
        return 10 * (right - left + top - bottom)

    @property
    def allowance(self) -> float:
        """The seam allowance."""
        return float(self.kit.project.allowance)

    @property
    def trim(self) -> float:
        """The miter trim."""
        return float(self.kit.project.trim)

    @property
    def trimmed(self) -> bool:
        """Whether the backing's corners are cut off before sewing."""
        return self.kit.project.corners is BackingCorners.TRIMMED

    def around_corner(self, i: int) -> tuple[str, str]:
        """The sides before and after corner i."""
        return self.sides[i - 1], self.sides[i]

    def seam_line(self, side: str) -> Line:
        """The backing's stitching line of a side, from dot to dot."""
        i = self.sides.index(side)
        ends = self.corners[i], self.corners[(i + 1) % len(self.corners)]
        first, last = (self.backing.point(MarkKind.DOT, f"{at}:{side}") for at in ends)
        return first, last

    def top_seam(self, side: str) -> Line:
        """The top's seam on a side."""
        return edges(self.seam)[self.sides.index(side)]


def side_names(kit: Kit) -> tuple[str, ...]:
    """Letters of the sides."""
    return tuple(letter(i) for i in range(len(kit.project.borders)))


def corner_names(kit: Kit) -> tuple[str, ...]:
    """Names of the corners; corner i is where side i starts."""
    sides = len(kit.project.borders)
    return tuple(corner_name(i, sides) for i in range(sides))


def side_of(at: str) -> str:
    """The side that a mark belongs to: `A` of `A`, of `A:1` and of `DA:A`."""
    first, _, second = at.partition(":")
    return first if len(first) == 1 else second


def turns_over(face: Face, shown: Face) -> bool:
    """Whether a piece is turned over to show a face."""
    return face is not Face.EITHER and face is not shown


def paper_of_turned(kit: Kit) -> Paper:
    """Lays a turned blanket down; the top's dots are its seam polygon."""
    sides, corners = side_names(kit), corner_names(kit)
    backing = _backing(kit)
    folds = {side: fold(backing.line(MarkKind.BORDER_FOLD, side)) for side in sides}
    flat = lay(kit.top, IDENTITY)
    dots = tuple(flat.point(MarkKind.DOT, at) for at in corners)
    i, here = max(enumerate(edges(dots)), key=lambda edge: distance(*edge[1]))
    first, last = (
        folds[sides[i]].point(backing.point(MarkKind.DOT, f"{at}:{sides[i]}"))
        for at in (corners[i], corners[(i + 1) % len(corners)])
    )
    found = _top_found(kit, here, (first, last))
    return _paper(
        kit,
        found,
        fold=folds,
        seam=tuple(found.point(p) for p in dots),
        sewn=True,
        trimmed_along=tuple(_miter(backing, sides, corners, i) for i in range(len(sides))),
    )


def _miter(
    backing: Laid, sides: tuple[str, ...], corners: tuple[str, ...], i: int
) -> tuple[Line, Line]:
    """Both halves of a miter, from the first dot to the fold point and from there to the second."""
    first = backing.line(MarkKind.MITER_STITCH, f"{corners[i]}:{sides[i - 1]}")
    second = backing.line(MarkKind.MITER_STITCH, f"{corners[i]}:{sides[i]}")
    return first, (second[1], second[0])


def paper_of_folded(kit: Kit) -> Paper:
    """Lays a folded-over blanket down; the seam polygon is that of the patchwork."""
    sides = side_names(kit)
    backing, flat = _backing(kit), lay(kit.top, IDENTITY)
    ends = sides[0], sides[len(sides) // 2]
    here, there = (
        (each.point(MarkKind.CENTER, ends[0]), each.point(MarkKind.CENTER, ends[1]))
        for each in (flat, backing)
    )
    corner_folds = (backing.line(MarkKind.CORNER_FOLD, at) for at in corner_names(kit))
    return _paper(
        kit,
        _top_found(kit, here, there),
        fold=dict.fromkeys(sides, IDENTITY),
        seam=as_sewn(kit),
        sewn=False,
        trimmed_along=tuple(
            ((start, middle(start, end)), (middle(start, end), end)) for start, end in corner_folds
        ),
    )


def _backing(kit: Kit) -> Laid:
    """The backing laid down by its place."""
    return lay(kit.backing, kit.backing.places[0])


def _top_found(kit: Kit, here: Line, there: Line) -> Motion:
    """What carries two places of the top to where they lie, turned over to show its right side."""
    return carry(here, there, mirrored=turns_over(kit.top.face, Face.RIGHT))


def _paper(
    kit: Kit,
    found: Motion,
    *,
    fold: Mapping[str, Motion],
    seam: Ring,
    sewn: bool,
    trimmed_along: tuple[tuple[Line, Line], ...],
) -> Paper:
    """What both constructions have in common, and what each of them brings."""
    return Paper(
        kit=kit,
        measure=Measure(kit.project.ruler),
        sides=side_names(kit),
        corners=corner_names(kit),
        found=found,
        top=lay(kit.top, found),
        backing=_backing(kit),
        fold=fold,
        seam=seam,
        sewn=sewn,
        trimmed_along=trimmed_along,
    )


def as_sewn(kit: Kit) -> Ring:
    """The patchwork's outline, stretched to the size or shape of a sewn top that was measured."""
    taped = seam_as_taped(kit.project)
    if taped is not None:
        return taped
    designed, sewn = kit.project.finished_top, kit.project.sewn_top
    if designed is None or sewn is None or not kit.pieced:
        return kit.patchwork.outline
    across, down = float(sewn[0] / designed[0]), float(sewn[1] / designed[1])
    return tuple((x * across, y * down) for x, y in kit.patchwork.outline)
