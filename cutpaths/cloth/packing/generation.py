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
from math import inf
from typing import NamedTuple

from cutpaths.cloth.packing.columns import Column, Relaxed, Relaxing

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


class Generated(NamedTuple):
    """What generation came to.

    Attributes:
        relaxed: the cheapest cover by parts of columns.
        bound: a cost that no cover by parts of any columns is below.
        late: whether the clock ended it.
    """

    relaxed: Relaxed
    bound: Fraction
    late: bool


Pricing = Callable[[Sequence[int]], Offer]  # of the pieces' worth
GoOn = Callable[[], bool]  # asked between rounds whether to go on


def endlessly() -> bool:
    """Lets it run to its end."""
    return True


def generated(
    cover: Relaxing,
    demands: Sequence[int],
    price: Pricing,
    *,
    seconds: float = inf,
    rounds: float = inf,
    go_on: GoOn = endlessly,
) -> Generated:
    """The cheapest cover by parts of columns, which are generated, and the bound.

    Args:
        cover: has a column for every demand; those generated are added to it.
        demands: of each piece.
        price: finds columns that help.
        seconds: after which no more are generated; bound and cover are then apart.
        rounds: most times that columns are added.
        go_on: whether the person wants it to.
    """
    end, bound = time.monotonic() + seconds, Fraction(0)
    while True:
        relaxed = cover.relaxed()
        worth = [max(0, int(each * GRAINS)) for each in relaxed.worth]
        offer = price(worth)
        bound = max(bound, sum(map(int.__mul__, demands, worth)) / offer.rate)
        close = bound >= relaxed.cost * (1 - CLOSE)
        late, rounds = time.monotonic() >= end and not close, rounds - 1
        if close or late or rounds < 0 or not go_on():
            return Generated(relaxed, bound, late)
        for column in offer.columns:
            cover.add(column)
