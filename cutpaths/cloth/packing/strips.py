"""Strips across the cloth: which mix of pieces is worth most, at every height that may help.

A strip is crosscut into stacks, and a stack is trimmed into pieces of its own width: three stages.
All lengths are in steps.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

import numpy as np

from cutpaths.cloth.packing.generation import GRAINS
from cutpaths.cloth.packing.knapsack import Knapsack
from cutpaths.cloth.packing.reach import sums
from cutpaths.cloth.packing.sheet import Sheet


class Part(NamedTuple):
    """A piece in a stack: the index of its item, its height as it lies and whether it is turned."""

    item: int
    height: int
    turned: bool


class Stack(NamedTuple):
    """Pieces of one width, one above the other."""

    width: int
    parts: tuple[Part, ...]

    @property
    def height(self) -> int:
        """Of all its parts."""
        return sum(part.height for part in self.parts)


class Strip(NamedTuple):
    """Stacks side by side."""

    stacks: tuple[Stack, ...]

    @property
    def height(self) -> int:
        """Of the highest stack."""
        return max(stack.height for stack in self.stacks)

    @property
    def makes(self) -> Counter[int]:
        """How many it makes of each item."""
        return Counter(part.item for stack in self.stacks for part in stack.parts)


def plain_strips(sheet: Sheet) -> Iterator[Strip]:
    """For each way a piece may lie, a strip of nothing else."""
    for item, kind in enumerate(sheet.kinds):
        for width, height, turned in kind.ways:
            yield Strip((Stack(width, (Part(item, height, turned),)),) * (sheet.width // width))


def column(strip: Strip) -> Column:
    """A strip as the solver sees it: its height and what it makes."""
    return Column(strip.height, strip.makes)


def runs_of_strip(sheet: Sheet, strip: Strip, times: int) -> list[Run]:
    """A strip cut so many times, exact again; as several where a cut across it parts no piece."""
    placements, x = [], 0
    for stack in strip.stacks:
        y = 0
        for part in stack.parts:
            shape = Shape(stack.width, part.height, part.item, 0, part.turned)
            placements.append(sheet.placement(shape, x, y))
            y += part.height
        x += stack.width
    cuts = cuts_of(placements, sheet.size(sheet.width), sheet.size(strip.height))
    return [Run(times * run.times, run.strip) for run in runs_of(cuts)]


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
