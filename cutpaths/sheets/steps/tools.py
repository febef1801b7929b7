"""Tools in step pictures: machine foot, hand needle and iron; mm on the sheet."""

from __future__ import annotations

from itertools import pairwise

from cutpaths.geometry.polygons import along, right_of
from cutpaths.paint import Paint, from_hex
from cutpaths.shapes import Point
from cutpaths.sheets.steps.ink import HEAD, HOLE, STEEL, Painted, curve, disc, stroke

THREAD = Paint(colour=from_hex("#0b2545"))
_THREAD_MM = 0.35


def foot(needle: Point, way: Point, size: float = 1.0) -> tuple[Painted, ...]:
    """The foot of a sewing machine from above: the needle between two toes that point `way`."""
    side = right_of(way)
    found: list[Painted] = []
    for turn in (1.0, -1.0):
        start = along(along(needle, way, -1.6 * size), side, 1.35 * size * turn)
        found.append((stroke(start, along(start, way, 5.4 * size), 1.5 * size), STEEL))
    back = along(needle, way, -2.2 * size)
    found.append((stroke(along(back, way, -1.1 * size), along(back, way, 1.1 * size), 4.2), STEEL))
    found.append((disc(along(back, way, -0.2), 0.7 * size), HOLE))
    found.append((disc(needle, 0.5 * size), HEAD))
    return tuple(found)


def hand_needle(point: Point, way: Point, size: float = 1.0) -> tuple[Painted, ...]:
    """A sewing needle with its thread; its point at a place, its eye toward `way`."""
    side = right_of(way)
    end, wide = along(point, way, 12.0 * size), along(point, way, 3.0 * size)
    ring = (
        point,
        along(wide, side, 0.45),
        along(end, side, 0.6),
        along(end, side, -0.6),
        along(wide, side, -0.45),
    )
    eye = along(point, way, 10.6 * size)
    tail = curve(eye, along(along(eye, side, 9.0 * size), way, -3.0 * size), 4.0 * size)
    thread = [(stroke(p, q, _THREAD_MM), THREAD) for p, q in pairwise(tail)]
    slit = stroke(along(point, way, 9.6 * size), along(point, way, 11.4 * size), 0.5)
    return (ring, STEEL), (slit, HOLE), *(thread if size == 1.0 else ())


_SOLE = (
    (-1.0, -0.55),
    (0.2, -0.55),
    (0.7, -0.3),
    (1.0, 0.0),
    (0.7, 0.3),
    (0.2, 0.55),
    (-1.0, 0.55),
)


def iron(at: Point, size: float = 15.0, way: Point = (1.0, 0.0)) -> tuple[Painted, ...]:
    """An iron seen from above, its middle at a place, its tip toward `way`."""
    half, side = size / 2, right_of(way)

    def placed(u: float, v: float) -> Point:
        return along(along(at, way, half * u), side, -half * v)

    grip = ((-0.75, -0.16), (-0.75, 0.16), (0.3, 0.16), (0.3, -0.16))
    return (
        (tuple(placed(u, v) for u, v in _SOLE), STEEL),
        (tuple(placed(u, v) for u, v in grip), HEAD),
    )


def chip_of_foot() -> tuple[Painted, ...]:
    """A machine foot as large as a chip of the key."""
    return foot((3.6, 2.1), (1.0, 0.0), 0.75)


def chip_of_needle() -> tuple[Painted, ...]:
    """A hand needle as large as a chip of the key."""
    return hand_needle((0.2, 1.2), (0.99, 0.141), 0.62)
