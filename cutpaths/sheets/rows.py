"""Boxes laid side by side in rows; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.shapes import Motion, shift


def in_rows(
    sizes: Sequence[tuple[float, float]], width: float, spacing: float
) -> tuple[Motion, ...]:
    """Lays boxes from the left, rows going up; a box wider than `width` has a row of its own.

    Returns:
        For each box the shift of its lower left corner from the origin.
    """
    places = []
    x = y = height = 0.0
    for wide, high in sizes:
        if x and x + wide > width:
            x, y, height = 0.0, y + height + spacing, 0.0
        places.append(shift(x, y))
        x, height = x + wide + spacing, max(height, high)
    return tuple(places)
