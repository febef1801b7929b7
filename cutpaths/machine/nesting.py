"""Alike shapes side by side in a row, every other one turned by half; mm.

Two triangles make up a parallelogram, a row of them a strip. Only the hull of a shape counts.
"""

from __future__ import annotations

from cutpaths.geometry.polygons import Ring, box, cross, directions, dot, right_of, sub
from cutpaths.shapes import Point

# Shapes farther back in a row than this cannot be reached past those between.
_BACK = 3


def hull(ring: Ring) -> Ring:
    """The convex hull, counter-clockwise (A. M. Andrew's monotone chain, 1979)."""
    points = sorted(set(ring))
    halves = []
    for way in (points, points[::-1]):
        half: list[Point] = []
        for p in way:
            while len(half) > 1 and cross(sub(half[-1], half[-2]), sub(p, half[-2])) <= 0:
                half.pop()
            half.append(p)
        halves += half[:-1]
    return tuple(halves)


def step_right(left: Ring, right: Ring, gap: float) -> float:
    """How far a convex ring must be shifted to the right to stand clear of another.

    The distance is kept along the normal of an edge, which is never less than asked for.
    """
    ways = [right_of(way) for way in directions(left)]
    ways += [(-n[0], -n[1]) for n in map(right_of, directions(right))]
    return min(
        (gap + max(dot(n, p) for p in left) - min(dot(n, p) for p in right)) / n[0]
        for n in ways
        if n[0] > 1e-9
    )


def row(shapes: tuple[Ring, Ring], room: float, gap: float, most: int) -> tuple[float, ...]:
    """Places from left to right, the two shapes in turn, as many as the room and `most` allow."""
    steps = {(a, b): step_right(shapes[a], shapes[b], gap) for a in (0, 1) for b in (0, 1)}
    widths = [box(shape)[2] for shape in shapes]
    places: list[float] = []
    for n in range(most):
        back = range(max(0, n - _BACK), n)
        x = max((places[k] + steps[k % 2, n % 2] for k in back), default=0.0)
        x = max(x, 0.0)
        if x + widths[n % 2] > room:
            break
        places.append(x)
    return tuple(places)


def starts_turned(shapes: tuple[Ring, Ring], room: float, gap: float, most: int) -> bool:
    """Whether a row that starts with the second shape holds more, or as many in less length."""
    reach = []
    for pair in (shapes, shapes[::-1]):
        places = row((pair[0], pair[1]), room, gap, most)
        reach.append((-len(places), places[-1] if places else 0.0))
    return reach[1] < reach[0]
