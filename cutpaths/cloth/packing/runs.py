"""Strips that are cut many times over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way, placements, rewritten


@dataclass(frozen=True, slots=True)
class Run:
    """A strip as wide as the cloth, with its cuts, and how many of it are cut."""

    times: int
    strip: Node

    @property
    def makes(self) -> Counter[int]:
        """How many pieces one such strip makes of each item."""
        return Counter(piece.item for piece in placements(self.strip))


def runs_of(cuts: Node) -> tuple[Run, ...]:
    """The strips of a tree whose first cuts run across the cloth, alike ones together."""
    is_across = isinstance(cuts, Cut) and cuts.way is Way.ACROSS
    strips = cuts.parts if is_across else (cuts,)
    return tuple(Run(times, strip) for strip, times in Counter(strips).items())


def trimmed(runs: Sequence[Run], demands: Sequence[int]) -> tuple[Run, ...]:
    """The runs without the pieces that they make beyond the demands; bare strips are dropped."""
    for item, demand in enumerate(demands):
        extra = sum(run.times * run.makes[item] for run in runs) - demand
        kept: list[Run] = []
        for run in reversed(runs):
            parts = _lessened(run, item, extra) if extra > 0 else (run,)
            extra -= run.times * run.makes[item] - sum(p.times * p.makes[item] for p in parts)
            kept[:0] = parts
        runs = kept
    return tuple(run for run in runs if run.makes)


def _lessened(run: Run, item: int, extra: int) -> tuple[Run, ...]:
    """A run in up to three, with as many pieces fewer of an item as are extra, or all of them."""
    each = run.makes[item]
    if not each:
        return (run,)
    bare = min(run.times, extra // each)
    part = 0 if bare == run.times else extra - bare * each
    parts = (
        Run(run.times - bare - bool(part), run.strip),
        Run(int(bool(part)), _without(run.strip, item, part)),
        Run(bare, _without(run.strip, item, each)),
    )
    return tuple(each for each in parts if each.times)


def _without(strip: Node, item: int, count: int) -> Node:
    """A strip with the last so many pieces of an item left as waste."""
    left = count

    def leaf(taken: Taken) -> Node:
        nonlocal left
        if taken.item != item or left == 0:
            return taken
        left -= 1
        return Waste(width=taken.width, height=taken.height)

    return rewritten(strip, leaf)
