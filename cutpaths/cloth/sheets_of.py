"""Lays strips out on the cloth that there is: what is on hand, quarters, packs or one length."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.cutting import Sheet, Source
from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, placements
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.stock import lost_first
from cutpaths.project.stock import Size, Sold, Stock
from cutpaths.values import Value, replace

LENGTH = "the length bought"
CHOICES = 500  # most ways to fill a length that are looked at together

Strips = Callable[[Sequence[Item], Fraction], tuple[Node, ...]]


class Blank(Value, kw_only=True):
    """Cloth to cut from: width and length as it lies, what is lost of it, and where it is from."""

    source: Source
    name: str
    width: Fraction
    length: Fraction
    square_up: Fraction
    strip_ends: Fraction

    @property
    def inner(self) -> Size:
        """Width and length that pieces may take."""
        return self.width - 2 * self.strip_ends, self.length - 2 * self.square_up

    def holding(self, strips: Sequence[Node]) -> Sheet:
        """The sheet with its strips."""
        return Sheet(
            source=self.source,
            name=self.name,
            width=self.width,
            length=self.length,
            square_up=self.square_up,
            strip_ends=self.strip_ends,
            strips=tuple(strips),
        )


def sold_piece(stock: Stock) -> Size:
    """A quarter or pack piece as it is cut: shrunk, where it is washed first."""
    length, width = lost_first(stock)
    return stock.piece[0] * (1 - width), stock.piece[1] * (1 - length)


def blanks_on_hand(stock: Stock) -> tuple[Blank, ...]:
    """What is there, the smallest first, so that large cloth stays whole."""
    found = []
    for each in stock.on_hand:
        size = each.size or sold_piece(stock)
        pieces = each.count * (stock.count if each.size is None else 1)
        found += [_blank(stock, Source.ON_HAND, size, own=each.size is None)] * pieces
    found.sort(key=lambda blank: (blank.width * blank.length, blank.width))
    return tuple(replace(blank, name=f"on hand {n}") for n, blank in enumerate(found, 1))


def _blank(stock: Stock, source: Source, size: Size, *, own: bool = True) -> Blank:
    """Cloth as sold or as a remnant; a precut's edges are straight already."""
    precut = own and stock.sold is Sold.PACK
    none = Fraction(0)
    return Blank(
        source=source,
        name="",
        width=size[0],
        length=size[1],
        square_up=none if precut else stock.square_up,
        strip_ends=none if precut else stock.strip_ends,
    )


def within(item: Item, inner: Size) -> Item | None:
    """The item in the ways to lie that a cloth has room for; None where there is none.

    >>> within(Item(width=5, height=50, turn=True), (Fraction(60), Fraction(10)))
    Item(width=50, height=5, count=1, turn=False)
    """
    width, length = inner
    upright = item.width <= width and item.height <= length
    lying = item.turn and item.height <= width and item.width <= length
    if upright and lying:
        return item
    if upright:
        return replace(item, turn=False)
    return replace(item, width=item.height, height=item.width, turn=False) if lying else None


def sheets_of(
    stock: Stock, items: Sequence[Item], strips: Strips, remnants: Strips
) -> Iterator[Sheet]:
    """All cloth that the pieces are cut from, in the order in which it is taken.

    Every piece must fit the cloth that can be bought, or all of it that on hand.

    Args:
        stock: how the fabric is sold, and what is on hand.
        items: what is cut.
        strips: lays out what is bought.
        remnants: lays out what is on hand.
    """
    left = Counter({index: item.count for index, item in enumerate(items)})
    only_here = {i for i, item in enumerate(items) if within(item, room(stock)) is None}
    for blank in blanks_on_hand(stock):
        # What cannot be bought has the first choice of what is on hand.
        first = Counter({index: left[index] for index in only_here})
        taken = _filled(blank.inner, items, first, remnants)
        left -= _made(taken)
        used = sum((Fraction(row.height) for row in taken), Fraction(0))
        more = _filled((blank.inner[0], blank.inner[1] - used), items, left, remnants)
        left -= _made(more)
        if taken or more:
            yield blank.holding((*taken, *more))
    if left:
        yield from _bought(stock, items, left, strips)


def _made(rows: Sequence[Node]) -> Counter[int]:
    """How many pieces strips make of each item."""
    return Counter(place.item for row in rows for place in placements(row))


def bought_blank(stock: Stock) -> Blank:
    """What is bought, as it is cut: a quarter or pack piece, or a length of no length yet."""
    if stock.sold is Sold.LENGTH:
        return _blank(stock, Source.BOUGHT, (stock.width, 2 * stock.square_up))
    return _blank(stock, Source.BOUGHT, sold_piece(stock))


def room(stock: Stock) -> Size:
    """Width and length that a piece of bought cloth leaves for pieces."""
    width, length = bought_blank(stock).inner
    return width, (_ENDLESS if stock.sold is Sold.LENGTH else length)


_ENDLESS = Fraction(10**9)  # mm; longer than any length of cloth


def _bought(
    stock: Stock, items: Sequence[Item], left: Counter[int], strips: Strips
) -> Iterator[Sheet]:
    blank = bought_blank(stock)
    held = _rows(room(stock), items, left, strips)
    if stock.sold is Sold.LENGTH:
        length = sum((Fraction(strip.height) for strip in held), blank.length)
        yield replace(blank, name=LENGTH, length=length).holding(held)
        return
    kind = "pack piece" if stock.sold is Sold.PACK else "quarter"
    for number, rows in enumerate(_in_bins(held, blank.inner[1]), 1):
        yield replace(blank, name=f"{kind} {number}").holding(rows)


def _rows(
    inner: Size, items: Sequence[Item], left: Counter[int], strips: Strips
) -> tuple[Node, ...]:
    """Strips of what is left and fits a cloth; its pieces have the indices of all items."""
    kept, fitting = [], []
    for index, count in sorted(left.items()):
        item = within(items[index], inner)
        if item is not None and count:
            kept.append(index)
            fitting.append(replace(item, count=count))
    if not kept:
        return ()
    lying = [made.width != items[i].width for i, made in zip(kept, fitting, strict=True)]
    names = tuple(zip(kept, lying, strict=True))
    return tuple(renamed(strip, names) for strip in strips(fitting, inner[0]))


def renamed(node: Node, names: Sequence[tuple[int, bool]]) -> Node:
    """A tree whose items are looked up: the index of each, and whether it was turned before."""
    match node:
        case Taken(item=item, turned=turned):
            index, lying = names[item]
            return replace(node, item=index, turned=turned != lying)
        case Cut(parts=parts):
            return replace(node, parts=tuple(renamed(part, names) for part in parts))
        case Waste():
            return node


def _filled(
    inner: Size, items: Sequence[Item], left: Counter[int], strips: Strips
) -> tuple[Node, ...]:
    """The strips that use up most of a cloth on hand."""
    width, length = inner
    if width <= 0 or length <= 0:
        return ()
    rows = _rows(inner, items, left, strips)
    fillings = [
        *(
            _first_fitting(sorted(rows, key=order, reverse=True), length)
            for order in (_filling, _taken_area)
        ),
        _most_taken(rows, length),
    ]
    return max(fillings, key=lambda taken: sum(map(_taken_area, taken)))


def _first_fitting(rows: Sequence[Node], length: Fraction) -> tuple[Node, ...]:
    taken = []
    for row in rows:
        if row.height <= length:
            taken.append(row)
            length -= row.height
    return tuple(taken)


def _most_taken(rows: Sequence[Node], length: Fraction) -> tuple[Node, ...]:
    """Strips that go into a length and take the most cloth, as far as `CHOICES` lets it look.

    Of choices that take no more than a shorter one only the shorter is kept.
    """
    none: tuple[Node, ...] = ()
    choices = [(Fraction(0), Fraction(0), none)]  # length, cloth taken, strips
    for row in rows:
        high, area = Fraction(row.height), _taken_area(row)
        longer = [
            (used + high, taken + area, (*chosen, row))
            for used, taken, chosen in choices
            if used + high <= length
        ]
        kept: list[tuple[Fraction, Fraction, tuple[Node, ...]]] = []
        for choice in sorted([*choices, *longer], key=lambda each: (each[0], -each[1])):
            if not kept or choice[1] > kept[-1][1]:
                kept.append(choice)
        choices = kept[-CHOICES:]
    return choices[-1][2]


def _taken_area(row: Node) -> Fraction:
    return sum((Fraction(p.width * p.height) for p in placements(row)), Fraction(0))


def _filling(row: Node) -> Fraction:
    return _taken_area(row) / (row.width * row.height)


def _in_bins(rows: Sequence[Node], length: Fraction) -> list[list[Node]]:
    """Strips into as few equal lengths as first fit finds, the tallest first."""
    bins: list[tuple[list[Node], Fraction]] = []
    for row in sorted(rows, key=lambda each: -each.height):
        for place, (held, left) in enumerate(bins):
            if row.height <= left:
                bins[place] = ([*held, row], left - row.height)
                break
        else:
            bins.append(([row], length - row.height))
    return [held for held, _ in bins]
