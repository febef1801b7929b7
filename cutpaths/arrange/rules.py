"""What a layout of prints must keep: the prints and their counts, neighbours, balance and pins.

Cells count row by row from the head, from 0; a cell's name counts rows and columns from 1.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

Layout = tuple[int, ...]

BESIDE = ((0, 1), (1, 0))  # rows and columns to the neighbours at the right and below
AT_CORNERS = ((1, 1), (1, -1))


@dataclass(frozen=True, slots=True)
class Print:
    """A fabric and how many squares of it there are."""

    name: str
    count: int


@dataclass(frozen=True, slots=True)
class Group:
    """Prints whose squares are spread evenly over the rows, such as the light ones."""

    name: str
    prints: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pin:
    """A cell that has its print already."""

    row: int
    column: int
    fabric: str


@dataclass(frozen=True, kw_only=True)  # no slots: they leave no room for what is worked out once
class ArrangeRules:
    """The rules of one top.

    Attributes:
        columns, rows: cells across and down.
        prints: in the order of the file; together they fill the cells at least.
        corners: whether prints alike must not meet corner to corner either.
        apart: whether prints alike are wished as far apart as can be.
        balance: groups of prints, none in two of them.
        pinned: cells that keep their print, in the order of the file.
    """

    columns: int
    rows: int
    prints: tuple[Print, ...]
    corners: bool = False
    apart: bool = True
    balance: tuple[Group, ...] = ()
    pinned: tuple[Pin, ...] = ()

    @property
    def cells(self) -> int:
        """How many cells there are to fill."""
        return self.columns * self.rows

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Names of the prints."""
        return tuple(each.name for each in self.prints)

    @cached_property
    def fixed(self) -> dict[int, int]:
        """The print of each pinned cell."""
        return {
            pin.row * self.columns + pin.column: self.names.index(pin.fabric) for pin in self.pinned
        }

    @cached_property
    def group_of(self) -> tuple[int, ...]:
        """The group that each print belongs to; -1 for none."""
        group = {name: place for place, each in enumerate(self.balance) for name in each.prints}
        return tuple(group.get(name, -1) for name in self.names)

    @property
    def steps(self) -> tuple[tuple[int, int], ...]:
        """Rows and columns from a cell to the later ones that it must differ from."""
        return BESIDE + AT_CORNERS if self.corners else BESIDE

    def row_of(self, cell: int) -> int:
        """The row of a cell, from 0."""
        return cell // self.columns

    def meetings(self) -> Iterator[tuple[int, int]]:
        """Every two cells that must differ, the earlier one first."""
        for cell in range(self.cells):
            row, column = divmod(cell, self.columns)
            for down, across in self.steps:
                if row + down < self.rows and 0 <= column + across < self.columns:
                    yield cell, (row + down) * self.columns + column + across

    def neighbours(self) -> tuple[tuple[int, ...], ...]:
        """For each cell the cells that it must differ from."""
        found: list[list[int]] = [[] for _ in range(self.cells)]
        for first, second in self.meetings():
            found[first].append(second)
            found[second].append(first)
        return tuple(map(tuple, found))


def cell_name(row: int, column: int) -> str:
    """The name of a cell, counted from 1: its row from the head, its column from the left.

    >>> cell_name(0, 11)
    'r1c12'
    """
    return f"r{row + 1}c{column + 1}"


def share_of_rows(count: int, rows: int) -> tuple[int, int]:
    """Fewest and most squares a row may have when a count is spread evenly over rows.

    >>> share_of_rows(75, 12), share_of_rows(72, 12)
    ((6, 7), (6, 6))
    """
    return count // rows, -(-count // rows)
