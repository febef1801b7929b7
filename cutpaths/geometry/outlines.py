"""Seam polygons of tops; mm, counter-clockwise, side A first."""

from __future__ import annotations

import math

from cutpaths.geometry.polygons import Ring


def rectangle(width: float, height: float) -> Ring:
    """A rectangle with its lower left corner at the origin; side A is the foot."""
    return (0.0, 0.0), (width, 0.0), (width, height), (0.0, height)


def regular(sides: int, side: float) -> Ring:
    """A regular polygon; side A lies at the foot and starts at the origin."""
    if sides == 4:
        return rectangle(side, side)
    radius = side / (2 * math.sin(math.pi / sides))
    rise = radius * math.cos(math.pi / sides)
    turns = (math.pi * (2 * k - 1) / sides - math.pi / 2 for k in range(2, sides))
    rest = ((side / 2 + radius * math.cos(t), rise + radius * math.sin(t)) for t in turns)
    return (0.0, 0.0), (side, 0.0), *rest
