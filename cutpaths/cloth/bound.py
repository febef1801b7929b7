"""What no plan can come below: length of cloth, or number of quarters or pack pieces; mm, exact."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.sheets_of import blanks_on_hand, bought_blank, room, within
from cutpaths.project.stock import Sold, Stock


def bound_of(stock: Stock, items: Sequence[Item]) -> Fraction:
    """The least that must be bought for some pieces, whatever the plan."""
    inner = room(stock)
    on_hand = [blank.inner for blank in blanks_on_hand(stock)]
    area = _area(items) - sum((w * h for w, h in on_hand if w > 0 and h > 0), Fraction(0))
    if area <= 0:
        return Fraction(0)
    if stock.sold is Sold.LENGTH:
        least = area / inner[0]
        if not on_hand:
            least = max(least, Fraction(lower_bounds(items, inner[0])[0].height))
        return least + 2 * bought_blank(stock).square_up
    least = Fraction(math.ceil(area / (inner[0] * inner[1])))
    if not on_hand:
        alone = sum(item.count for item in items if _fills(item, inner))
        least = max(least, Fraction(alone))
    return least


def _fills(item: Item, inner: tuple[Fraction, Fraction]) -> bool:
    """Whether two such pieces never share one blank: in each way more than half of both sides."""
    fitting = within(item, inner)
    if fitting is None:
        return False
    both = (item.width, item.height)
    return all(2 * side > most for side in both for most in inner)


def _area(items: Sequence[Item]) -> Fraction:
    return sum((Fraction(i.width * i.height * i.count) for i in items), Fraction(0))


def freely_bound(items: Sequence[Item], width: Fraction, spacing: Fraction) -> Fraction:
    """The least length of cloth for pieces placed freely, some distance apart."""
    return Fraction(lower_bounds(items, width, spacing)[0].height)
