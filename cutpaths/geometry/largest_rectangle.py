"""The largest true rectangle that can be cut from a top that is nearly one; mm, front view.

Any rectangle inside the quadrilateral counts, however it is turned. Turned by a given angle, the
largest one touches all four sides (while they lean by some ten degrees at most, giving up width
never wins as much height); the best angle is searched for between those of the sides.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from cutpaths.geometry.equations import solution
from cutpaths.geometry.polygons import Ring, directions, dot, edges, right_of, sub
from cutpaths.shapes import Motion, Point
from cutpaths.values import Value

# Golden-section search ends when it knows the angle this well, in radians.
_ANGLE_KNOWN = 1e-9
_GOLDEN = (math.sqrt(5) - 1) / 2


class Trimmed(Value):
    """A rectangle cut from a quadrilateral.

    Attributes:
        ring: its corners in the quadrilateral's frame; side i was cut along side i.
        comes_off: for each side what is cut away, square to the cut, where that starts and ends.
    """

    ring: Ring
    comes_off: tuple[tuple[float, float], ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height."""
        (x1, y1), (x2, y2), (x3, y3), _ = self.ring
        return math.hypot(x2 - x1, y2 - y1), math.hypot(x3 - x2, y3 - y2)


def largest_rectangle(ring: Ring) -> Trimmed:
    """The rectangle of most area inside a quadrilateral that is nearly one and lies nearly level.

    Raises:
        ValueError: a side is turned by more than an eighth of a turn.
    """
    leans = sorted(_leans(ring))
    if max(map(abs, leans)) > math.pi / 4:
        raise ValueError("must be nearly a level rectangle")
    candidates = [*leans]
    for low, high in pairwise(leans):
        if high - low > _ANGLE_KNOWN:
            candidates.append(_peak(lambda lean: _area(ring, lean), low, high))
    best = max(candidates, key=lambda lean: _area(ring, lean))
    found = Motion(math.cos(best), math.sin(best)).ring(_corners(ring, best))
    return Trimmed(found, _comes_off(ring, found))


def _leans(ring: Ring) -> list[float]:
    """How far each side is turned from where a level rectangle has it, in radians."""
    ways = directions(ring)
    level: tuple[Point, ...] = (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)
    return [
        math.atan2(want[0] * way[1] - want[1] * way[0], dot(want, way))
        for want, way in zip(level, ways, strict=True)
    ]


def _corners(ring: Ring, lean: float) -> Ring:
    """The rectangle that touches all four sides, in a frame turned by an angle."""
    turned = Motion(math.cos(lean), -math.sin(lean)).ring(ring)
    rows, right = [], []
    # The unknowns are left, foot, right and head; each side is touched by one corner.
    for (start, _), way in zip(edges(turned), directions(turned), strict=True):
        out = right_of(way)
        row = [0.0] * 4
        row[2 if out[0] > 0 else 0] = out[0]
        row[3 if out[1] > 0 else 1] = out[1]
        rows.append(row)
        right.append(dot(out, start))
    left, foot, far, head = solution(rows, right)
    return (left, foot), (far, foot), (far, head), (left, head)


def _area(ring: Ring, lean: float) -> float:
    (left, foot), _, (far, head), _ = _corners(ring, lean)
    return (far - left) * (head - foot)


def _peak(height: Callable[[float], float], low: float, high: float) -> float:
    """Where a function with one peak is highest, by golden-section search."""
    inner = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    heights = height(inner[0]), height(inner[1])
    while high - low > _ANGLE_KNOWN:
        if heights[0] > heights[1]:
            high, inner = inner[1], (inner[1] - _GOLDEN * (inner[1] - low), inner[0])
            heights = height(inner[0]), heights[0]
        else:
            low, inner = inner[0], (inner[1], inner[0] + _GOLDEN * (high - inner[0]))
            heights = heights[1], height(inner[1])
    return (low + high) / 2


def _comes_off(ring: Ring, cut: Ring) -> tuple[tuple[float, float], ...]:
    """How far the raw edge of each side lies outside the ends of the cut along it."""
    found = []
    for (raw, _), raw_way, (start, end), way in zip(
        edges(ring), directions(ring), edges(cut), directions(cut), strict=True
    ):
        raw_out = right_of(raw_way)
        slant = dot(raw_out, right_of(way))
        found.append((dot(sub(raw, start), raw_out) / slant, dot(sub(raw, end), raw_out) / slant))
    return tuple(found)
