"""The part of a ring that lies inside a convex window; mm."""

from __future__ import annotations

from cutpaths.geometry.polygons import ON_EDGE_MM, Ring, between, dot, edges, right_of, sub, unit


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
