"""Strips laid out on bolts, and bolts that are cut alike stacked in layers; mm, exact."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from cutpaths.cloth.kit_patterns import Pattern

# Left-overs from a quarter yard, or 25 cm, on are worth keeping (common practice, no source).
KEPT_PARTS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltPlan:
    """Bolts that are cut alike.

    Attributes:
        strips: patterns with how often each is cut from one bolt, from its end on.
        bolts: how many bolts are cut so.
        used: length of one that is cut into, squaring up with it.
        left: length of one that is left.
    """

    strips: tuple[tuple[Pattern, int], ...]
    bolts: int
    used: Fraction
    left: Fraction

    def lays(self, plies: int) -> int:
        """How many stacks of at most so many layers they make."""
        return -(-self.bolts // plies)


def bolt_plans(
    uses: Sequence[tuple[Pattern, int]], step: Fraction, bolt: Fraction, square_up: Fraction
) -> tuple[BoltPlan, ...]:
    """Strips on bolts, the tallest first; bolts are cut alike as long as the strips last.

    Every strip must fit a bolt.
    """
    room = int((bolt - 2 * square_up) // step)
    return tuple(
        BoltPlan(strips=strips, bolts=alike, used=used, left=bolt - used)
        for strips, alike, taken in _plans(uses, room)
        for used in (taken * step + 2 * square_up,)
    )


def _plans(
    uses: Sequence[tuple[Pattern, int]], room: int
) -> Iterator[tuple[tuple[tuple[Pattern, int], ...], int, int]]:
    """Strips of one bolt, how many bolts are cut so, and the steps that the strips take."""
    left = [times for _, times in uses]
    while any(left):
        free, taken = room, [0] * len(uses)
        for k, (pattern, _) in enumerate(uses):
            taken[k] = min(left[k], free // pattern.height)
            free -= taken[k] * pattern.height
        alike = min(left[k] // n for k, n in enumerate(taken) if n)
        left = [times - n * alike for times, n in zip(left, taken, strict=True)]
        strips = tuple((uses[k][0], n) for k, n in enumerate(taken) if n)
        yield strips, alike, room - free


def kept(plans: Sequence[BoltPlan], per: Fraction) -> tuple[tuple[Fraction, int], ...]:
    """Left-overs long enough to keep, with how many of each, the longest first."""
    found = [(plan.left, plan.bolts) for plan in plans if plan.left * KEPT_PARTS >= per]
    return tuple(sorted(found, reverse=True))
