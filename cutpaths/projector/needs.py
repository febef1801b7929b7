"""What of a piece must be in some frame: boxes in the piece's frame; mm.

All marks of a corner are one box, so that one laying of the cloth marks its miter. A line that runs
on is cut into lengths, each of which may be in another frame.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from enum import StrEnum
from itertools import pairwise

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import CLOSED_KINDS, Mark, MarkKind
from cutpaths.geometry.polygons import between, box, distance, middle
from cutpaths.shapes import Point
from cutpaths.values import Value

SIGN_REACH = 6.0  # how far a mark's sign reaches from its points
LENGTH_LEAST = 40.0
_PARTS = 6  # lengths of a line that a frame holds

# Lines from corner to corner of a side, and round the piece.
RUNNING = frozenset(
    {
        MarkKind.STITCH,
        MarkKind.SEAM_RING,
        MarkKind.BASTE,
        MarkKind.BORDER_FOLD,
        MarkKind.FIRST_FOLD,
        MarkKind.SECOND_FOLD,
        MarkKind.OPENING_FOLD,
        MarkKind.CORNER_FOLD,
        MarkKind.TIP_TRIM,
    }
)
# Not marked by light: the grain is seen in the cloth.
UNWANTED = frozenset({MarkKind.GRAIN, MarkKind.CUT_APART})

Box = tuple[float, float, float, float]


class Wanted(StrEnum):
    """Which marks the frames must show."""

    ALL = "all"
    CORNERS = "corners"  # and centers


class Need(Value):
    """Something that must be in one frame, as a whole: its name, its box, and a place in it."""

    name: str
    box: Box


def corner_of(mark: Mark) -> str:
    """The corner that a mark belongs to, such as `AB`; empty for marks of a side."""
    name = mark.at.partition(":")[0]
    return name if len(name) == 2 and name.isalpha() else ""


def shown_marks(piece: Piece, wanted: Wanted) -> tuple[Mark, ...]:
    """The marks that frames show: those that are wanted, and nothing that would only distract."""
    marks = (mark for mark in piece.marks if mark.kind not in UNWANTED)
    if wanted is Wanted.ALL:
        return tuple(marks)
    return tuple(m for m in marks if corner_of(m) or m.kind is MarkKind.CENTER)


def needs_of(piece: Piece, wanted: Wanted, least: float) -> tuple[Need, ...]:
    """Everything that the frames of a piece must show.

    Args:
        piece: the piece.
        wanted: all marks, or only corners and centers.
        least: the shorter edge of a frame.
    """
    found = [*_corners(piece), *_points(piece, wanted)]
    if wanted is Wanted.ALL:
        found += _lines(piece, max(LENGTH_LEAST, least / _PARTS))
    return tuple(found)


def _corners(piece: Piece) -> Iterator[Need]:
    """A box for each corner, the raw corner of the cloth in it."""
    groups: dict[str, list[Point]] = {}
    for mark in piece.marks:
        if corner_of(mark) and mark.kind not in RUNNING | UNWANTED:
            groups.setdefault(corner_of(mark), []).extend(mark.points)
    for name, points in groups.items():
        left, bottom, right, top = box(points)
        heart = middle((left, bottom), (right, top))
        raw = min(piece.outline, key=lambda p: distance(p, heart))
        yield Need(f"corner {name}", box((*points, raw)))


def _points(piece: Piece, wanted: Wanted) -> Iterator[Need]:
    for mark in piece.marks:
        if corner_of(mark) or mark.kind in RUNNING | UNWANTED:
            continue
        if wanted is Wanted.ALL or mark.kind is MarkKind.CENTER:
            yield Need(f"{mark.kind.value} {mark.at}", box(mark.points))


def _lines(piece: Piece, length: float) -> Iterator[Need]:
    for mark in piece.marks:
        if mark.kind not in RUNNING:
            continue
        points = mark.points + (mark.points[:1] if mark.kind in CLOSED_KINDS else ())
        for start, end in pairwise(points):
            count = max(1, math.ceil(distance(start, end) / length))
            for n in range(count):
                ends = between(start, end, n / count), between(start, end, (n + 1) / count)
                yield Need(f"{mark.kind.value} {mark.at}".strip(), box(ends))
