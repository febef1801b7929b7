"""Strips laid out on bolts, and bolts that are cut alike stacked in layers; mm, exact."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.packing.runs import Run
from cutpaths.values import Value

# Left-overs from a quarter yard, or 25 cm, on are worth keeping (common practice, no source).
KEPT_PARTS = 4


class BoltPlan(Value, kw_only=True):
    """Bolts that are cut alike.

    Attributes:
        strips: how often each is cut from one bolt, from its end on.
        bolts: how many bolts are cut so.
        used: length of one that is cut into, squaring up with it.
        left: length of one that is left.
    """

    strips: tuple[Run, ...]
    bolts: int
    used: Fraction
    left: Fraction

    def lays(self, plies: int) -> int:
        """How many stacks of at most so many layers they make."""
        return -(-self.bolts // plies)


def bolt_plans(runs: Sequence[Run], bolt: Fraction, square_up: Fraction) -> tuple[BoltPlan, ...]:
    """Strips on bolts, the tallest first; bolts are cut alike as long as the strips last.

    Every strip must fit a bolt.
    """
    tallest_first = sorted(runs, key=lambda run: (-run.strip.height, -run.times))
    return tuple(_plans(tallest_first, bolt, 2 * square_up))


def _plans(runs: Sequence[Run], bolt: Fraction, lost: Fraction) -> Iterator[BoltPlan]:
    left = [run.times for run in runs]
    while any(left):
        free, taken = bolt - lost, [0] * len(runs)
        for k, run in enumerate(runs):
            taken[k] = min(left[k], int(free // run.strip.height))
            free -= taken[k] * run.strip.height
        alike = min(left[k] // n for k, n in enumerate(taken) if n)
        left = [times - n * alike for times, n in zip(left, taken, strict=True)]
        yield BoltPlan(
            strips=tuple(Run(n, runs[k].strip) for k, n in enumerate(taken) if n),
            bolts=alike,
            used=bolt - free,
            left=free,
        )


def kept(plans: Sequence[BoltPlan], per: Fraction) -> tuple[tuple[Fraction, int], ...]:
    """Left-overs long enough to keep, with how many of each, the longest first."""
    found = [(plan.left, plan.bolts) for plan in plans if plan.left * KEPT_PARTS >= per]
    return tuple(sorted(found, reverse=True))
