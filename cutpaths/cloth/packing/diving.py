"""Strips for a blanket or two: patterns made whole one after the other, and a search for the rest.

Patterns for strips are generated as in `patterns`, over exact fractions, so that no solver is
needed and the plan is the same on every machine. The relaxation's strips are cut as often as it
says, rounded down; of what is left the strip of which it uses most is cut once, the relaxation is
solved anew, and so on: what is called a dive. Further dives begin with the strip of which it uses
second most, and so on. At each depth a search lays out what is left, and the shortest of all these
plans is kept.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.packing.columns import Relaxed
from cutpaths.cloth.packing.cuts import Node, rewritten
from cutpaths.cloth.packing.effort import NO_PLAN, Effort, Watch, unwatched
from cutpaths.cloth.packing.generation import Offer, generated
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.pricing import StripPricing
from cutpaths.cloth.packing.relaxation import Relaxation
from cutpaths.cloth.packing.runs import Run, runs_of, trimmed
from cutpaths.cloth.packing.sheet import Sheet, sheet_of
from cutpaths.cloth.packing.strips import Strip, column, plain_strips, runs_of_strip
from cutpaths.values import replace

STEPS_MOST = 4096  # across the cloth and along the tallest piece; finer sheets take long
KINDS_MOST = 16
OFFERED = 4  # most strips that are added to the relaxation at once
ROUNDS = 80  # most times that strips are added
DIVES, DIVED = 8, 40  # most of them, and most kinds times dives
PIECES_MOST = 120  # most pieces that are searched

Left = tuple[int, ...]  # pieces of each item that are still to be cut


def dived_strips(
    items: Sequence[Item],
    width: Length,
    *,
    effort: Effort,
    watch: Watch = unwatched,
) -> tuple[Node, ...] | None:
    """Strips for all pieces, from the cut end up; None where sizes or kinds are too many.

    Args:
        items: what to cut.
        width: of the cloth.
        effort: its tries are shared out among the searches for the rest.
        watch: hears of the progress and may stop it.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the cloth.
    """
    sheet = sheet_of(items, width)
    tallest = max(height for kind in sheet.kinds for _, height, _ in kind.ways)
    if len(items) > KINDS_MOST or max(sheet.width, tallest) > STEPS_MOST:
        return None
    strips, depths = _strips(sheet, watch), dict[Left, tuple[Run, ...]]()
    for start in range(min(DIVES, DIVED // len(items))):
        for runs, left in _dive(sheet, strips, start):
            if left not in depths or _length(runs) < _length(depths[left]):
                depths[left] = runs
    few = {left: runs for left, runs in depths.items() if sum(left) <= PIECES_MOST}
    share = _shared(effort, len(few))
    plans = [
        trimmed([*runs, *_searched(items, width, left, share, watch)], _counts(sheet))
        for left, runs in few.items()
    ]
    best = min(plans, key=_length)
    return tuple(run.strip for run in best for _ in range(run.times))


def _shared(effort: Effort, searches: int) -> Effort:
    """What each of some searches has of an effort."""
    return replace(
        effort,
        tries=None if effort.tries is None else effort.tries // searches,
        seconds=None if effort.seconds is None else effort.seconds / searches,
    )


def _length(runs: Sequence[Run]) -> Fraction:
    return sum((Fraction(run.times * run.strip.height) for run in runs), Fraction(0))


def _counts(sheet: Sheet) -> Left:
    return tuple(kind.count for kind in sheet.kinds)


def _strips(sheet: Sheet, watch: Watch) -> list[Strip]:
    """Strips of which parts make all pieces from the least cloth."""
    pricing, cover, strips = StripPricing(sheet), Relaxation(_counts(sheet)), []
    for strip in plain_strips(sheet):
        strips.append(strip)
        cover.add(column(strip))

    def price(worth: Sequence[int]) -> Offer:
        rate, found = pricing.best(worth)
        strips.extend(found[:OFFERED])
        return Offer(rate, [column(strip) for strip in found[:OFFERED]])

    def go_on() -> bool:
        return watch(NO_PLAN)

    generated(cover, _counts(sheet), price, rounds=ROUNDS, go_on=go_on)
    return strips


def _dive(
    sheet: Sheet, strips: Sequence[Strip], start: int
) -> Iterator[tuple[tuple[Run, ...], Left]]:
    """At each depth the strips that are cut so far, and what is left.

    Args:
        sheet: what is to be cut.
        strips: that may be cut.
        start: which of the strips that are used in parts is cut first; 0 is that of most use.
    """
    runs, left = tuple[Run, ...](), _counts(sheet)
    yield runs, left
    while any(left):
        times = _relaxed(strips, left).times
        chosen = {k: int(part) for k, part in enumerate(times) if part >= 1}
        if not chosen:
            used = sorted((k for k, part in enumerate(times) if part), key=lambda k: -times[k])
            chosen, start = {used[min(start, len(used) - 1)]: 1}, 0
        for k, whole in chosen.items():
            runs = (*runs, *runs_of_strip(sheet, strips[k], whole))
            left = _less(left, strips[k].makes, whole)
        yield runs, left


def _relaxed(strips: Sequence[Strip], left: Left) -> Relaxed:
    cover = Relaxation(left)
    for strip in strips:
        cover.add(column(strip))
    return cover.relaxed()


def _less(left: Left, makes: Counter[int], times: int) -> Left:
    return tuple(max(0, count - times * makes[item]) for item, count in enumerate(left))


def _searched(
    items: Sequence[Item], width: Length, left: Left, effort: Effort, watch: Watch
) -> tuple[Run, ...]:
    """Strips for what is left."""
    missing = [item for item, count in enumerate(left) if count]
    if not missing:
        return ()
    rest = [replace(items[item], count=left[item]) for item in missing]
    plan = pack_guillotine(rest, width, effort=effort, watch=watch)
    return runs_of(rewritten(plan.cuts, lambda taken: replace(taken, item=missing[taken.item])))
