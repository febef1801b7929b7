"""The fewest beds that any layout could take: what a plan is measured against.

Two bounds, the better counts. Areas: pieces that lie the spacing apart, each widened by half of
it, do not overlap and lie in the bed widened likewise. Sizes: dual feasible functions, S. P.
Fekete and J. Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical
Programming 91, 2001. The spacing of boxes is taken to be kept across or along the bed.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from cutpaths.geometry.polygons import box, perimeter, signed_area
from cutpaths.machine.nesting import hull
from cutpaths.machine.parts import Part

SLACK = 1e-9  # of a bed; less is taken for a rounded number
_PARTS_MOST = 30
_EDGES_MOST = 8

Measure = Callable[[float], float]


def fewest_beds(parts: Sequence[Part], room: tuple[float, float], gap: float) -> int:
    """A number of beds below which no layout can go."""
    return max(_by_area(parts, room, gap), _by_size(parts, room, gap))


def _by_area(parts: Sequence[Part], room: tuple[float, float], gap: float) -> int:
    half = gap / 2
    need = sum(part.count * _widened(part, half) for part in parts)
    bed = room[0] * room[1] + 2 * (room[0] + room[1]) * half + math.pi * half**2
    return math.ceil(need / bed - SLACK)


def _widened(part: Part, by: float) -> float:
    """Area of a part and of all that is nearer to it than a distance; rounded at its corners."""
    ring = part.outline
    if len(hull(ring)) < len(ring):
        return signed_area(ring)  # a dent would be counted twice
    return signed_area(ring) + perimeter(ring) * by + math.pi * by**2


def _by_size(parts: Sequence[Part], room: tuple[float, float], gap: float) -> int:
    sizes = [(part.count, _sizes(part, room, gap)) for part in parts if _is_box(part)]
    if not sizes:
        return 0
    across = _measures([w for _, ways in sizes for w, _ in ways])
    down = _measures([h for _, ways in sizes for _, h in ways])
    most = max(
        sum(count * min(f(w) * g(h) for w, h in ways) for count, ways in sizes)
        for f in across
        for g in down
    )
    return math.ceil(most - SLACK)


def _is_box(part: Part) -> bool:
    left, bottom, right, top = box(part.turns[0].ring(part.outline))
    area = (right - left) * (top - bottom)
    return abs(signed_area(part.outline) - area) <= SLACK * area


def _sizes(part: Part, room: tuple[float, float], gap: float) -> list[tuple[float, float]]:
    """The part's size in each way it may lie and fits, as parts of the bed."""
    found = []
    for turn in part.turns:
        _, _, width, height = box(turn.ring(part.outline))
        w, h = (width + gap) / (room[0] + gap), (height + gap) / (room[1] + gap)
        if w <= 1 + SLACK and h <= 1 + SLACK:
            found.append((min(w, 1.0), min(h, 1.0)))
    return found


def _measures(lengths: list[float]) -> list[Measure]:
    """Functions under which lengths that fit side by side never add up to more than 1."""
    steps = min(_PARTS_MOST, math.ceil(1 / min(lengths)))
    edges = sorted({length for length in lengths if length <= 0.5})[:_EDGES_MOST]
    stepped: list[Measure] = [partial(_stepped, k) for k in range(1, steps + 1)]
    return [_as_is, *stepped, *(partial(_without_small, edge) for edge in edges)]


def _as_is(x: float) -> float:
    return x


def _stepped(k: int, x: float) -> float:
    """u(k): rounds down to k-th parts, exact (k + 1)-th parts stay."""
    parts = (k + 1) * x
    return x if abs(parts - round(parts)) <= SLACK * k else math.floor(parts) / k


def _without_small(edge: float, x: float) -> float:
    """U(edge): what is shorter counts nothing, what leaves less room than that counts all."""
    if x > 1 - edge + SLACK:
        return 1.0
    return x if x >= edge - SLACK else 0.0
