"""Many alike pieces: patterns for strips, and how often to cut each; takes the solver.

The cutting-stock problem with three stages of cuts: strips across the cloth, crosscut into stacks,
the stacks trimmed into pieces. Patterns are generated as they help a relaxation in which parts of
strips may be cut (see `generation`); its cost is a proven bound on plans of such strips. Whole
strips come from the relaxation rounded down with a search for the rest or, of a few kinds of
pieces, from the solver, whichever takes less cloth.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from math import ceil, inf
from typing import NamedTuple

from cutpaths.cloth.packing.bounds import least_height
from cutpaths.cloth.packing.columns import Amount
from cutpaths.cloth.packing.cover import Cover
from cutpaths.cloth.packing.cuts import rewritten
from cutpaths.cloth.packing.effort import NO_PLAN, Effort, Watch, unwatched
from cutpaths.cloth.packing.generation import GoOn, Offer, generated
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.pricing import StripPricing
from cutpaths.cloth.packing.reach import next_height
from cutpaths.cloth.packing.runs import PatternPlan, Rounding, Run, runs_of, trimmed
from cutpaths.cloth.packing.sheet import Sheet, sheet_of
from cutpaths.cloth.packing.strips import Strip, column, plain_strips, runs_of_strip
from cutpaths.values import replace

__all__ = ["PatternPlan", "Rounding", "pack_patterns"]

NEAR_WHOLE = 1e-6  # how far below a whole number of times still counts as it
GENERATING, WHOLE = 0.6, 0.2  # shares of the seconds; the search has the rest
OFFERED = 16  # most strips that are added to the relaxation at once
SOLVED_MOST = 8  # most kinds of pieces for which the solver is asked for whole strips
NODES = 100  # most nodes of its tree; it ends there on a slow machine as on a fast one
GAP = 1e-4  # share of the cloth by which the solver's whole strips may be above its best


def pack_patterns(
    items: Sequence[Item],
    width: Length,
    *,
    effort: Effort = Effort(seconds=None, tries=1000),  # noqa: B008 (frozen)
    watch: Watch = unwatched,
) -> PatternPlan:
    """Strips for many alike pieces, none higher than the tallest piece, and the proven bound.

    Args:
        items: what to cut, with large counts.
        width: of the cloth.
        effort: how much work to do; the plan is the same everywhere unless its seconds end it.
        watch: hears of the progress and may stop the work; the best plan so far is kept.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the cloth.
    """
    sheet = sheet_of(items, width)
    seconds = inf if effort.seconds is None else effort.seconds

    def go_on() -> bool:
        return watch(NO_PLAN)

    generation = _generated(sheet, GENERATING * seconds, go_on)
    least = max(next_height(sheet, ceil(generation.bound)), least_height(sheet))
    solved = _solved(sheet, generation, WHOLE * seconds, go_on)
    rest = replace(effort, seconds=None if seconds == inf else (1 - GENERATING - WHOLE) * seconds)
    before = time.monotonic()
    searched = _searched(sheet, items, generation, rest, watch)
    late = generation.late or solved.late or time.monotonic() - before >= (rest.seconds or inf)
    plans = [
        _plan(items, width, sheet.size(least), runs, rounding, late=late)
        for rounding, runs in ((Rounding.SOLVED, solved.runs), (Rounding.SEARCHED, searched))
        if runs
    ]
    return min(plans, key=lambda plan: plan.height)


class Generation(NamedTuple):
    """Strips in steps, the cover by them, how often its relaxation cuts each, and the bound."""

    strips: tuple[Strip, ...]
    cover: Cover
    times: tuple[Amount, ...]
    bound: Fraction
    late: bool


class Solved(NamedTuple):
    """The solver's whole strips, none if it found none, and whether the clock ended it."""

    runs: list[Run]
    late: bool


def _generated(sheet: Sheet, seconds: float, go_on: GoOn) -> Generation:
    demands = [kind.count for kind in sheet.kinds]
    pricing, cover, strips = StripPricing(sheet), Cover(demands), list(plain_strips(sheet))
    for strip in strips:
        cover.add(column(strip))

    def price(worth: Sequence[int]) -> Offer:
        rate, found = pricing.best(worth)
        strips.extend(found[:OFFERED])
        return Offer(rate, [column(strip) for strip in found[:OFFERED]])

    made = generated(cover, demands, price, seconds=seconds, go_on=go_on)
    return Generation(tuple(strips), cover, made.relaxed.times, made.bound, made.late)


def _solved(sheet: Sheet, generation: Generation, seconds: float, go_on: GoOn) -> Solved:
    """The solver's whole strips, of few kinds of pieces: it is asked no more than it soon does."""
    if len(sheet.kinds) > SOLVED_MOST or not go_on():
        return Solved([], late=False)
    start = time.monotonic()
    whole = generation.cover.whole(seconds=seconds, gap=GAP, nodes=NODES, go_on=go_on)
    used = zip(whole.times, generation.strips, strict=False) if whole else ()
    runs = [run for times, strip in used if times for run in runs_of_strip(sheet, strip, times)]
    late = time.monotonic() - start >= seconds and not (whole and whole.is_proved)
    return Solved(runs, late)


def _searched(
    sheet: Sheet, items: Sequence[Item], generation: Generation, effort: Effort, watch: Watch
) -> list[Run]:
    """The relaxation's strips rounded down, and strips searched for the pieces then missing."""
    runs: list[Run] = []
    made = Counter[int]()
    for part, strip in zip(generation.times, generation.strips, strict=False):
        if times := int(part + NEAR_WHOLE):
            runs += runs_of_strip(sheet, strip, times)
            made.update({item: times * count for item, count in strip.makes.items()})
    missing = [index for index, item in enumerate(items) if item.count > made[index]]
    if missing:
        rest = [replace(items[index], count=items[index].count - made[index]) for index in missing]
        plan = pack_guillotine(rest, sheet.size(sheet.width), effort=effort, watch=watch)
        renamed = rewritten(plan.cuts, lambda taken: replace(taken, item=missing[taken.item]))
        runs.extend(runs_of(renamed))
    return runs


def _plan(
    items: Sequence[Item],
    width: Length,
    least: Length,
    runs: Sequence[Run],
    rounding: Rounding,
    *,
    late: bool,
) -> PatternPlan:
    kept = trimmed(runs, [item.count for item in items])
    height = sum((run.times * run.strip.height for run in kept), Fraction(0))
    return PatternPlan(
        width=width, height=height, runs=kept, rounding=rounding, bound=least, late=late
    )
