"""Marks as lines of light; mm, in the frame of their piece.

As on every sheet, but a dot is a thin cross with an empty middle, where the pen goes: light on the
place itself would hide the pen's point.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.projector.needs import Wanted, corner_of, shown_marks
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point
from cutpaths.sheets.signs import sign
from cutpaths.values import Value

DOT_GAP = 1.0  # from the place to where its arms start
DOT_REACH = 5.0

CUT_LINE, CENTERS, LINES, OPENING = "cut line", "centers", "long lines", "opening"
_STEP_OF = {
    MarkKind.CENTER: CENTERS,
    MarkKind.QUARTER: CENTERS,
    MarkKind.PATCH_SEAM: CENTERS,
    MarkKind.OPENING_END: OPENING,
    MarkKind.OPENING_FOLD: OPENING,
}


class Ray(Value):
    """One line of light: its role, the step of the work that it belongs to, and its path."""

    role: Role
    step: str
    path: Path


def rays(piece: Piece, wanted: Wanted) -> tuple[Ray, ...]:
    """All lines of a piece, its raw edge first."""
    edge = Ray(Role.CUT, CUT_LINE, Path(piece.outline, closed=True))
    return edge, *(ray for mark in shown_marks(piece, wanted) for ray in _of_mark(mark))


def step_of(mark: Mark) -> str:
    """The step of the work in which a mark is drawn."""
    if mark.kind in _STEP_OF:
        return _STEP_OF[mark.kind]
    return f"corner {corner_of(mark)}" if corner_of(mark) else LINES


def _of_mark(mark: Mark) -> Iterator[Ray]:
    for line in sign(mark):
        match line:
            case Circle(center, _):
                for arm in empty_cross(center):
                    yield Ray(mark.role, step_of(mark), arm)
            case Path():
                yield Ray(mark.role, step_of(mark), line)


def empty_cross(at: Point) -> tuple[Path, ...]:
    """Four arms that leave the place itself dark."""
    x, y = at
    return tuple(
        Path(((x + dx * DOT_GAP, y + dy * DOT_GAP), (x + dx * DOT_REACH, y + dy * DOT_REACH)))
        for dx, dy in ((1, 0), (0, 1), (-1, 0), (0, -1))
    )
