"""Lays prints out at random, then swaps squares until no rule is broken, or as few as it finds.

Simulated annealing (Kirkpatrick, Gelatt, Vecchi 1983): a swap that breaks more is still made now
and then, ever more seldom. What is counted is meetings of cells alike, and uneven squares of rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp
from random import Random

from cutpaths.arrange.bounds import fewest_touches
from cutpaths.arrange.effort import TRIES_BETWEEN, Watch
from cutpaths.arrange.rows import RowCounts
from cutpaths.arrange.rules import ArrangeRules, Layout, meetings, neighbours
from cutpaths.arrange.violations import used_counts

DOING = "Keeping the rules"
LOOKS = 16  # neighbours looked at for one swap
HOT, COLD = 0.5, 0.1  # broken rules; found by trials on 12 x 12 cells, tight and loose


def dealt(rules: ArrangeRules, counts: Sequence[int], random: Random) -> Layout:
    """So many squares of each print, laid out at random round the pinned ones."""
    left = list(counts)
    for place in rules.fixed.values():
        left[place] -= 1
    heap = [place for place, count in enumerate(left) for _ in range(count)]
    random.shuffle(heap)
    return tuple(
        rules.fixed[cell] if cell in rules.fixed else heap.pop() for cell in range(rules.cells)
    )


def broken(rules: ArrangeRules, layout: Layout) -> int:
    """Meetings of cells alike, and squares too many or too few in rows."""
    alike = sum(layout[first] == layout[second] for first, second in meetings(rules))
    return alike + RowCounts(rules, layout).uneven()


def settled(rules: ArrangeRules, start: Layout, tries: int, random: Random, watch: Watch) -> Layout:
    """The layout with the fewest broken rules met on the way.

    It ends at the first layout that breaks as few as any can, by counting; mostly none.

    Args:
        rules: what to keep.
        start: a layout; its counts and its pinned cells stay.
        tries: how many swaps to try.
        random: where chance comes from.
        watch: hears of the progress and may stop it.
    """
    free = [cell for cell in range(rules.cells) if cell not in rules.fixed]
    now = fewest = broken(rules, start)
    best = start
    least = fewest_touches(rules, used_counts(rules, start))
    if len(free) < 2 or now == least:
        return start
    grid, near, rows = list(start), neighbours(rules), RowCounts(rules, start)
    chance, count, heat = random.random, len(free), HOT
    for tried in range(tries):
        if tried % TRIES_BETWEEN == 0:
            if not watch(DOING, tried / tries):
                break
            heat = HOT * (COLD / HOT) ** (tried / tries)
        here, there = free[int(chance() * count)], free[int(chance() * count)]
        if grid[here] == grid[there]:
            continue
        place = (
            rules.row_of(here),
            rules.group_of[grid[here]],
            rules.row_of(there),
            rules.group_of[grid[there]],
        )
        change = _more_alike(grid, near, here, there) + rows.change(*place)
        if change <= 0 or chance() < exp(-change / heat):
            grid[here], grid[there] = grid[there], grid[here]
            rows.swap(*place)
            now += change
            if now < fewest:
                fewest, best = now, tuple(grid)
                if now == least:
                    break
    return best


def _more_alike(grid: Sequence[int], near: Sequence[Sequence[int]], here: int, there: int) -> int:
    """How many more cells alike meet once two cells that differ have changed places."""
    one, two = grid[here], grid[there]
    change = 0
    for cell in near[here]:
        if grid[cell] == one:
            change -= 1
        elif grid[cell] == two and cell != there:
            change += 1
    for cell in near[there]:
        if grid[cell] == two:
            change -= 1
        elif grid[cell] == one and cell != here:
            change += 1
    return change
