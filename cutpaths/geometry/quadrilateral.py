"""The quadrilateral that a sewn top really is, from lengths taped on it; mm, front view.

Corners are DA, AB, BC, CD, counter-clockwise; DA lies at the origin and side A along x. Four sides
and a diagonal settle it; where more is taped, the whole is fitted by least squares.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from enum import StrEnum

from cutpaths.geometry.equations import solution
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Point


class Span(StrEnum):
    """What is taped from place to place: sides, diagonals, and the lines through the middle."""

    A = "A"
    B = "B"
    C = "C"
    D = "D"
    RISING = "DA-BC"
    FALLING = "AB-CD"
    WIDTH = "width"
    HEIGHT = "height"


SIDES = (Span.A, Span.B, Span.C, Span.D)
DIAGONALS = (Span.RISING, Span.FALLING)
MIDDLES = (Span.WIDTH, Span.HEIGHT)

# Each span as the sum of these parts of the corners DA, AB, BC, CD.
_PARTS = {
    Span.A: (-1.0, 1.0, 0.0, 0.0),
    Span.B: (0.0, -1.0, 1.0, 0.0),
    Span.C: (0.0, 0.0, -1.0, 1.0),
    Span.D: (1.0, 0.0, 0.0, -1.0),
    Span.RISING: (-1.0, 0.0, 1.0, 0.0),
    Span.FALLING: (0.0, -1.0, 0.0, 1.0),
    Span.WIDTH: (-0.5, 0.5, 0.5, -0.5),
    Span.HEIGHT: (-0.5, -0.5, 0.5, 0.5),
}
# Edges stretch, so the middle counts for more; common practice, the number has no source.
_MIDDLE_WEIGHT = 2.0
# The fit is there when a step moves no corner by more than this part of the perimeter.
_STILL = 1e-15
_STEPS_MOST = 200


def fit(taped: Mapping[Span, float]) -> Ring:
    """The quadrilateral whose lengths come nearest to those taped.

    Gauss-Newton from the rectangle of the sides' averages: the weighted squares of the misfits are
    made least. What no more than settles it is met exactly.

    Raises:
        ValueError: a side or both diagonals are missing, or no quadrilateral is near the lengths.
    """
    if not (taped.keys() >= set(SIDES) and taped.keys() & set(DIAGONALS)):
        raise ValueError("must have four sides and a diagonal")
    width = (taped[Span.A] + taped[Span.C]) / 2
    height = (taped[Span.B] + taped[Span.D]) / 2
    ring: Ring = (0.0, 0.0), (width, 0.0), (width, height), (0.0, height)
    least = math.inf
    try:
        for _ in range(_STEPS_MOST):
            step = _step(ring, taped)
            moved = max(map(abs, step))
            x1, x2, y2, x3, y3 = step
            ring = (
                (0.0, 0.0),
                (ring[1][0] + x1, 0.0),
                (ring[2][0] + x2, ring[2][1] + y2),
                (ring[3][0] + x3, ring[3][1] + y3),
            )
            # Steps shrink until only rounding errors are left of them.
            if moved <= _STILL * (width + height) or (
                moved < 1e-9 * (width + height) and moved >= least
            ):
                return ring
            least = min(least, moved)
    except (ZeroDivisionError, OverflowError) as error:
        raise ValueError("must be lengths of a quadrilateral") from error
    raise ValueError("must be lengths of a quadrilateral")


def length(ring: Ring, span: Span) -> float:
    """What a tape reads on a quadrilateral."""
    return math.hypot(*_vector(ring, span))


def misfits(ring: Ring, taped: Mapping[Span, float]) -> dict[Span, float]:
    """How much longer than taped each length of a quadrilateral is."""
    return {span: length(ring, span) - read for span, read in taped.items()}


def _vector(ring: Ring, span: Span) -> Point:
    parts = _PARTS[span]
    return (
        sum(part * p[0] for part, p in zip(parts, ring, strict=True)),
        sum(part * p[1] for part, p in zip(parts, ring, strict=True)),
    )


def _step(ring: Ring, taped: Mapping[Span, float]) -> list[float]:
    """One Gauss-Newton step of the coordinates that are free: x of AB, x and y of BC and CD."""
    squares = [[0.0] * 5 for _ in range(5)]
    right = [0.0] * 5
    for span, read in taped.items():
        weight = _MIDDLE_WEIGHT if span in MIDDLES else 1.0
        x, y = _vector(ring, span)
        now = math.hypot(x, y)
        _, ab, bc, cd = _PARTS[span]
        slopes = [part * way / now for part, way in ((ab, x), (bc, x), (bc, y), (cd, x), (cd, y))]
        for i, slope in enumerate(slopes):
            right[i] += weight**2 * slope * (read - now)
            for j, other in enumerate(slopes):
                squares[i][j] += weight**2 * slope * other
    return solution(squares, right)
