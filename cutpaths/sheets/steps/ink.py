"""Shapes that step pictures are painted with: strokes, arrows, discs, pins; mm on the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from cutpaths.geometry.polygons import (
    Ring,
    along,
    box,
    distance,
    dot,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.paint import Paint, from_hex
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import part_inside
from cutpaths.sheets.steps.tints import STRIPE_MM, STRIPES_MM

Painted = tuple[Ring, Paint]

WHITE = (255, 255, 255)
ARROW = Paint(colour=from_hex("#b3261e"), edge=WHITE)
STEEL = Paint(colour=from_hex("#4a4f57"), edge=WHITE)
GAP = Paint(colour=from_hex("#b3261e"))  # an opening in a seam
HOLE = Paint(colour=WHITE)
HEAD = Paint(colour=from_hex("#c2185b"), edge=WHITE)
BELOW = Paint(colour=WHITE, edge=from_hex("#b3261e"))  # an arrow of a motion below the cloth
DOT = Paint(colour=from_hex("#111111"), edge=WHITE)
PIN_MM, PIN_HEAD_MM = 9.0, 1.0
ARROW_MM, ARROW_HEAD_MM = 1.0, 3.4
DISC_SIDES = 48
CURVE_STEPS = 18


def stroke(start: Point, end: Point, width: float) -> Ring:
    """A straight stroke as a thin rectangle."""
    side = right_of(unit(sub(end, start)))
    half = width / 2
    return (
        along(start, side, half),
        along(end, side, half),
        along(end, side, -half),
        along(start, side, -half),
    )


def disc(center: Point, radius: float) -> Ring:
    """A disc as a ring of many sides."""
    turns = (math.tau * i / DISC_SIDES for i in range(DISC_SIDES))
    return tuple(
        (center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns
    )


def stripes(area: Ring, slope: int) -> Iterator[Ring]:
    """Stripes at 60 degrees to the level all over a convex area, in places fixed to the sheet."""
    way = math.cos(math.radians(60.0)), slope * math.sin(math.radians(60.0))
    across = -way[1], way[0]
    reaches = [dot(p, across) for p in area]
    left, low, right, high = box(area)
    far = math.hypot(right - left, high - low)
    center = middle((left, low), (right, high))
    for step in range(
        math.ceil(min(reaches) / STRIPES_MM), math.floor(max(reaches) / STRIPES_MM) + 1
    ):
        on = along(center, across, step * STRIPES_MM - dot(center, across))
        part = part_inside(along(on, way, -far), along(on, way, far), area)
        if part and distance(*part) > STRIPE_MM:
            yield stroke(*part, STRIPE_MM)


def curve(start: Point, end: Point, bulge: float) -> tuple[Point, ...]:
    """A bow from point to point; it rises `bulge` to the left of the straight way."""
    way = sub(end, start)
    control = along(middle(start, end), right_of(unit(way)), -2.0 * bulge)
    parts = (i / CURVE_STEPS for i in range(CURVE_STEPS + 1))
    return tuple(
        (
            (1 - t) ** 2 * start[0] + 2 * t * (1 - t) * control[0] + t**2 * end[0],
            (1 - t) ** 2 * start[1] + 2 * t * (1 - t) * control[1] + t**2 * end[1],
        )
        for t in parts
    )


def arrow(line: tuple[Point, ...], width: float = ARROW_MM) -> Ring:
    """An arrow along a line of points, its head at the end."""
    head = ARROW_HEAD_MM * width / ARROW_MM
    tip = line[-1]
    body = [p for p in line[:-1] if distance(p, tip) > head]
    body = body or [line[0]]
    way = unit(sub(tip, body[-1]))
    neck = along(tip, way, -head)
    points = [*body, neck]
    sides = [_normal(points, i) for i in range(len(points))]
    right = [along(p, n, width / 2) for p, n in zip(points, sides, strict=True)]
    left = [along(p, n, -width / 2) for p, n in zip(points, sides, strict=True)]
    wide = right_of(way)
    return (
        *right,
        along(neck, wide, head * 0.5),
        tip,
        along(neck, wide, -head * 0.5),
        *reversed(left),
    )


def _normal(points: list[Point], i: int) -> Point:
    before, after = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
    return right_of(unit(sub(after, before)))


def pin(point: Point, way: Point, size: float = 1.0) -> tuple[Painted, ...]:
    """A pin whose point lies beyond a place, its head toward `way`."""
    long = PIN_MM * size
    start, end = along(point, way, -long * 0.4), along(point, way, long * 0.6)
    return (stroke(start, end, 0.55 * size), STEEL), (disc(end, PIN_HEAD_MM * size), HEAD)


def scissors(point: Point, way: Point) -> tuple[Painted, ...]:
    """Scissors that have just begun to cut at a place, their handles toward `-way`."""
    side = right_of(way)
    pivot = along(point, way, -5.0)
    found: list[Painted] = []
    for turn in (1.0, -1.0):
        tip = along(along(pivot, way, 9.0), side, 1.6 * turn)
        blade = unit(sub(tip, pivot))
        across = right_of(blade)
        back = along(pivot, blade, -5.5)
        handle = along(along(back, blade, -2.0), across, -0.6 * turn)
        found.append(
            (
                (
                    tip,
                    along(pivot, across, -0.9),
                    along(back, across, -0.5),
                    along(back, across, 0.5),
                    along(pivot, across, 0.9),
                ),
                STEEL,
            )
        )
        found.append((disc(handle, 2.3), HEAD))
        found.append((disc(handle, 1.2), HOLE))
    return tuple(found)
