"""Points, lines and rings of the plane.

Millimetres, x right, y up. A ring is a tuple of points, counter-clockwise, without a repeated last
point; edge i runs from point i to point i + 1, and outside is to its right.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cutpaths.shapes import Motion, Point

Ring = tuple[Point, ...]

# Two coordinates nearer than this are one place; far below what any ruler or plotter can show.
SAME_PLACE_MM = 1e-7
# A point nearer than this to a line lies on it; far below what can be seen or sewn.
ON_EDGE_MM = 1e-6
# Two directions stand square, or one lies along an axis, where the sine of the error is below this.
SQUARE_SINE = 1e-9


def sub(p: Point, q: Point) -> Point:
    """The vector from q to p."""
    return p[0] - q[0], p[1] - q[1]


def along(p: Point, direction: Point, amount: float) -> Point:
    """The point `amount` times `direction` from p."""
    return p[0] + amount * direction[0], p[1] + amount * direction[1]


def between(p: Point, q: Point, part: float) -> Point:
    """The point at `part` (0 to 1) of the way from p to q."""
    return along(p, sub(q, p), part)


def middle(p: Point, q: Point) -> Point:
    """The point half way between two points."""
    return (p[0] + q[0]) / 2, (p[1] + q[1]) / 2


def dot(u: Point, v: Point) -> float:
    """Scalar product."""
    return u[0] * v[0] + u[1] * v[1]


def cross(u: Point, v: Point) -> float:
    """Cross product; positive when v is to the left of u."""
    return u[0] * v[1] - u[1] * v[0]


def distance(p: Point, q: Point) -> float:
    """Distance between two points."""
    return math.hypot(p[0] - q[0], p[1] - q[1])


def unit(v: Point) -> Point:
    """The vector of length 1 in the direction of v; exact along the axes."""
    length = math.hypot(*v)
    return v[0] / length, v[1] / length


def right_of(u: Point) -> Point:
    """The direction a quarter turn clockwise from u: outside, for an edge of a ring."""
    return u[1], -u[0]


def edges(ring: Ring) -> tuple[tuple[Point, Point], ...]:
    """Each edge as its two ends."""
    return tuple(zip(ring, ring[1:] + ring[:1], strict=True))


def directions(ring: Ring) -> tuple[Point, ...]:
    """Unit direction of each edge."""
    return tuple(unit(sub(q, p)) for p, q in edges(ring))


def signed_area(ring: Ring) -> float:
    """Area in mm²; positive for a counter-clockwise ring."""
    return sum(cross(p, q) for p, q in edges(ring)) / 2


def perimeter(ring: Ring) -> float:
    """Length of all edges together, in mm."""
    return sum(distance(p, q) for p, q in edges(ring))


def corner_angle(ring: Ring, i: int) -> float:
    """Interior angle at point i, in degrees."""
    before, here, after = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
    u, v = sub(after, here), sub(before, here)
    return math.degrees(math.atan2(cross(u, v), dot(u, v))) % 360.0


def meet(p: Point, u: Point, q: Point, v: Point) -> Point:
    """Where the line through p along u meets the line through q along v.

    Raises:
        ZeroDivisionError: they are parallel.
    """
    return along(p, u, cross(sub(q, p), v) / cross(u, v))


def reflect(p: Point, on: Point, direction: Point) -> Point:
    """The mirror image of p in the line through `on` along the unit vector `direction`."""
    foot = along(on, direction, dot(sub(p, on), direction))
    return 2 * foot[0] - p[0], 2 * foot[1] - p[1]


def offset(ring: Ring, distances: Sequence[float]) -> Ring:
    """A ring with each edge shifted outward by its own distance, extended until they meet.

    Corners stay sharp. Edge i of the result is parallel to edge i of the ring; whether it still
    runs the same way is for `keeps_directions` to say.
    """
    ways = directions(ring)
    lines = [
        (along(p, right_of(way), d), way) for p, way, d in zip(ring, ways, distances, strict=True)
    ]
    return tuple(meet(*lines[i - 1], *lines[i]) for i in range(len(ring)))


def keeps_directions(ring: Ring, like: Ring) -> tuple[bool, ...]:
    """For each edge, whether it has a length and runs the same way as that of `like`."""
    return tuple(
        dot(sub(q, p), way) > SAME_PLACE_MM
        for (p, q), way in zip(edges(ring), directions(like), strict=True)
    )


def inside_by(point: Point, ring: Ring) -> float:
    """How far a point lies inside a convex ring: distance to the nearest edge line, in mm.

    Negative outside.
    """
    return min(
        -dot(sub(point, p), right_of(way)) for p, way in zip(ring, directions(ring), strict=True)
    )


def encloses(ring: Ring, point: Point) -> bool:
    """Whether a point lies inside a ring of any shape; counted by a ray."""
    x, y = point
    crossings = 0
    for (x0, y0), (x1, y1) in edges(ring):
        if (y0 > y) != (y1 > y):
            crossings += x < x0 + (y - y0) / (y1 - y0) * (x1 - x0)
    return crossings % 2 == 1


def box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of some points."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def carry(a: tuple[Point, Point], b: tuple[Point, Point], *, mirrored: bool) -> Motion:
    """The rigid motion that carries the first point of `a` to that of `b`, and its way likewise.

    Where both pairs are equally far apart the second points meet too.
    """
    still = Motion(mirrored=mirrored)
    u = unit(sub(still.point(a[1]), still.point(a[0])))
    v = unit(sub(b[1], b[0]))
    turn = Motion(dot(u, v), cross(u, v), 0.0, 0.0, mirrored)
    moved = turn.point(a[0])
    return Motion(turn.cos, turn.sin, b[0][0] - moved[0], b[0][1] - moved[1], mirrored)
