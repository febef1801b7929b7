"""Which cells must differ, and what an even share is: the rules of a layout in numbers.

A layout is one number a cell, the place of its print among the prints of the rules.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.project.prints import ArrangeRules, Group, Pin, Print, cell_name

__all__ = ["ArrangeRules", "Group", "Layout", "Pin", "Print", "cell_name"]

Layout = tuple[int, ...]

BESIDE = ((0, 1), (1, 0))  # rows and columns to the neighbours at the right and below
AT_CORNERS = ((1, 1), (1, -1))


def steps(rules: ArrangeRules) -> tuple[tuple[int, int], ...]:
    """Rows and columns from a cell to the later ones that it must differ from."""
    return BESIDE + AT_CORNERS if rules.corners else BESIDE


def meetings(rules: ArrangeRules) -> Iterator[tuple[int, int]]:
    """Every two cells that must differ, the earlier one first."""
    ways = steps(rules)
    for cell in range(rules.cells):
        row, column = divmod(cell, rules.columns)
        for down, across in ways:
            if row + down < rules.rows and 0 <= column + across < rules.columns:
                yield cell, (row + down) * rules.columns + column + across


def neighbours(rules: ArrangeRules) -> tuple[tuple[int, ...], ...]:
    """For each cell the cells that it must differ from."""
    found: list[list[int]] = [[] for _ in range(rules.cells)]
    for first, second in meetings(rules):
        found[first].append(second)
        found[second].append(first)
    return tuple(map(tuple, found))


def share_of_rows(count: int, rows: int) -> tuple[int, int]:
    """Fewest and most squares a row may have when a count is spread evenly over rows.

    >>> share_of_rows(75, 12), share_of_rows(72, 12)
    ((6, 7), (6, 6))
    """
    return count // rows, -(-count // rows)
