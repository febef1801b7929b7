"""Shapes in an order of preference, with sets of them as the bits of integers.

Bit r of a set stands for the shape at rank r. "The first shape at most this wide and exactly that
high which is still to be placed" is then two bitwise ANDs and the lowest bit, and costs the same
for ten shapes or ten thousand.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from operator import or_

from cutpaths.cloth.packing.sheet import Shape


class Lengths:
    """Which ranks have which length. Changed in place, because a search swaps ranks all day."""

    __slots__ = ("_known", "_up_to", "exactly")

    def __init__(self, lengths: Iterable[int]) -> None:
        self.exactly: dict[int, int] = {}
        for rank, length in enumerate(lengths):
            self.exactly[length] = self.exactly.get(length, 0) | 1 << rank
        self._known = sorted(self.exactly)
        self._up_to = list(accumulate((self.exactly[n] for n in self._known), or_, initial=0))

    @property
    def longest(self) -> int:
        """The greatest length of any rank."""
        return self._known[-1]

    def at_most(self, length: int) -> int:
        """The ranks of this length or less."""
        return self._up_to[bisect_right(self._known, length)]

    def swap(self, one: int, other: int, ranks: int) -> None:
        """Two ranks, given as a set, exchange their two lengths."""
        if one == other:
            return
        self.exactly[one] ^= ranks
        self.exactly[other] ^= ranks
        low, high = min(one, other), max(one, other)
        for k in range(bisect_right(self._known, low), bisect_right(self._known, high)):
            self._up_to[k] ^= ranks


class Order:
    """Shapes by rank; changed in place.

    Attributes:
        shapes: the shape at each rank.
        area: of all pieces.
        everything: the set of all ranks.
        widths, heights: which ranks have which width and height.
        flips: ranks whose shape a packer treats the other way round, in a sense of its own.
    """

    __slots__ = ("_twins", "area", "everything", "flips", "heights", "shapes", "widths")

    def __init__(self, shapes: Sequence[Shape]) -> None:
        self.shapes = list(shapes)
        self.everything = (1 << len(shapes)) - 1
        self.widths = Lengths(shape.width for shape in shapes)
        self.heights = Lengths(shape.height for shape in shapes)
        self.flips = 0
        self._twins = _twins(shapes)
        self.area = sum(
            shape.width * shape.height
            for rank, shape in enumerate(shapes)
            if self._twins[rank] >= rank
        )

    def same_piece(self, rank: int) -> int:
        """The ranks of the piece at a rank, one for each way it may lie."""
        return 1 << rank | 1 << self._twins[rank]

    def change(self, a: int, b: int) -> None:
        """Exchanges the shapes of two ranks, or flips a rank given twice; again is as before."""
        ranks = 1 << a | 1 << b
        if a == b:
            self.flips ^= ranks
            return
        one, other = self.shapes[a], self.shapes[b]
        self.shapes[a], self.shapes[b] = other, one
        self.widths.swap(one.width, other.width, ranks)
        self.heights.swap(one.height, other.height, ranks)
        if one.piece != other.piece:
            self._swap_twins(a, b)

    def _swap_twins(self, a: int, b: int) -> None:
        twin_a, twin_b = self._twins[a], self._twins[b]
        self._twins[a] = a if twin_b == b else twin_b
        self._twins[b] = b if twin_a == a else twin_a
        self._twins[self._twins[a]] = a
        self._twins[self._twins[b]] = b


def first(ranks: int) -> int:
    """The lowest rank of a set that is not empty.

    >>> first(0b10100)
    2
    """
    return (ranks & -ranks).bit_length() - 1


def _twins(shapes: Sequence[Shape]) -> list[int]:
    """For each rank the other rank of the same piece, or itself where there is no other."""
    twins = list(range(len(shapes)))
    seen: dict[int, int] = {}
    for rank, shape in enumerate(shapes):
        twin = seen.setdefault(shape.piece, rank)
        twins[rank], twins[twin] = twin, rank
    return twins
