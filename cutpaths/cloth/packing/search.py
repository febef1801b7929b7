"""Searches over orders of pieces for one that a packer turns into a shorter plan.

A packer fills the strip up to a target height and stops when it has wasted more than can be
spared. The search aims just below the best height so far, exchanges two ranks at a time, keeps an
exchange when as much or more is set down before that, and starts afresh from another order when
this leads no further. So orders of equal height are told apart, and most are given up early.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import cycle
from random import Random

from cutpaths.cloth.packing.effort import Clock
from cutpaths.cloth.packing.filling import Filling
from cutpaths.cloth.packing.order import Order
from cutpaths.cloth.packing.sheet import Shape, Sheet

PATIENCE = 5  # fruitless exchanges for each shape before a fresh start

Packer = Callable[[Order, int], Filling]  # of an order and the target height


class Search:
    """One search for a plan as short as can be.

    Args:
        sheet: what is to be packed.
        pack: the packer.
        clock: ends the search, and knows the best height so far and the least possible.
        seed: of chance.
        flips: share of the moves that flip a rank instead of exchanging two.
    """

    def __init__(
        self, sheet: Sheet, pack: Packer, clock: Clock, *, seed: int, flips: float = 0.0
    ) -> None:
        self._starts = tuple(sorted_shapes(sheet))
        self._pack, self._clock, self._flips = pack, clock, flips
        self._random = Random(seed)  # noqa: S311 (a search, no secret)

    def best(self) -> Filling | None:
        """The best filling found; None where none is lower than the clock's best height before."""
        found = None
        for start in self._starts:
            found = self._squeezed(Order(start)) or found
        for start in cycle(self._starts):
            if self._clock.is_over:
                return found
            found = self._walked(Order(start)) or found
        return found

    def _squeezed(self, order: Order) -> Filling | None:
        """The lowest filling of one order, found by halving what lies between best and least."""
        found, low, target = None, self._clock.least, self._clock.best - 1
        while low <= target and self._clock.ticks():
            filling = self._pack(order, target)
            if filling.whole:
                found, self._clock.best = filling, filling.height
            else:
                low = target + 1
            target = (low + self._clock.best - 1) // 2
        return found

    def _walked(self, order: Order) -> Filling | None:
        """The lowest filling on a walk from one order, as far as patience goes."""
        found = None
        while filling := self._bettered(order, self._clock.best - 1):
            found, self._clock.best = filling, filling.height
        return found

    def _bettered(self, order: Order, target: int) -> Filling | None:
        """A whole filling up to a target, its order walked to by moves that never set down less."""
        if not self._clock.ticks():
            return None
        filling, fruitless = self._pack(order, target), 0
        while not filling.whole:
            if fruitless >= PATIENCE * len(order.shapes) or not self._clock.ticks():
                return None
            a, b = self._move(len(order.shapes))
            order.change(a, b)
            tried = self._pack(order, target)
            fruitless = 0 if tried.area > filling.area else fruitless + 1
            if tried.area >= filling.area:
                filling = tried
            else:
                order.change(a, b)
        return filling

    def _move(self, ranks: int) -> tuple[int, int]:
        """Two ranks to exchange, or one twice to flip it."""
        draw = self._random.random
        rank = int(draw() * ranks)
        return rank, rank if draw() < self._flips else int(draw() * ranks)


def sorted_shapes(sheet: Sheet) -> Iterator[list[Shape]]:
    """The shapes of a sheet in the orders that a search starts from, large ones first."""
    shapes = sheet.shapes()
    yield sorted(shapes, key=lambda s: -s.width * s.height)
    yield sorted(shapes, key=lambda s: (-s.width, -s.height))
    yield sorted(shapes, key=lambda s: (-s.height, -s.width))
    yield sorted(shapes, key=lambda s: -s.width - s.height)
    yield sorted(shapes, key=lambda s: (-max(s.width, s.height), -min(s.width, s.height)))
