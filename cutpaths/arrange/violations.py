"""What a layout does not keep, cell by cell, and how far apart it holds prints alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from cutpaths.arrange.rules import ArrangeRules, Layout, cell_name, meetings, share_of_rows
from cutpaths.values import Value


class Touch(Value):
    """Two cells alike that must differ; `beside` when they share a side, else a corner."""

    first: str
    second: str
    fabric: str
    beside: bool

    def __str__(self) -> str:
        way = "side by side" if self.beside else "corner to corner"
        return f"{self.first} and {self.second} are both {self.fabric}, {way}"


class Uneven(Value):
    """A row, counted from 1, with more or fewer squares of a group than its even share."""

    row: int
    group: str
    count: int
    least: int
    most: int

    def __str__(self) -> str:
        share = str(self.least) if self.least == self.most else f"{self.least} or {self.most}"
        return f"row {self.row} has {self.count} {self.group} squares, its even share is {share}"

    @property
    def squares(self) -> int:
        """How many squares too many or too few."""
        return max(self.least - self.count, self.count - self.most)


Violation = Touch | Uneven


def violations(rules: ArrangeRules, layout: Layout) -> tuple[Violation, ...]:
    """Everything that a layout does not keep: cells alike that meet, then uneven rows."""
    return (*_touches(rules, layout), *_uneven_rows(rules, layout))


def _touches(rules: ArrangeRules, layout: Layout) -> Iterator[Touch]:
    for first, second in meetings(rules):
        if layout[first] == layout[second]:
            here, there = divmod(first, rules.columns), divmod(second, rules.columns)
            beside = here[0] == there[0] or here[1] == there[1]
            fabric = rules.names[layout[first]]
            yield Touch(cell_name(*here), cell_name(*there), fabric, beside)


def _uneven_rows(rules: ArrangeRules, layout: Layout) -> Iterator[Uneven]:
    for place, group in enumerate(rules.balance):
        inside = [rules.group_of[each] == place for each in layout]
        least, most = share_of_rows(sum(inside), rules.rows)
        for row in range(rules.rows):
            count = sum(inside[row * rules.columns : (row + 1) * rules.columns])
            if not least <= count <= most:
                yield Uneven(row + 1, group.name, count, least, most)


def used_counts(rules: ArrangeRules, layout: Layout) -> tuple[int, ...]:
    """How many squares of each print a layout uses."""
    counted = Counter(layout)
    return tuple(counted[place] for place in range(len(rules.prints)))


def nearest_alike(rules: ArrangeRules, layout: Layout) -> tuple[int | None, ...]:
    """For each print the squared distance of its two nearest cells; None where it has one at most.

    >>> from cutpaths.arrange.rules import Print
    >>> rules = ArrangeRules(columns=3, rows=1, prints=(Print("rose", 2), Print("fern", 1)))
    >>> nearest_alike(rules, (0, 1, 0))
    (4, None)
    """
    places: list[list[tuple[int, int]]] = [[] for _ in rules.prints]
    for cell, each in enumerate(layout):
        places[each].append(divmod(cell, rules.columns))
    return tuple(
        min(
            ((a - c) ** 2 + (b - d) ** 2 for (a, b), (c, d) in combinations(found, 2)), default=None
        )
        for found in places
    )
