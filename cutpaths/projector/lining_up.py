"""What lines a window up on the cloth: raw edges in view first, earlier marks only where none is.

How well a person lays cloth on a line of light is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from enum import IntEnum

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind, select
from cutpaths.geometry.polygons import cross, distance, edges, sub, unit
from cutpaths.projector.needs import Box
from cutpaths.shapes import Point
from cutpaths.values import Value

LAID_MM = 0.5  # a raw edge, or a mark, on a line of light
PIN_MM = 1.5  # a pin, measured along a raw edge
PEN_MM = 0.5
EDGE_LEAST = 60.0  # mm of a raw edge in view that it takes to lay it
MARKS_APART = 100.0
_CORNER_SINE = 0.5  # edges that meet under 30 degrees do not fix a place

# Marks that are points on cloth, so that a frame can be laid on them.
POINTED = frozenset(
    {
        MarkKind.DOT,
        MarkKind.CENTER,
        MarkKind.QUARTER,
        MarkKind.PATCH_SEAM,
        MarkKind.OPENING_END,
        MarkKind.MITER_FOLD,
    }
)


class Hold(IntEnum):
    """What holds a frame in place, the best first."""

    CORNER = 0  # two raw edges
    EDGE_AND_MARK = 1
    EDGE_AND_PIN = 2
    TWO_MARKS = 3


class LiningUp(Value, kw_only=True):
    """How a window is lined up.

    Attributes:
        hold: what holds it.
        edges: letters of the raw edges used.
        marks: earlier marks used.
        length: of the longest line it is laid along, mm.
        error: of the place where it is held, mm.
    """

    hold: Hold
    edges: tuple[str, ...]
    marks: tuple[Mark, ...]
    length: float
    error: float

    def error_at(self, reach: float, calibration: float) -> float:
        """What a mark at a distance from where the frame is held may be off by, in mm."""
        laid = math.sqrt(2) * (self.error if self.hold is Hold.TWO_MARKS else LAID_MM)
        return math.hypot(calibration, self.error, laid / self.length * reach, PEN_MM)


class Earlier(Value):
    """A mark that is on the cloth already, and what it may be off by."""

    mark: Mark
    error: float


def lettered_edges(piece: Piece) -> dict[str, tuple[Point, Point]]:
    """The raw edge of each side; found by its center mark, which ends on it."""
    found = {}
    for mark in select(piece.marks, MarkKind.CENTER):
        found[mark.at] = min(edges(piece.outline), key=lambda e: _off(mark.points[1], e))
    return found


def line_up(piece: Piece, window: Box, earlier: Sequence[Earlier]) -> LiningUp | None:
    """The best that lines a window up; None where nothing does."""
    seen = _seen_edges(piece, window)
    corner = _corner(seen)
    if corner is not None:
        return corner
    inside = sorted((e for e in earlier if _in(e.mark.points[0], window)), key=lambda e: e.error)
    if seen:
        letter = max(seen, key=lambda name: seen[name][1])
        length = seen[letter][1]
        if inside:
            error = math.hypot(LAID_MM, inside[0].error)
            marks: tuple[Mark, ...] = (inside[0].mark,)
            hold = Hold.EDGE_AND_MARK
        else:
            error, marks, hold = math.hypot(LAID_MM, PIN_MM), (), Hold.EDGE_AND_PIN
        return LiningUp(hold=hold, edges=(letter,), marks=marks, length=length, error=error)
    return _two_marks(inside)


def _corner(seen: dict[str, tuple[Point, float]]) -> LiningUp | None:
    """The two raw edges in view that fix a place best, the longest pair."""
    pairs = [
        (min(seen[a][1], seen[b][1]), max(seen[a][1], seen[b][1]), a, b)
        for a in seen
        for b in seen
        if a < b and abs(cross(seen[a][0], seen[b][0])) >= _CORNER_SINE
    ]
    if not pairs:
        return None
    _, length, a, b = max(pairs)
    return LiningUp(hold=Hold.CORNER, edges=(a, b), marks=(), length=length, error=LAID_MM)


def _two_marks(inside: Sequence[Earlier]) -> LiningUp | None:
    pairs = [
        (distance(a.mark.points[0], b.mark.points[0]), a, b)
        for n, a in enumerate(inside)
        for b in inside[:n]
    ]
    apart = [pair for pair in pairs if pair[0] >= MARKS_APART]
    if not apart:
        return None
    length, a, b = max(apart, key=lambda pair: pair[0])
    error = math.hypot(LAID_MM, max(a.error, b.error))
    return LiningUp(
        hold=Hold.TWO_MARKS, edges=(), marks=(a.mark, b.mark), length=length, error=error
    )


def _seen_edges(piece: Piece, window: Box) -> dict[str, tuple[Point, float]]:
    """Direction and length in view of each raw edge that is seen well enough."""
    found = {}
    for letter, (start, end) in lettered_edges(piece).items():
        part = clipped(start, end, window)
        if part is not None and (length := distance(*part)) >= min(
            EDGE_LEAST, distance(start, end) / 2
        ):
            found[letter] = (unit(sub(end, start)), length)
    return found


def clipped(start: Point, end: Point, window: Box) -> tuple[Point, Point] | None:
    """The part of a segment in a window, by Liang and Barsky's clipping; None outside."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        for bound, sign in ((window[axis], 1.0), (window[axis + 2], -1.0)):
            rate, room = sign * step, sign * (start[axis] - bound) + 1e-6
            if rate == 0.0:
                if room < 0.0:
                    return None
            elif rate > 0.0:
                low = max(low, -room / rate)
            else:
                high = min(high, room / -rate)
    if low >= high:
        return None
    return (
        (start[0] + low * (end[0] - start[0]), start[1] + low * (end[1] - start[1])),
        (start[0] + high * (end[0] - start[0]), start[1] + high * (end[1] - start[1])),
    )


def pointed_in(marks: Iterable[Mark], window: Box) -> tuple[Mark, ...]:
    """The marks in a window that a later frame can be laid on."""
    return tuple(m for m in marks if m.kind in POINTED and _in(m.points[0], window))


def _in(p: Point, window: Box) -> bool:
    return window[0] <= p[0] <= window[2] and window[1] <= p[1] <= window[3]


def _off(p: Point, edge: tuple[Point, Point]) -> float:
    """How far a point is from an edge's line, or beyond its ends."""
    way = unit(sub(edge[1], edge[0]))
    u = sub(p, edge[0])
    along = u[0] * way[0] + u[1] * way[1]
    beyond = max(0.0, -along, along - distance(*edge))
    return abs(cross(way, u)) + beyond
