"""How many squares of each print are used where there are more than cells."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from heapq import heapify, heappop, heappush

from cutpaths.arrange.bounds import most_cells
from cutpaths.arrange.rules import ArrangeRules


def planned_counts(rules: ArrangeRules) -> tuple[int, ...]:
    """Squares of each print to use: what is left over is even, as a share of each print.

    No print gets more than the rules let it have, as long as the others can fill in.

    >>> from cutpaths.arrange.rules import Print
    >>> prints = (Print("rose", 12), Print("fern", 12), Print("sand", 6))
    >>> planned_counts(ArrangeRules(columns=5, rows=4, prints=prints))
    (8, 8, 4)
    """
    pinned = Counter(rules.fixed.values())
    counts = [each.count for each in rules.prints]
    spare = sum(counts) - rules.cells
    for place, count in enumerate(counts):
        given_up = min(spare, max(0, count - most_cells(rules, place)))
        counts[place] -= given_up
        spare -= given_up
    fullest = [(_left_over(rules, counts, place), place) for place in range(len(counts))]
    heapify(fullest)
    while spare:
        _, place = heappop(fullest)
        if counts[place] > pinned[place]:
            counts[place] -= 1
            spare -= 1
            heappush(fullest, (_left_over(rules, counts, place), place))
    return tuple(counts)


def _left_over(rules: ArrangeRules, counts: list[int], place: int) -> Fraction:
    """How much of a print is left over."""
    return 1 - Fraction(counts[place], rules.prints[place].count)
