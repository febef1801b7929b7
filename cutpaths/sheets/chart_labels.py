"""Texts inside patches: as large as they fit, or left out; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Item
from cutpaths.geometry.polygons import (
    Ring,
    directions,
    distance,
    dot,
    edges,
    perimeter,
    right_of,
    sub,
)
from cutpaths.shapes import Anchor, Point
from cutpaths.sheets.sheet import label
from cutpaths.strokes import text_width

# Heights of capitals, in pixels of the plate.
LARGEST, LEAST = 9.0, 6.5
_LINES_APART = 1.8  # as a multiple of the height


def patch_label(ring: Ring, number: str, fabric: str, pixel: float, room: float) -> Iterator[Item]:
    """The number of a patch's piece, and its fabric below where both fit.

    Args:
        ring: the finished patch, convex.
        number: of its piece.
        fabric: name of its fabric.
        pixel: mm in a pixel.
        room: pixels that are kept free along its edges.
    """
    center = _center(ring)
    for lines in ((number, fabric), (number,)):
        height = min(LARGEST, _most(ring, center, lines, room * pixel) / pixel)
        if height >= LEAST:
            yield from _centered(lines, center, height * pixel)
            return


def _centered(lines: tuple[str, ...], center: Point, height: float) -> Iterator[Item]:
    y = center[1] + _tall(lines, height) / 2 - height
    for line in lines:
        yield label("chart", line, (center[0], y), height, Anchor.MIDDLE)
        y -= height * _LINES_APART


def _tall(lines: tuple[str, ...], height: float) -> float:
    return height * (1 + _LINES_APART * (len(lines) - 1))


def _most(ring: Ring, center: Point, lines: tuple[str, ...], room: float) -> float:
    """The greatest height of capitals with which lines about a center stay inside a ring."""
    wide = max(text_width(line, 1.0) for line in lines) / 2
    # Tails hang a third of the height below the last line.
    tall = _tall(lines, 1.0) / 2 + 1 / 3
    found = []
    for (start, _), way in zip(edges(ring), directions(ring), strict=True):
        out = right_of(way)
        free = -dot(sub(center, start), out) - room
        found.append(free / (abs(out[0]) * wide + abs(out[1]) * tall))
    return min(found)


def _center(ring: Ring) -> Point:
    """The middle of a ring; of a triangle that of the circle that fits into it."""
    if len(ring) != 3:
        return sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
    first, second, third = (distance(p, q) for p, q in edges(ring))
    around = perimeter(ring)
    weighted = zip(ring, (second, third, first), strict=True)
    xs, ys = zip(*((p[0] * w / around, p[1] * w / around) for p, w in weighted), strict=True)
    return sum(xs), sum(ys)
