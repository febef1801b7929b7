"""A circle as chords, for what knows only straight lines; mm."""

from __future__ import annotations

import math

from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Circle

LEAST = 12  # however small the circle


def chords(circle: Circle, sag: float) -> Ring:
    """Corners of a polygon that strays from a circle as far inward as outward.

    Args:
        circle: the circle; the first corner lies to the right of its center.
        sag: how far it strays at most.
    """
    (x, y), radius = circle.center, circle.radius
    step = 2 * math.acos(max(0.5, 1 - 2 * sag / radius))
    count = max(LEAST, math.ceil(2 * math.pi / step))
    reach = radius * 2 / (1 + math.cos(math.pi / count))
    turns = (2 * math.pi * n / count for n in range(count))
    return tuple((x + reach * math.cos(t), y + reach * math.sin(t)) for t in turns)
