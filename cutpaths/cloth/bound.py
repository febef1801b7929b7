"""What no plan can come below: length of cloth, or number of quarters or pack pieces; mm, exact."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from cutpaths.cloth.packing.beside import least_length, longest_sum
from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.sheets_of import blanks_on_hand, bought_blank, room, within
from cutpaths.project.stock import Size, Sold, Stock

NONE = Fraction(0)


def bound_of(stock: Stock, items: Sequence[Item]) -> Fraction:
    """The least that must be bought for some pieces, whatever the plan, at a quick look."""
    there = rooms_on_hand(stock)
    area = _area(items) - sum((w * h for w, h in there), NONE)
    if area <= 0:
        return NONE
    if stock.sold is Sold.LENGTH:
        return _length(stock, max(area / room(stock)[0], _only_bought(stock, items, there)))
    inner = room(stock)
    return Fraction(max(math.ceil(area / (inner[0] * inner[1])), _alone(items, inner, there)))


def closer_bound(stock: Stock, items: Sequence[Item]) -> Fraction:
    """The same at a longer look, by what slices of all the cloth can hold."""
    there, inner, least = rooms_on_hand(stock), room(stock), bound_of(stock, items)
    if stock.sold is Sold.LENGTH:
        return max(least, _length(stock, least_length(items, inner[0], there)))
    lying = [Item(width=i.height, height=i.width, count=i.count, turn=i.turn) for i in items]
    return max(
        least,
        _pieces(items, inner, there),
        _pieces(lying, inner[::-1], [(h, w) for w, h in there]),
    )


def rooms_on_hand(stock: Stock) -> list[Size]:
    """What each cloth on hand has room for, where it has any."""
    rooms = (blank.inner for blank in blanks_on_hand(stock))
    return [(width, length) for width, length in rooms if width > 0 and length > 0]


def _length(stock: Stock, least: Fraction) -> Fraction:
    """A length with what squaring up takes; nothing where nothing is bought."""
    return least + 2 * bought_blank(stock).square_up if least > 0 else NONE


def _only_bought(stock: Stock, items: Sequence[Item], there: Sequence[Size]) -> Fraction:
    """The least length for the pieces that fit no cloth on hand."""
    width = room(stock)[0]
    only = [
        item
        for item in items
        if item.least_width <= width and all(within(item, inner) is None for inner in there)
    ]
    return Fraction(lower_bounds(only, width)[0].height) if only else NONE


def _pieces(items: Sequence[Item], inner: Size, there: Sequence[Size]) -> Fraction:
    """The least number of quarters or pack pieces: their strips one behind the other."""
    heights = [(side, i.count) for i in items for side in _heights(i) if side <= inner[1]]
    most = longest_sum(heights, inner[1]) if heights else NONE
    if not most:
        return NONE
    return Fraction(math.ceil(least_length(items, inner[0], there, longest=inner[1]) / most))


def _heights(item: Item) -> tuple[Fraction, ...]:
    both = Fraction(item.height), Fraction(item.width)
    return both if item.turn else both[:1]


def _alone(items: Sequence[Item], inner: Size, there: Sequence[Size]) -> int:
    """Pieces of which each has a quarter or pack piece to itself; what is on hand may hold more."""
    large = [item for item in items if _fills(item, inner)]
    least = min((Fraction(item.width * item.height) for item in large), default=NONE)
    held = sum(w * h // least for w, h in there) if large else 0
    return sum(item.count for item in large) - held


def _fills(item: Item, inner: Size) -> bool:
    """Whether two such pieces never share one blank: in each way more than half of both sides."""
    if within(item, inner) is None:
        return False
    both = (item.width, item.height)
    return all(2 * side > most for side in both for most in inner)


def _area(items: Sequence[Item]) -> Fraction:
    return sum((Fraction(i.width * i.height * i.count) for i in items), NONE)


def freely_bound(items: Sequence[Item], width: Fraction, spacing: Fraction) -> Fraction:
    """The least length of cloth for pieces placed freely, some distance apart."""
    return Fraction(lower_bounds(items, width, spacing)[0].height)
