"""An exact search for the fewest windows that hold all boxes, as far as its length allows.

Boxes that are held wherever another one is need no look, nor windows that hold no more than another
one; what is left is searched whole, the box that fewest windows hold first. A count is left where
so many boxes are apart that no window holds two of them. A search that ends without a cover proves
that more windows are needed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from cutpaths.projector.window import Window
from cutpaths.values import Value

NODES_MOST = 4_000


class Cover(Value):
    """Windows that hold everything, and the count below which those at hand cannot go."""

    windows: tuple[Window, ...]
    least: int


def fewest(candidates: Sequence[Window], everything: int, least: int) -> Cover:
    """As few windows as a search of limited length finds, from a count that is known to be least.

    Args:
        candidates: to choose from; together they hold everything.
        everything: the bits of all boxes.
        least: a count below which it cannot go.
    """
    best = _greedy(candidates, everything)
    search = _Search.of(candidates, everything)
    proved = least
    for count in range(max(1, least), len(best)):
        budget = [NODES_MOST]
        found = search.cover(search.everything, count, budget, {})
        if found is not None:
            return Cover(found, proved)
        if budget[0] >= 0 and proved == count:
            proved = count + 1
    return Cover(best, max(proved, 1))


def _greedy(candidates: Sequence[Window], everything: int) -> tuple[Window, ...]:
    """Always the window that holds most of what is left."""
    left, chosen = everything, []
    gain: Callable[[Window], int] = lambda window: (window.holds & left).bit_count()  # noqa: E731
    while left:
        best = max(candidates, key=gain)
        chosen.append(best)
        left &= ~best.holds
    return tuple(chosen)


class _Search(Value):
    """What is left to choose from.

    Attributes:
        windows: that hold something which no other one holds besides all the rest of it.
        held: of the boxes to look at, by the bit of each: bits of the windows that hold it.
        order: bits of those boxes, the one that fewest windows hold first.
    """

    windows: tuple[Window, ...]
    held: dict[int, int]
    order: tuple[int, ...]

    @staticmethod
    def of(candidates: Sequence[Window], everything: int) -> _Search:
        """The search among some windows, once all that needs no look is left out."""
        hard = _hard(_held(candidates, everything))
        bits = sum(hard)
        windows = _largest(candidates, bits)
        held = _held(windows, bits)
        order = tuple(sorted(held, key=lambda bit: (held[bit].bit_count(), bit)))
        return _Search(windows, held, order)

    @property
    def everything(self) -> int:
        """The bits of all boxes to look at."""
        return sum(self.order)

    def cover(
        self, left: int, count: int, budget: list[int], failed: dict[int, int]
    ) -> tuple[Window, ...] | None:
        """`count` windows that hold all that is left; None where there are none, or no budget."""
        if not left:
            return ()
        budget[0] -= 1
        if budget[0] < 0 or failed.get(left, -1) >= count or self._apart(left) > count:
            return None
        hardest = next(bit for bit in self.order if left & bit)
        for window in self._able(hardest, left):
            found = self.cover(left & ~window.holds, count - 1, budget, failed)
            if found is not None:
                return (window, *found)
        if budget[0] >= 0:
            failed[left] = count
        return None

    def _apart(self, left: int) -> int:
        """How many boxes are found of which no window holds two."""
        taken, found = 0, 0
        for bit in self.order:
            if left & bit and not self.held[bit] & taken:
                taken |= self.held[bit]
                found += 1
        return found

    def _able(self, bit: int, left: int) -> list[Window]:
        """The windows that hold a box, those that hold most of what is left first."""
        able = [window for n, window in enumerate(self.windows) if self.held[bit] >> n & 1]
        able.sort(key=lambda window: -(window.holds & left).bit_count())
        kept: list[Window] = []
        for window in able:
            part = window.holds & left
            if not any(part | other.holds == other.holds for other in kept):
                kept.append(window)
        return kept


def _held(windows: Sequence[Window], bits: int) -> dict[int, int]:
    """For the bit of each box: bits of the windows that hold it."""
    held = {1 << n: 0 for n in range(bits.bit_length()) if bits >> n & 1}
    for n, window in enumerate(windows):
        part = window.holds & bits
        while part:
            bit = part & -part
            held[bit] |= 1 << n
            part ^= bit
    return held


def _hard(held: dict[int, int]) -> list[int]:
    """The boxes that are not held wherever another one is."""
    kept: list[int] = []
    for bit in sorted(held, key=lambda each: (held[each].bit_count(), each)):
        if not any(held[bit] | held[other] == held[bit] for other in kept):
            kept.append(bit)
    return kept


def _largest(candidates: Sequence[Window], bits: int) -> tuple[Window, ...]:
    """The windows that hold some of the boxes which no other one holds as well."""
    first: dict[int, Window] = {}
    for window in candidates:
        first.setdefault(window.holds & bits, window)
    kept: dict[int, Window] = {}
    for part in sorted(first, key=lambda each: -each.bit_count()):
        if not any(part | other == other for other in kept):
            kept[part] = first[part]
    return tuple(kept.values())
