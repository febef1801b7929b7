"""The way of a knife's axis, so that its trailing point follows the drawn line; mm.

A drag knife's point trails its axis by the blade offset. The axis runs that much past each
corner and swings round it, so that the point turns on the spot. A closed line is cut on past its
start by the overcut, because the point is not yet in line where it comes down.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from cutpaths.geometry.chords import chords
from cutpaths.geometry.polygons import along, cross, distance, dot, edges, sub, unit
from cutpaths.shapes import Circle, Path, Point

SAG_MM = 0.005  # between a swing or a circle and its chords; a fifth of a plotter's step


def knife_way(shape: Path | Circle, offset: float, overcut: float) -> Path | Circle:
    """The way of the axis along a line; the line itself where there is nothing to make up for."""
    if offset == 0.0 and (overcut == 0.0 or not _closed(shape)):
        return shape
    path = ring_of(shape) if isinstance(shape, Circle) else shape
    sides = edges(path.points) if path.closed else edges(path.points)[:-1]
    ways = [unit(sub(q, p)) for p, q in sides]
    points = [along(sides[0][0], ways[0], offset)]
    for n, ((_, corner), way) in enumerate(zip(sides, ways, strict=True)):
        points.append(along(corner, way, offset))
        last = n == len(sides) - 1
        if offset and not (last and not path.closed):
            points += _swing(corner, way, ways[(n + 1) % len(ways)], offset)
    if path.closed and overcut:
        reach = min(overcut, distance(*sides[0]))
        points.append(along(sides[0][0], ways[0], offset + reach))
    return Path(tuple(_without_standstill(points)))


def ring_of(circle: Circle) -> Path:
    """A circle as a closed line of chords."""
    return Path(chords(circle, SAG_MM), closed=True)


def _closed(shape: Path | Circle) -> bool:
    return isinstance(shape, Circle) or shape.closed


def _swing(corner: Point, before: Point, after: Point, offset: float) -> Iterator[Point]:
    """The axis round a corner, from one direction to the next, the shorter way."""
    turn = math.atan2(cross(before, after), dot(before, after))
    step = 2 * math.acos(max(0.5, 1 - SAG_MM / offset))
    count = max(1, math.ceil(abs(turn) / step))
    start = math.atan2(before[1], before[0])
    for n in range(1, count):
        angle = start + turn * n / count
        yield along(corner, (math.cos(angle), math.sin(angle)), offset)
    yield along(corner, after, offset)


def _without_standstill(points: list[Point]) -> Iterator[Point]:
    """The points without those that are where the one before is, to a drawing's step."""
    before: Point | None = None
    for point in points:
        rounded = round(point[0], 6), round(point[1], 6)
        if rounded != before:
            yield point
        before = rounded
