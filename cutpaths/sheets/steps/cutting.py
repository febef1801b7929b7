"""Cutting and folding rings and lines on paper; mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cutpaths.geometry.clip import span_inside
from cutpaths.geometry.polygons import (
    ON_EDGE_MM,
    Ring,
    along,
    between,
    cross,
    distance,
    edges,
    reflect,
    sub,
    unit,
)
from cutpaths.shapes import Point

Segment = tuple[Point, Point]

# Shorter parts of lines are not drawn.
SHORT_MM = 1e-4


def part_inside(start: Point, end: Point, window: Ring) -> Segment | None:
    """The part of a segment inside a convex ring; None where there is none."""
    span = span_inside(start, end, window, ON_EDGE_MM)
    if span is None:
        return None
    found = between(start, end, span[0]), between(start, end, span[1])
    return found if distance(*found) > SHORT_MM else None


def parts_outside(start: Point, end: Point, covers: Iterable[Ring]) -> tuple[Segment, ...]:
    """The parts of a segment that no convex ring covers."""
    parts: list[Segment] = [(start, end)]
    for cover in covers:
        parts = [left for part in parts for left in _less(*part, cover)]
    return tuple(parts)


def _less(start: Point, end: Point, cover: Ring) -> Iterator[Segment]:
    span = span_inside(start, end, cover)
    if span is None or span[0] == span[1]:
        yield start, end
        return
    for low, high in ((0.0, span[0]), (span[1], 1.0)):
        part = between(start, end, low), between(start, end, high)
        if distance(*part) > SHORT_MM:
            yield part


def side_of(ring: Ring, line: Segment, beside: Point) -> Ring:
    """The part of a ring on the side of a line where a point lies.

    A ring with a dent may come back with edges that lie on the line twice.
    """
    start, end = line
    way = unit(sub(end, start))
    turn = 1.0 if cross(way, sub(beside, start)) > 0 else -1.0
    depths = [turn * cross(way, sub(p, start)) for p in ring]
    kept: list[Point] = []
    for i, (p, q) in enumerate(edges(ring)):
        here, there = depths[i], depths[(i + 1) % len(ring)]
        if here >= 0.0:
            kept.append(p)
        if min(here, there) < 0.0 < max(here, there):
            kept.append(between(p, q, here / (here - there)))
    return tuple(kept)


def folded(ring: Ring, line: Segment) -> Ring:
    """A ring turned over along a line, again counter-clockwise."""
    return tuple(folded_point(p, line) for p in reversed(ring))


def folded_point(p: Point, line: Segment) -> Point:
    """A point turned over along a line."""
    return reflect(p, line[0], unit(sub(line[1], line[0])))


def long_line(start: Point, end: Point, reach: float) -> Segment:
    """A line drawn longer at both its ends."""
    way = unit(sub(end, start))
    return along(start, way, -reach), along(end, way, reach)
