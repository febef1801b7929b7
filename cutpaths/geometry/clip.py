"""The part of a ring or of a segment that lies inside a convex window; mm."""

from __future__ import annotations

from cutpaths.geometry.polygons import (
    ON_EDGE_MM,
    Ring,
    between,
    cross,
    distance,
    dot,
    edges,
    right_of,
    sub,
    unit,
)
from cutpaths.shapes import Point

# Two sides that span less than this are parallel.
PARALLEL_MM2 = 1e-12


def clipped(ring: Ring, window: Ring) -> Ring:
    """What a convex window shows of a convex ring; empty where it shows nothing.

    A ring that lies inside comes back as it is. (Sutherland and Hodgman, 1974.)

    >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    >>> clipped(((1.0, 1.0), (9.0, 1.0), (9.0, 3.0), (1.0, 3.0)), square)
    ((1.0, 1.0), (4.0, 1.0), (4.0, 3.0), (1.0, 3.0))
    """
    for start, end in edges(window):
        out = right_of(unit(sub(end, start)))
        depths = [-dot(sub(p, start), out) for p in ring]
        if all(depth <= ON_EDGE_MM for depth in depths):
            return ()
        if any(depth < -ON_EDGE_MM for depth in depths):
            ring = _cut(ring, depths)
    return ring


def _cut(ring: Ring, depths: list[float]) -> Ring:
    """The part of a ring whose depth inside a line is positive."""
    kept = []
    for i, (start, end) in enumerate(edges(ring)):
        here, there = depths[i], depths[(i + 1) % len(ring)]
        if here > -ON_EDGE_MM:
            kept.append(start)
        if min(here, there) < -ON_EDGE_MM and max(here, there) > ON_EDGE_MM:
            kept.append(between(start, end, here / (here - there)))
    return tuple(kept)


def span_inside(
    start: Point, end: Point, window: Ring, slack: float = 0.0
) -> tuple[float, float] | None:
    """Where along a segment it enters and leaves a convex window, as parts of its length.

    None where it has no point inside; a segment along an edge may lie `slack` outside it.
    (Cyrus and Beck, 1978.)

    >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    >>> span_inside((-2.0, 1.0), (2.0, 1.0), square)
    (0.5, 1.0)
    """
    way, low, high = sub(end, start), 0.0, 1.0
    for corner, after in edges(window):
        side = sub(after, corner)
        inside, gain = cross(side, sub(start, corner)), cross(side, way)
        if abs(gain) < PARALLEL_MM2:
            if inside < 0.0 and inside < -slack * distance(corner, after):
                return None
        elif gain > 0.0:
            low = max(low, -inside / gain)
        else:
            high = min(high, -inside / gain)
        if low > high:
            return None
    return low, high
