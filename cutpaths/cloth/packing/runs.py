"""Strips that are cut many times over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from enum import StrEnum

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way, pieces, rewritten
from cutpaths.cloth.packing.items import Length
from cutpaths.values import Value


class Run(Value):
    """A strip as wide as the cloth, with its cuts, and how many of it are cut."""

    times: int
    strip: Node

    @property
    def makes(self) -> Counter[int]:
        """How many pieces one such strip makes of each item."""
        return Counter(piece.item for piece in pieces(self.strip))


class Rounding(StrEnum):
    """How parts of strips became whole ones."""

    SOLVED = "whole strips, by the solver"
    SEARCHED = "rounded down, the rest searched"


class PatternPlan(Value, kw_only=True):
    """Strips and how many of each are cut.

    Attributes:
        width: of the cloth.
        height: length of cloth that all strips take.
        runs: the strips.
        rounding: how they were made whole.
        bound: no plan of strips that are no higher, in three stages, takes less.
        late: whether the clock ended the work, so that another run may come to another plan.
    """

    width: Length
    height: Length
    runs: tuple[Run, ...]
    rounding: Rounding
    bound: Length
    late: bool

    @property
    def gap(self) -> float:
        """By which share of the bound the height is above it."""
        return float(self.height / self.bound - 1)


def runs_of(cuts: Node) -> tuple[Run, ...]:
    """The strips of a tree whose first cuts run across the cloth, alike ones together."""
    strips = cuts.parts if isinstance(cuts, Cut) and cuts.way is Way.ACROSS else (cuts,)
    return tuple(Run(times, strip) for strip, times in Counter(strips).items())


def trimmed(runs: Sequence[Run], demands: Sequence[int]) -> tuple[Run, ...]:
    """The runs without the pieces that they make beyond the demands; bare strips are dropped."""
    made = Counter[int]()
    for run in runs:
        made.update({item: run.times * count for item, count in run.makes.items()})
    for item, demand in enumerate(demands):
        if made[item] > demand:
            runs = tuple(_without_extra(runs, item, made[item] - demand))
    return tuple(run for run in runs if run.makes)


def _without_extra(runs: Sequence[Run], item: int, extra: int) -> Iterator[Run]:
    """Runs with so many pieces fewer of an item."""
    for run in runs:
        made = run.times * run.makes[item]
        if made and extra:
            yield from _lessened(run, item, min(extra, made))
            extra -= min(extra, made)
        else:
            yield run


def _lessened(run: Run, item: int, extra: int) -> Iterator[Run]:
    """A run as up to three, with so many pieces fewer of an item; it has as many."""
    each = run.makes[item]
    bare, part = divmod(extra, each)
    for times, fewer in ((run.times - bare - bool(part), 0), (bool(part), part), (bare, each)):
        if times:
            yield Run(int(times), _without(run.strip, item, fewer))


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
