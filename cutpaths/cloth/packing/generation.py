"""Column generation: columns are made as the solver finds that they would help.

After P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem",
Operations Research 9(6), 1961, 849-859. What the solver says pieces are worth is rounded to whole
numbers, and the bound computed anew from these, exactly, as in A. A. Farley, "A note on bounding a
class of linear programming problems, including cutting stock problems", Operations Research 38(5),
1990, 922-923. So it is proven at every round, and no rounding of the solver's can make it too high.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

from cutpaths.cloth.packing.cover import Column, Cover, Relaxed

GRAINS = 1 << 30  # whole numbers to which a piece's worth of one step is rounded
CLOSE = 1e-6  # share of the cost by which a bound may be below the best of its kind


class Offer(NamedTuple):
    """What pieces of a given worth can be made into.

    Attributes:
        rate: worth for each unit of cost; no column has more.
        columns: some that have much.
    """

    rate: Fraction
    columns: list[Column]


Pricing = Callable[[Sequence[int]], Offer]  # of the pieces' worth


def generated(
    cover: Cover, demands: Sequence[int], price: Pricing, *, seconds: float
) -> tuple[Relaxed, Fraction]:
    """The cheapest cover by parts of any columns, and a cost that no such cover is below.

    Args:
        cover: has a column for every demand; those generated are added to it.
        demands: of each piece.
        price: finds columns that help.
        seconds: after which no more are generated; bound and cover are then apart.
    """
    end, bound = time.monotonic() + seconds, Fraction(0)
    while True:
        relaxed = cover.relaxed()
        worth = [max(0, int(each * GRAINS)) for each in relaxed.worth]
        offer = price(worth)
        bound = max(bound, sum(map(int.__mul__, demands, worth)) / offer.rate)
        if bound >= relaxed.cost * (1 - CLOSE) or time.monotonic() >= end:
            return relaxed, bound
        for column in offer.columns:
            cover.add(column)
