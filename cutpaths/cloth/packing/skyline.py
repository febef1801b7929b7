"""Fills a strip from below: at the lowest gap, the piece that fits it best.

After the best-fit heuristic of E. K. Burke, G. Kendall, G. Whitwell, "A new placement heuristic
for the orthogonal stock-cutting problem", Operations Research 52(4), 2004, 655-671. Their widest
piece is replaced by a rule that leaves room for a search: a piece that fills the gap's width, else
one that ends level with the taller wall beside it, else the first in the order that fits. Scoring
a gap by its walls is due to S. C. H. Leung, D. Zhang, K. M. Sim, "A two-stage intelligent search
algorithm for the two-dimensional strip packing problem", EJOR 215, 2011, 57-69. Here the walls at
the strip's edges end at the height aimed for. All lengths are in steps.
"""

from __future__ import annotations

from typing import NamedTuple

from cutpaths.cloth.packing.order import Order, first
from cutpaths.cloth.packing.sheet import Shape


class Filling(NamedTuple):
    """What an order came to.

    Attributes:
        area: of the pieces placed before too much was wasted.
        whole: whether that is all of them.
        steps: shape, x, y of each piece placed.
    """

    area: int
    whole: bool
    steps: list[tuple[Shape, int, int]]


class Gap(NamedTuple):
    """The lowest stretch of a skyline: its place in it, its size and the walls beside it."""

    place: int
    x: int
    y: int
    width: int
    left: int
    right: int


class Skyline:
    """The upper edge of what is placed, between walls of the height aimed for.

    Stretch k lies at `_levels[k]` and runs from `_starts[k]` to `_starts[k + 1]`; neighbours
    differ in level. The first and the last stretch are the walls; they have no width at first.
    """

    __slots__ = ("_levels", "_starts")

    def __init__(self, width: int, target: int) -> None:
        self._levels = [target, 0, target]
        self._starts = [0, 0, width]

    def lowest(self) -> Gap | None:
        """The lowest gap, the leftmost of them; None where all is filled to the top of the walls."""
        levels, starts = self._levels, self._starts
        level = min(levels)
        k = levels.index(level)
        if k == 0:
            return None
        x = starts[k]
        return Gap(k, x, level, starts[k + 1] - x, levels[k - 1] - level, levels[k + 1] - level)

    def fill(self, gap: Gap, height: int) -> None:
        """Raises the whole of a gap."""
        k = gap.place
        self._levels[k] = gap.y + height
        if height == gap.right:
            del self._levels[k + 1], self._starts[k + 1]
        if height == gap.left:
            del self._levels[k], self._starts[k]

    def stack_left(self, gap: Gap, width: int, height: int) -> int:
        """Raises the left part of a gap; gives its x."""
        k = gap.place
        self._starts[k] = gap.x + width
        if height != gap.left:
            self._levels.insert(k, gap.y + height)
            self._starts.insert(k, gap.x)
        return gap.x

    def stack_right(self, gap: Gap, width: int, height: int) -> int:
        """Raises the right part of a gap; gives its x."""
        k, x = gap.place, gap.x + gap.width - width
        if height == gap.right:
            self._starts[k + 1] = x
        else:
            self._levels.insert(k + 1, gap.y + height)
            self._starts.insert(k + 1, x)
        return x

    def stack(self, gap: Gap, width: int, height: int, *, flipped: bool) -> int:
        """Puts a piece against the taller wall of a gap, or the other if flipped; gives its x."""
        if width == gap.width:
            self.fill(gap, height)
            return gap.x
        if (gap.left >= gap.right) is not flipped:
            return self.stack_left(gap, width, height)
        return self.stack_right(gap, width, height)


def skyline_filling(order: Order, width: int, target: int) -> Filling:
    """Fills a strip up to a target height, until more is wasted than can be spared."""
    skyline, left = Skyline(width, target), order.everything
    area, spare, steps = 0, width * target - order.area, []
    while left and (gap := skyline.lowest()) is not None:
        room = target - gap.y
        fitting = left & order.widths.at_most(gap.width) & order.heights.at_most(room)
        if not fitting:
            height = min(gap.left, gap.right)
            spare -= gap.width * height
            if spare < 0:
                break
            skyline.fill(gap, height)
            continue
        rank = first(_best(order, fitting, gap))
        left ^= order.same_piece(rank)
        shape = order.shapes[rank]
        flipped = bool(order.flips >> rank & 1)
        x = skyline.stack(gap, shape.width, shape.height, flipped=flipped)
        area += shape.width * shape.height
        steps.append((shape, x, gap.y))
    return Filling(area, not left, steps)


def _best(order: Order, fitting: int, gap: Gap) -> int:
    """Those that fit a gap best."""
    filling = fitting & order.widths.exactly.get(gap.width, 0)
    level = order.heights.exactly.get(max(gap.left, gap.right), 0)
    fitting = filling or fitting
    return fitting & level or fitting
