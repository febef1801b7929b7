"""Where the grain line of a piece is marked; mm."""

from __future__ import annotations

from cutpaths.geometry.polygons import Ring, along, cross, edges, signed_area
from cutpaths.geometry.reach import reach_to_edge
from cutpaths.shapes import Point

# A line of this length is as easy to lay a ruler on as a longer one.
LONGEST = 100.0


def grain_line(ring: Ring, way: Point) -> tuple[Point, Point]:
    """A line along the threads through the center of a convex piece, clear of its edges.

    It runs a quarter of the way to the nearer edge in either direction.
    """
    center = centroid(ring)
    closed = [(*ring, ring[0])]
    ahead = reach_to_edge(center, way, 2 * LONGEST, closed)
    behind = reach_to_edge(center, (-way[0], -way[1]), 2 * LONGEST, closed)
    half = min(ahead, behind) / 4
    return along(center, way, -half), along(center, way, half)


def centroid(ring: Ring) -> Point:
    """The center of an area."""
    # Measured from a corner of its own, so that large coordinates take no digits.
    x0, y0 = ring[0]
    near = tuple((x - x0, y - y0) for x, y in ring)
    parts = [(cross(p, q) / 6, p, q) for p, q in edges(near)]
    area = signed_area(near)
    x = sum(part * (p[0] + q[0]) for part, p, q in parts) / area
    y = sum(part * (p[1] + q[1]) for part, p, q in parts) / area
    return x0 + x, y0 + y
