"""Where the joining seams of a backing may lie; mm, in the backing's own frame.

A seam runs from head to foot at one x, or from left to right at one y: its place along the other
axis is one number. Pressed open, its allowances lie on both sides of it, so what it keeps off is
kept off by an allowance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import Ring, between, edges, sub
from cutpaths.shapes import Point

_WHY = {
    MarkKind.CENTER: "a center mark",
    MarkKind.DOT: "a dot",
    MarkKind.MITER_FOLD: "a miter",
    MarkKind.MITER_STITCH: "a miter",
    MarkKind.MITER_TRIM: "a miter",
    MarkKind.CORNER_FOLD: "a corner fold",
    MarkKind.OPENING_FOLD: "the turning opening",
    MarkKind.OPENING_END: "the turning opening",
}
# Edges this near to the seam's own way run along it (no unit: sine of the angle).
ALONG = 1e-6
SAME_MM = 1e-6


class Span(NamedTuple):
    """A stretch where no seam may lie, ends excluded, and what is there."""

    start: float
    end: float
    why: str


class Clear(NamedTuple):
    """All stretches where no seam may lie."""

    spans: tuple[Span, ...]

    def nearest(self, wanted: float, most: float, step: float) -> float | None:
        """The clear place nearest to a wanted one, over 0 and under most, on a ruler's step."""
        free = [at for at in self._ends(wanted, step) if 0 < at < most]
        return min(free, key=lambda at: (round(abs(at - wanted), 6), at), default=None)

    def last(self, most: float, step: float) -> float | None:
        """The last clear place that is not beyond a given one, on a ruler's step."""
        free = [at for at in self._ends(most, step) if 0 < at <= most + SAME_MM]
        return max(free, default=None)

    def _ends(self, wanted: float, step: float) -> Iterator[float]:
        """The clear ones among a place and the ends of all stretches, on the step next to each."""
        ends = [end for span in self.spans for end in (span.start, span.end)]
        for at in (wanted, *ends):
            low = math.floor(at / step + SAME_MM) * step
            yield from (on for on in (low, low + step) if blocked(self, on) is None)


def blocked(clear: Clear, at: float) -> str | None:
    """What keeps a seam from lying at a place; None where nothing does."""
    for span in clear.spans:
        if span.start + SAME_MM < at < span.end - SAME_MM:
            return span.why
    return None


def kept_clear(
    marks: Sequence[Mark], finished: Ring, *, down: bool, clearance: float, from_edge: float
) -> Clear:
    """Where seams of one way must not lie.

    Args:
        marks: of the backing.
        finished: the blanket's finished outline in the backing's frame.
        down: whether the seams run from head to foot.
        clearance: from marks.
        from_edge: from finished edges that run along the seams.
    """
    spans = [*_marked(marks, clearance, down=down), *_edges(finished, from_edge, down=down)]
    return Clear(tuple(spans))


def _marked(marks: Sequence[Mark], clearance: float, *, down: bool) -> Iterator[Span]:
    for mark in marks:
        if mark.kind in _WHY:
            on = [p[0] if down else p[1] for p in mark.points]
            yield Span(min(on) - clearance, max(on) + clearance, _WHY[mark.kind])


def _edges(finished: Ring, from_edge: float, *, down: bool) -> Iterator[Span]:
    """Beside finished edges that run along the seams, and all that lies outside the outline."""
    places = [p[0] if down else p[1] for p in finished]
    for start, end in edges(finished):
        way = sub(end, start)
        off, run = (way[0], way[1]) if down else (way[1], way[0])
        if abs(off) <= ALONG * abs(run):
            at = start[0] if down else start[1]
            yield Span(at - from_edge, at + from_edge, "a finished edge, 2 in at least")
    far = max(places) - min(places)
    yield Span(min(places) - far, min(places), "the border's fold")
    yield Span(max(places), max(places) + far, "the border's fold")


def cross_section(ring: Ring, at: float, *, down: bool) -> tuple[Point, Point]:
    """The ends of the line at a place across a convex ring, from the foot or from the left."""
    axis, other = (0, 1) if down else (1, 0)
    found = []
    for start, end in edges(ring):
        low, high = start[axis] - at, end[axis] - at
        if (low <= 0 < high) or (high <= 0 < low):
            found.append(between(start, end, low / (low - high)))
    first, last = sorted(found, key=lambda p: p[other])[:: len(found) - 1]
    return first, last
