"""The most valuable widths that fit side by side, for many sets of values at once.

A knapsack without limits on how often a width is used, over the places that sums of widths reach.
All sets of values stand in one row of an array, so that numpy takes them together. Whole numbers
only, so the result is exact. numpy comes with the solver; this module and its users load it.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from cutpaths.cloth.packing.reach import sums

Whole = npt.NDArray[np.int64]


class Knapsack:
    """Widths to fill a strip with, each no wider than it, in steps."""

    def __init__(self, widths: Sequence[int], width: int) -> None:
        reached = sums({w: width // w for w in widths}, width)
        spots = np.flatnonzero(np.array([int(bit) for bit in f"{reached:b}"[::-1]]))
        # Where a piece of each width starts that ends at each spot, or below 0.
        starts = spots[:, None] - np.array(widths)[None, :]
        self._starts = np.searchsorted(spots, starts, side="right") - 1

    def best(self, values: Whole) -> tuple[Whole, list[tuple[int, ...]]]:
        """The greatest value for each set, and the widths that have it, by their indices.

        Args:
            values: of each width (rows) in each set (columns).
        """
        spots, sets = len(self._starts), values.shape[1]
        total = np.zeros((spots, sets), dtype=np.int64)
        chosen = np.full((spots, sets), -1)
        for spot in range(1, spots):
            room = np.flatnonzero(self._starts[spot] >= 0)
            gained = total[self._starts[spot, room]] + values[room]
            top = gained.max(axis=0)
            total[spot] = np.maximum(top, total[spot - 1])
            chosen[spot] = np.where(top > total[spot - 1], room[gained.argmax(axis=0)], -1)
        return total[-1], [self._traced(chosen[:, one]) for one in range(sets)]

    def _traced(self, chosen: Whole) -> tuple[int, ...]:
        widths, spot = [], len(chosen) - 1
        while spot > 0:
            width = int(chosen[spot])
            if width >= 0:
                widths.append(width)
            spot = int(self._starts[spot, width]) if width >= 0 else spot - 1
        return tuple(widths)
