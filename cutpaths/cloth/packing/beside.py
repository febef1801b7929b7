"""The least length of a strip when some pieces of cloth are there as well; exact, no solver.

Cut a plan into slices one step high. In each slice of a cloth lie widths that fit it side by side,
and over all slices every piece has its width as often as it is high. So for any worth of the
pieces the strip is at least as long as the worth of all pieces, less what the slices of the cloth
that is there can hold of it, over the worth of the strip's best slice. Good worths come from a
relaxation (the bars of G. Belov, V. Kartak, H. Rohling, G. Scheithauer, "One-dimensional
relaxations and LP bounds for orthogonal packing", International Transactions in Operational
Research 16(6), 2009, 745-766); a cloth that is there adds a limit on how many slices it gives. The
bound is computed anew from each worth in whole numbers, so it holds wherever the search for better
ones ends.

A cloth's length counts up to the largest sum of heights that it can hold. Where sizes lie on no
common grid that is coarse enough, pieces are made smaller and cloth larger, up to the grid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

import numpy as np

from cutpaths.cloth.packing.columns import Column
from cutpaths.cloth.packing.generation import CLOSE, GRAINS
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.knapsack import Knapsack
from cutpaths.cloth.packing.reach import MOST, sums
from cutpaths.cloth.packing.relaxation import Relaxation
from cutpaths.cloth.packing.sheet import common_step
from cutpaths.values import Value

FINEST = 4096  # most steps across the strip
ROUNDS = 24  # most times that worths are bettered
KINDS_MOST = 40  # more kinds take the relaxation long; the first worths are then kept

Size = tuple[Length, Length]
Way = tuple[int, int, int]  # a piece's index, width and height as it lies, in steps


class _Kind(NamedTuple):
    number: int
    ways: tuple[tuple[int, int], ...]


class _Cloth(Value):
    """A cloth in steps, the ways in which pieces lie on it, and its best slices."""

    width: int
    height: int
    ways: tuple[Way, ...]
    widths: tuple[int, ...]
    knapsack: Knapsack

    def best(self, worth: Sequence[int]) -> tuple[int, Column]:
        """The slice of most worth, rounded up, and what it makes."""
        best = dict.fromkeys(self.widths, (0, 0, 1))
        for piece, width, height in self.ways:
            best[width] = max(best[width], (-(-worth[piece] // height), piece, height))
        values = np.array([[best[width][0]] for width in self.widths])
        totals, (taken,) = self.knapsack.best(values)
        makes: dict[int, Fraction] = {}
        for index in taken:
            _, piece, height = best[self.widths[index]]
            makes[piece] = makes.get(piece, Fraction(0)) + Fraction(1, height)
        return int(totals[0]), Column(Fraction(1), makes)


def least_length(
    items: Sequence[Item],
    width: Length,
    there: Sequence[Size] = (),
    *,
    longest: Length | None = None,
) -> Fraction:
    """A length of strip that no plan is below which cuts all pieces from it and from other cloth.

    Args:
        items: what is to be cut; one that fits the strip in no way is left out.
        width: of the strip.
        there: width and length of each piece of cloth that is there as well.
        longest: greatest length of a piece on the strip; None for any.
    """
    step = _step(items, width, there, longest)
    kinds = [_kind(item, step) for item in items]
    endless = max((max(way) for kind in kinds for way in kind.ways), default=1)
    most = endless if longest is None else ceil(longest / step)
    strip = _cloth(kinds, ceil(width / step), most)
    if strip is None:
        return Fraction(0)
    fitting = {piece for piece, _, _ in strip.ways}
    kept = [kind if k in fitting else kind._replace(number=0) for k, kind in enumerate(kinds)]
    others = [
        cloth
        for w, h in there
        if (cloth := _cloth(kept, ceil(w / step), ceil(h / step))) is not None
    ]
    least = max(_bounds(kept, strip, others), default=Fraction(0))
    sides = common_step([side for item in items for side in (item.width, item.height)])
    exact = (sides / step).denominator == 1
    return (_next_sum(strip, kept, ceil(least)) if exact else least) * step


def _next_sum(strip: _Cloth, kinds: Sequence[_Kind], least: int) -> Fraction:
    """The least sum of heights on the strip that is not below a length."""
    counts: dict[int, int] = {}
    for piece, _, high in strip.ways:
        counts[high] = counts.get(high, 0) + kinds[piece].number
    most = least + max(counts)
    if most > MOST:
        return Fraction(least)
    above = sums(counts, most) >> least
    return Fraction(least + (above & -above).bit_length() - 1 if above else least)


def longest_sum(lengths: Sequence[tuple[Length, int]], most: Length) -> Fraction:
    """The largest sum, up to a length, of so many of each of some lengths.

    >>> longest_sum([(5, 9), (3, 1)], 17)
    Fraction(15, 1)
    """
    step = common_step([most, *(length for length, _ in lengths)])
    if most / step > FINEST:
        return Fraction(most)
    counts: dict[int, int] = {}
    for length, count in lengths:
        steps = int(length / step)
        counts[steps] = counts.get(steps, 0) + count
    return (sums(counts, int(most / step)).bit_length() - 1) * step


def _step(
    items: Sequence[Item], width: Length, there: Sequence[Size], longest: Length | None
) -> Fraction:
    sizes = [size for item in items for size in (item.width, item.height)]
    cloths = [side for size in there for side in size]
    step = common_step([*sizes, *cloths, width, longest or 0])
    return max(step, Fraction(width) / FINEST)


def _kind(item: Item, step: Fraction) -> _Kind:
    wide, high = max(1, floor(item.width / step)), max(1, floor(item.height / step))
    ways = ((wide, high), (high, wide)) if item.turn and wide != high else ((wide, high),)
    return _Kind(item.count, ways)


def _cloth(kinds: Sequence[_Kind], width: int, height: int) -> _Cloth | None:
    """A cloth, its length cut down to what pieces can fill; None where none fits."""
    ways = tuple(
        (piece, wide, high)
        for piece, kind in enumerate(kinds)
        for wide, high in kind.ways
        if kind.number and wide <= width and high <= height
    )
    if not ways:
        return None
    counts: dict[int, int] = {}
    for piece, _, high in ways:
        counts[high] = counts.get(high, 0) + kinds[piece].number
    snug = sums(counts, height).bit_length() - 1 if height <= 8 * FINEST else height
    widths = tuple(sorted({wide for _, wide, _ in ways}))
    return _Cloth(width, snug, ways, widths, Knapsack(widths, width))


def _bounds(kinds: Sequence[_Kind], strip: _Cloth, others: Sequence[_Cloth]) -> Iterator[Fraction]:
    """The bound of one worth after another, in steps."""
    cover = _cover(kinds, strip, others)
    rounds = ROUNDS if sum(1 for kind in kinds if kind.number) <= KINDS_MOST else 1
    for _ in range(rounds):
        relaxed = cover.relaxed()
        worth = [max(0, int(each * GRAINS)) for each in relaxed.worth]
        rate, column = strip.best(worth)
        held = [cloth.best(worth) for cloth in others]
        whole = sum(kind.number * worth[piece] for piece, kind in enumerate(kinds))
        bound = Fraction(
            whole - sum(c.height * most for c, (most, _) in zip(others, held, strict=True)),
            rate or 1,
        )
        yield bound
        if bound >= relaxed.cost * (1 - Fraction(CLOSE)):
            return
        cover.add(column)
        for k, (_, other) in enumerate(held):
            cover.add(Column(Fraction(0), {**other.makes, len(kinds) + k: -1}))


def _cover(kinds: Sequence[_Kind], strip: _Cloth, others: Sequence[_Cloth]) -> Relaxation:
    """A row for each kind and for each cloth, and slices of one kind each."""
    cover = Relaxation([*(kind.number for kind in kinds), *(-cloth.height for cloth in others)])
    for piece, wide, high in strip.ways:
        cover.add(Column(Fraction(1), {piece: Fraction(strip.width // wide, high)}))
    return cover
