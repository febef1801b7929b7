"""Which strips are worth most, when each piece has a worth; in steps.

At every height that some stack of pieces has, the best stack of each width is found first, then
the best stacks side by side: a knapsack of knapsacks, as in P. C. Gilmore, R. E. Gomory,
"Multistage cutting stock problems of two and more dimensions", Operations Research 13(1), 1965,
94-120.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from cutpaths.cloth.packing.generation import GRAINS
from cutpaths.cloth.packing.knapsack import Knapsack
from cutpaths.cloth.packing.reach import sums
from cutpaths.cloth.packing.sheet import Sheet
from cutpaths.cloth.packing.strips import Part, Stack, Strip


class StripPricing:
    """Finds strips of much worth, none higher than the tallest piece of a sheet."""

    def __init__(self, sheet: Sheet) -> None:
        highest = max(height for kind in sheet.kinds for _, height, _ in kind.ways)
        self._parts: dict[int, list[Part]] = {}
        for item, kind in enumerate(sheet.kinds):
            for width, height, turned in kind.ways:
                self._parts.setdefault(width, []).append(Part(item, height, turned))
        self._widths = sorted(self._parts)
        self._heights = sorted(set().union(*(_sums(p, highest) for p in self._parts.values())))
        self._knapsack = Knapsack(self._widths, sheet.width)

    def best(self, worth: Sequence[int]) -> tuple[Fraction, list[Strip]]:
        """The most worth for each step of height, and the strips that are worth more than it costs.

        Args:
            worth: of one of each item, where a step of height costs `GRAINS`.
        """
        stacks = [self._stacks(width, worth) for width in self._widths]
        values = np.array([[value for value, _ in row] for row in stacks])
        totals, chosen = self._knapsack.best(values)
        rates = [Fraction(int(total), h) for total, h in zip(totals, self._heights, strict=True)]
        strips = [
            Strip(tuple(Stack(self._widths[w], stacks[w][k][1]) for w in chosen[k]))
            for k in sorted(range(len(rates)), key=lambda k: -rates[k])
            if rates[k] > GRAINS
        ]
        return max(rates), strips

    def _stacks(self, width: int, worth: Sequence[int]) -> list[tuple[int, tuple[Part, ...]]]:
        """For each height the worth of the best stack that is no higher, and its parts."""
        best: list[tuple[int, tuple[Part, ...]]] = []
        for height in self._heights:
            found = best[-1] if best else (0, ())
            for part in self._parts[width]:
                below = bisect_right(self._heights, height - part.height) - 1
                value, parts = best[below] if below >= 0 else (0, ())
                if part.height <= height and value + worth[part.item] > found[0]:
                    found = value + worth[part.item], (*parts, part)
            best.append(found)
        return best


def _sums(parts: Sequence[Part], highest: int) -> set[int]:
    """The heights of stacks of these parts, up to the highest."""
    reached = sums({part.height: highest // part.height for part in parts}, highest)
    return {height for height in range(1, highest + 1) if reached >> height & 1}
