"""Arrows across the seams of a chart: the way their allowances are pressed; mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from cutpaths.drawing import Item
from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.polygons import along, between, distance, dot, right_of, sub, unit
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point

REACH = 5.0  # pixels to either side of the seam
SEAM_LEAST = 30.0  # pixels; a shorter seam has no room for an arrow beside the texts
_HEAD = 3.0
_SAME = 3  # decimals of a mm


def arrows(seams: Sequence[Seam], corners: Sequence[Point], pixel: float) -> Iterator[Item]:
    """An arrow for each seam that is pressed to a side and long enough.

    It stands in the middle of the longest stretch that no corner of a patch interrupts.
    """
    lines = _on_lines(corners)
    for seam in seams:
        if seam.press is None:
            continue
        start, end = _stretch(seam, lines)
        if distance(start, end) >= SEAM_LEAST * pixel:
            yield from _arrow(between(start, end, 0.5), seam.press, pixel)


def _arrow(place: Point, way: Point, pixel: float) -> Iterator[Item]:
    tail, head = along(place, way, -REACH * pixel), along(place, way, REACH * pixel)
    back, side = along(head, way, -_HEAD * pixel), right_of(way)
    barbs = along(back, side, _HEAD * pixel), head, along(back, side, -_HEAD * pixel)
    yield Item(Role.MATCH, "chart", Path((tail, head)))
    yield Item(Role.MATCH, "chart", Path(barbs))


_Line = tuple[str, float]


def _on_lines(corners: Sequence[Point]) -> dict[_Line, list[Point]]:
    """Corners by the upright, level and diagonal lines that they lie on."""
    found: dict[_Line, list[Point]] = {}
    for corner in dict.fromkeys(corners):
        for line in _lines(corner):
            found.setdefault(line, []).append(corner)
    return found


def _lines(p: Point) -> list[_Line]:
    levels = zip("xyfr", (p[0], p[1], p[0] + p[1], p[0] - p[1]), strict=True)
    return [(name, round(level, _SAME) + 0.0) for name, level in levels]


def _stretch(seam: Seam, lines: dict[_Line, list[Point]]) -> tuple[Point, Point]:
    """The longest stretch of a seam between two corners."""
    shared = set(_lines(seam.start)) & set(_lines(seam.end))
    way, length = unit(sub(seam.end, seam.start)), seam.length
    stops = {0.0, length}
    for line in shared:
        places = (dot(sub(corner, seam.start), way) for corner in lines.get(line, ()))
        stops |= {at for at in places if 0.0 < at < length}
    start, end = max(pairwise(sorted(stops)), key=lambda ends: round(ends[1] - ends[0], _SAME))
    return along(seam.start, way, start), along(seam.start, way, end)
