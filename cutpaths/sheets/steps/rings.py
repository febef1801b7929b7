"""Questions about rings that are painted: which covers which, and where stripes go; mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Item
from cutpaths.geometry.polygons import (
    Ring,
    cross,
    distance,
    edges,
    signed_area,
    sub,
    unit,
)
from cutpaths.shapes import Path, Point
from cutpaths.sheets.steps.ink import (
    stripes,
)


def uncovered(painted: Sequence[Item]) -> list[Item]:
    """Painted shapes without those that the very same shape covers later on.

    Points are compared on a grid and on one half a step aside, so that no two that are one fall on
    either side of a line of both.
    """
    left = list(painted)
    for aside in (0.0, 0.5):
        last = {course(item, aside): i for i, item in enumerate(left)}
        left = [item for i, item in enumerate(left) if last[course(item, aside)] == i]
    return left


def course(item: Item, aside: float) -> frozenset[tuple[int, int]]:
    """The same for painted shapes through the same points."""
    points = item.shape.points if isinstance(item.shape, Path) else ()
    grid = SAME_POINT_MM * 10
    return frozenset((round(x / grid + aside), round(y / grid + aside)) for x, y in points)


def points_apart(ring: Ring) -> Ring:
    """A ring without points that lie on the one before."""
    return tuple(p for i, p in enumerate(ring) if distance(p, ring[i - 1]) > SAME_POINT_MM)


def striped(ring: Ring, slope: int) -> Iterator[Ring]:
    """Stripes inside a ring; one with a dent is taken apart into triangles that fan out."""
    if is_convex(ring):
        yield from stripes(ring, slope)
        return
    for part in triangles(ring):
        yield from stripes(part, slope)


def is_convex(ring: Ring) -> bool:
    """Whether no corner of a counter-clockwise ring turns in."""
    turns = [signed_area((a, b, c)) for a, b, c in triples(ring)]
    return all(turn > -DENT_MM2 for turn in turns)


def triples(ring: Ring) -> Iterator[tuple[Point, Point, Point]]:
    """Each point of a ring between its neighbours."""
    for i, point in enumerate(ring):
        yield ring[i - 1], point, ring[(i + 1) % len(ring)]


def triangles(ring: Ring) -> Iterator[Ring]:
    """A simple ring as triangles, cut off one ear at a time (Meisters, 1975)."""
    points = list(ring)
    while len(points) > 3:
        for i, (a, b, c) in enumerate(triples(tuple(points))):
            rest = [p for p in points if p not in (a, b, c)]
            if signed_area((a, b, c)) > 0 and not any(lies_in(p, (a, b, c)) for p in rest):
                yield a, b, c
                del points[i]
                break
        else:
            return
    if signed_area(tuple(points)) > 0:
        yield tuple(points)


def lies_in(point: Point, ring: Ring) -> bool:
    """Whether a point lies in a convex ring, its edge included."""
    return all(signed_area((p, q, point)) > -1e-9 for p, q in edges(ring))


def covers(cover: Ring, ring: Ring) -> bool:
    """Whether a convex ring leaves nothing of another to be seen but its outline."""
    return all(
        cross(unit(sub(q, p)), sub(point, p)) > -COVER_MM for p, q in edges(cover) for point in ring
    )


SAME_POINT_MM = 1e-4


DENT_MM2 = 1e-3  # corners that turn in by less are straight


COVER_MM = 0.4  # what stands out by less shows no more than its outline


def encloses(ring: Ring, point: Point) -> bool:
    """Whether a ring of any shape has a point inside it: a ray meets it an odd number of times."""
    x, y = point
    met = 0
    for (x0, y0), (x1, y1) in edges(ring):
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            met += 1
    return met % 2 == 1
