"""The best proven lower bound for cuts of any kind; takes the solver.

Cut a plan into slices one step high: in each lie widths that fit the strip side by side, and over
all slices every piece has its width as often as it is high. The least number of slices that does
this, parts of slices allowed, is a bound on the plan: the bar relaxation of G. Belov, V. Kartak,
H. Rohling, G. Scheithauer, "One-dimensional relaxations and LP bounds for orthogonal packing",
International Transactions in Operational Research 16(6), 2009, 745-766. No dual feasible function
gives a better one.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

import numpy as np

from cutpaths.cloth.packing.bounds import Bound, Reason, apart
from cutpaths.cloth.packing.columns import Column
from cutpaths.cloth.packing.cover import Cover
from cutpaths.cloth.packing.generation import Offer, generated
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.knapsack import Knapsack
from cutpaths.cloth.packing.reach import next_height
from cutpaths.cloth.packing.sheet import Sheet, sheet_of


def slices_bound(
    items: Sequence[Item], width: Length, spacing: Length = 0, *, seconds: float = 2.0
) -> Bound:
    """The bound by slices, raised to the next sum of heights.

    Args:
        items: what is to be cut.
        width: of the strip.
        spacing: least distance between pieces.
        seconds: after which the bound so far is taken.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.
    """
    sheet = sheet_of(items, width, spacing)
    taken, others = apart(sheet)
    if others is not None:
        taken += next_height(others, ceil(_relaxed(others, seconds)))
    return Bound(sheet.size(taken), Reason.SLICES)


def _relaxed(sheet: Sheet, seconds: float) -> Fraction:
    """How many slices there must be, parts of slices allowed."""
    demands = [kind.count for kind in sheet.kinds]
    slices, cover = _Slices(sheet), Cover(demands)
    for piece, kind in enumerate(sheet.kinds):
        for width, height, _ in kind.ways:
            cover.add(Column(1.0, {piece: sheet.width // width / height}))
    return generated(cover, demands, slices.priced, seconds=seconds).bound


class _Slices:
    """Finds the slice of most worth."""

    def __init__(self, sheet: Sheet) -> None:
        self._kinds = sheet.kinds
        self._widths = sorted({way[0] for kind in sheet.kinds for way in kind.ways})
        self._knapsack = Knapsack(self._widths, sheet.width)

    def priced(self, worth: Sequence[int]) -> Offer:
        """The slice of most worth, when a step of a piece's height is worth its share of it."""
        best = dict.fromkeys(self._widths, (0, 0, 1))  # worth of a step, piece, height
        for piece, kind in enumerate(self._kinds):
            for width, height, _ in kind.ways:
                step = -(-worth[piece] // height)  # rounded up, so that the bound is not too high
                best[width] = max(best[width], (step, piece, height))
        values = np.array([[best[width][0]] for width in self._widths])
        totals, (taken,) = self._knapsack.best(values)
        makes: dict[int, float] = {}
        for index in taken:
            _, piece, height = best[self._widths[index]]
            makes[piece] = makes.get(piece, 0.0) + 1 / height
        return Offer(Fraction(int(totals[0])), [Column(1.0, makes)])
