"""Strips that are cut many times over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way


@dataclass(frozen=True, slots=True)
class Run:
    """A strip as wide as the cloth with its cuts, and how many of it are cut."""

    times: int
    strip: Node

    @property
    def makes(self) -> Counter[int]:
        """How many pieces one such strip makes of each item."""
        return Counter(taken.item for taken in _taken(self.strip))


def runs_of(cuts: Node) -> tuple[Run, ...]:
    """The strips of a tree whose first cuts run across the cloth, alike ones together."""
    is_across = isinstance(cuts, Cut) and cuts.way is Way.ACROSS
    strips = cuts.parts if is_across else (cuts,)
    return tuple(Run(times, strip) for strip, times in Counter(strips).items())


def trimmed(runs: Sequence[Run], demands: Sequence[int]) -> tuple[Run, ...]:
    """The runs without the pieces that are made beyond the demands; strips left bare are dropped."""
    for item, demand in enumerate(demands):
        extra = sum(run.times * run.makes[item] for run in runs) - demand
        ...
