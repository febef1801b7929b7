"""The prints of a top and the rules for laying them out, as checked, frozen values.

Cells count row by row from the head, from 0, seen from the front; a cell's name counts its row
from the head and its column from the left, both from 1.
"""

from __future__ import annotations

import re
from functools import cached_property

from cutpaths.values import Value

_CELL_NAME = r"r([1-9][0-9]{0,5})c([1-9][0-9]{0,5})"


class Print(Value):
    """A fabric and how many squares of it there are."""

    name: str
    count: int


class Group(Value):
    """Prints whose squares are spread evenly over the rows, such as the light ones."""

    name: str
    prints: tuple[str, ...]


class Pin(Value):
    """A cell that has its print already."""

    row: int
    column: int
    fabric: str


class ArrangeRules(Value, kw_only=True, dict=True):  # room for what is worked out once
    """What a layout of the prints of one top must keep.

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
        """The print of each pinned cell, by its place among the prints."""
        return {
            pin.row * self.columns + pin.column: self.names.index(pin.fabric) for pin in self.pinned
        }

    @cached_property
    def group_of(self) -> tuple[int, ...]:
        """The group that each print belongs to; -1 for none."""
        group = {name: place for place, each in enumerate(self.balance) for name in each.prints}
        return tuple(group.get(name, -1) for name in self.names)

    def row_of(self, cell: int) -> int:
        """The row of a cell, from 0."""
        return cell // self.columns


def cell_name(row: int, column: int) -> str:
    """The name of a cell by its row and column, which count from 0 here.

    >>> cell_name(0, 11)
    'r1c12'
    """
    return f"r{row + 1}c{column + 1}"


def read_cell_name(name: str) -> tuple[int, int] | None:
    """Row and column, from 0, of a cell by its name; None where it is none.

    >>> read_cell_name("r1c12"), read_cell_name("r01c1"), read_cell_name("r0c1")
    ((0, 11), None, None)
    """
    found = re.fullmatch(_CELL_NAME, name)
    return (int(found[1]) - 1, int(found[2]) - 1) if found else None
