"""Swaps squares so that prints alike lie farther apart, without breaking a rule more.

Each two cells alike push each other away with the eighth power of their distance, so that the
nearest ones count most and far ones hardly. Simulated annealing as in `settle`, cold from the
start: a swap that breaks one more rule is never made.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp
from random import Random

from cutpaths.arrange.effort import TRIES_BETWEEN, Watch
from cutpaths.arrange.rows import RowCounts
from cutpaths.arrange.rules import ArrangeRules, Layout, steps

DOING = "Moving prints alike apart"
NEAR = 4.0  # squared distance at which the push is 1
HOT, COLD = 0.3, 0.001  # pushes; found by trials on 12 x 12 cells
BROKEN = 10_000.0  # pushes; a broken rule outweighs all others


def looks(counts: Sequence[int]) -> float:
    """Cells looked at for one swap of two cells at random: all cells alike, four times."""
    return 4 * sum(count * count for count in counts) / max(1, sum(counts))


def spread(rules: ArrangeRules, start: Layout, tries: int, random: Random, watch: Watch) -> Layout:
    """The layout that the swaps end at, or the start when that is no worse.

    Args:
        rules: what to keep.
        start: a layout; its counts and its pinned cells stay, and it breaks no rule more.
        tries: how many swaps to try.
        random: where chance comes from.
        watch: hears of the progress and may stop it.
    """
    free = [cell for cell in range(rules.cells) if cell not in rules.fixed]
    if len(free) < 2:
        return start
    push, spots = _pushes(rules), _spots(rules)
    grid, rows = list(start), RowCounts(rules, start)
    taken: list[list[int]] = [[] for _ in rules.prints]
    for cell, each in enumerate(grid):
        taken[each].append(spots[cell])
    chance, count, heat, better = random.random, len(free), HOT, 0.0
    for tried in range(tries):
        if tried % TRIES_BETWEEN == 0:
            if not watch(DOING, tried / tries):
                break
            heat = HOT * (COLD / HOT) ** (tried / tries)
        here, there = free[int(chance() * count)], free[int(chance() * count)]
        one, two = grid[here], grid[there]
        if one == two:
            continue
        place = rules.row_of(here), rules.group_of[one], rules.row_of(there), rules.group_of[two]
        change = BROKEN * rows.change(*place)
        change += _push_change(push, taken[one], spots[here], spots[there])
        change += _push_change(push, taken[two], spots[there], spots[here])
        if change <= 0 or chance() < exp(-change / heat):
            grid[here], grid[there] = two, one
            taken[one][taken[one].index(spots[here])] = spots[there]
            taken[two][taken[two].index(spots[there])] = spots[here]
            rows.swap(*place)
            better -= change
    return tuple(grid) if better > 0 else start


def _spots(rules: ArrangeRules) -> list[int]:
    """A number for each cell, so that each way between two cells has a difference of its own."""
    return [2 * rules.columns * rules.row_of(n) + n % rules.columns for n in range(rules.cells)]


def _pushes(rules: ArrangeRules) -> list[float]:
    """How strongly two cells alike push, by the difference of their spots, which may be negative.

    A cell does not push itself.
    """
    wide = 2 * rules.columns
    pushes = [0.0] * (2 * wide * rules.rows)
    for down in range(1 - rules.rows, rules.rows):
        for across in range(1 - rules.columns, rules.columns):
            if down or across:
                pushes[down * wide + across] = (NEAR / (down * down + across * across)) ** 4
    for down, across in steps(rules):
        if down < rules.rows and abs(across) < rules.columns:
            pushes[down * wide + across] += BROKEN
            pushes[-down * wide - across] += BROKEN
    return pushes


def _push_change(push: Sequence[float], alike: Sequence[int], start: int, end: int) -> float:
    """How much harder a print's cells push once one of them has moved; negative indexes count."""
    before, after = 0.0, 0.0
    for spot in alike:
        before += push[start - spot]
        after += push[end - spot]
    return after - before - push[end - start]
