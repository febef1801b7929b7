r"""The chart of a grid: rows of cells as text, read into cells.

Rows are seen from the front, the head row first; cells stand apart by spaces. A cell is one of

    sand          one fabric
    sand/sea      split by the diagonal that rises to the right: sand at the left, sea right of it
    sand\sea      split by the diagonal that falls to the right: sand at the left, sea right of it
    sand+sea      split by both diagonals: sand at head and foot, sea at the right and the left
    a+b+c+d       split by both diagonals: a at the head, then clockwise: right, foot, left
    <             joined to the cell at its left
    ^             joined to the cell above it, toward the head

Joined cells form one rectangle, which may be split like any cell:

    'sand     <       sea'          a rectangle of two by two cells in sand,
    '^        <       sea/sand'     beside it a square and a pair of triangles

In a TOML file the rows stand in single quotes, where a backslash is a backslash.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from enum import StrEnum

from cutpaths.lengths import shown
from cutpaths.values import Value

LEFT, ABOVE = "<", "^"

_NAME = r"[a-z][a-z0-9_-]{0,39}"
_CELL = rf"{_NAME}(?:[/\\]{_NAME}|\+{_NAME}|(?:\+{_NAME}){{3}})?"
_BREAKS = r"[/\\+]"
_EXAMPLES = r"`sand`, `sand/sea`, `sand\sea`, `sand+sea`, `a+b+c+d`, `<` or `^`"


class Split(StrEnum):
    """How a cell is divided, by the sign that says so."""

    NONE = ""
    RISING = "/"
    FALLING = "\\"
    BOTH = "+"


class Cell(Value, kw_only=True):
    """A cell of a grid, or several joined to one.

    Attributes:
        column, row: its first column from the left and its first row from the head, from 0.
        across, down: how many columns and rows it takes.
        split: how it is divided.
        fabrics: one; two, the left one first; or four, clockwise from the head.
    """

    column: int
    row: int
    across: int = 1
    down: int = 1
    split: Split = Split.NONE
    fabrics: tuple[str, ...]


class Fault(Value):
    """Something wrong with a row of a chart, counted from 0."""

    row: int
    problem: str
    hint: str = ""


def plain_cells(chart: Sequence[Sequence[str]]) -> tuple[Cell, ...]:
    """Cells of one fabric each, from rows of fabric names."""
    return tuple(
        Cell(column=column, row=row, fabrics=(name,))
        for row, names in enumerate(chart)
        for column, name in enumerate(names)
    )


def read_cells(chart: Sequence[str]) -> tuple[Cell, ...]:
    """The cells of a chart without faults, row by row from the head."""
    rows = [line.split() for line in chart]
    members = _members(rows)
    return tuple(
        _cell(rows[row][column], row, column, *members.get((row, column), ((row, column),))[-1])
        for row, column in _first_cells(rows)
    )


def names_of(text: str) -> tuple[str, ...]:
    """The fabrics that one cell names, as written; none for a joined or an unreadable one."""
    return tuple(re.split(_BREAKS, text)) if re.fullmatch(_CELL, text) else ()


def chart_faults(chart: Sequence[str]) -> Iterator[Fault]:
    """What keeps a chart from being read; only the first kind of fault is told."""
    rows = [line.split() for line in chart]
    for found in (row_faults(rows), _cell_faults(rows), _joining_faults(rows)):
        listed = list(found)
        yield from listed
        if listed:
            return


def row_faults(rows: Sequence[Sequence[str]]) -> Iterator[Fault]:
    """Rows that are empty, or not as long as the first."""
    for count, row in enumerate(rows):
        if not row:
            yield Fault(count, "must have cells, is empty", "Write a fabric for each cell")
        elif rows[0] and len(row) != len(rows[0]):
            rule = f"must have {_cells(len(rows[0]))} like row 1, has {len(row)}"
            yield Fault(count, rule, f"Write one fabric, `{LEFT}` or `{ABOVE}` for each cell")


def _cells(count: int) -> str:
    return f"{count} cell" if count == 1 else f"{count} cells"


def _cell_faults(rows: Sequence[Sequence[str]]) -> Iterator[Fault]:
    known = {LEFT, ABOVE}
    for count, row in enumerate(rows):
        for column, text in enumerate(row):
            if text in known:
                continue
            if not re.fullmatch(_CELL, text):
                rule = f"cell {column + 1} must be {_EXAMPLES}, got {shown(text)}"
                yield Fault(count, rule, _hint(text))
            else:
                known.add(text)


def _hint(text: str) -> str:
    if any(ord(letter) < ord(" ") for letter in text):
        return "Put the row into single quotes, where a backslash is a backslash"
    if text.count(Split.BOTH) == 2:
        return "A cell split both ways takes two fabrics or four"
    return ""


def _joining_faults(rows: Sequence[Sequence[str]]) -> Iterator[Fault]:
    for column, text in enumerate(rows[0]):
        if text == ABOVE:
            yield Fault(0, f"cell {column + 1} has no cell above it to join")
    for count, row in enumerate(rows):
        if row[0] == LEFT:
            yield Fault(count, "cell 1 has no cell at its left to join")
    if any(text == ABOVE for text in rows[0]) or any(row[0] == LEFT for row in rows):
        return
    for cell, members in _members(rows).items():
        if not _rectangular(members):
            named = f"the cells joined to cell {cell[1] + 1}, {rows[cell[0]][cell[1]]},"
            yield Fault(cell[0], f"{named} must form a rectangle", "Join whole rows of cells")


def _rectangular(members: Sequence[tuple[int, int]]) -> bool:
    """Whether places, row by row, fill the rectangle from the first to the last."""
    (row, column), (last_row, last_column) = members[0], members[-1]
    area = (last_row - row + 1) * (last_column - column + 1)
    return len(members) == area and all(column <= x <= last_column for _, x in members)


def _first_cells(rows: Sequence[Sequence[str]]) -> Iterator[tuple[int, int]]:
    for count, row in enumerate(rows):
        for column, text in enumerate(row):
            if text not in (LEFT, ABOVE):
                yield count, column


def _members(rows: Sequence[Sequence[str]]) -> dict[tuple[int, int], list[tuple[int, int]]]:
    """For each cell that others are joined to, itself and those others, row by row."""
    first: dict[tuple[int, int], tuple[int, int]] = {}
    for count, row in enumerate(rows):
        for column, text in enumerate(row):
            if text == LEFT:
                beside = count, column - 1
            elif text == ABOVE:
                beside = count - 1, column
            else:
                continue
            first[count, column] = first.get(beside, beside)
    members: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for place, cell in first.items():
        members.setdefault(cell, [cell]).append(place)
    return members


def _cell(text: str, row: int, column: int, last_row: int, last_column: int) -> Cell:
    """One cell that reaches to a last row and column."""
    sign = next((letter for letter in text if letter in "/\\+"), "")
    names = tuple(re.split(_BREAKS, text)) if sign else (text,)
    return Cell(
        column=column,
        row=row,
        across=last_column - column + 1,
        down=last_row - row + 1,
        split=Split(sign),
        fabrics=names * 2 if sign == Split.BOTH and len(names) == 2 else names,
    )


def mirrored(cells: Sequence[Cell], columns: int) -> tuple[Cell, ...]:
    """Cells of a grid seen in a mirror, left for right, row by row from the head."""
    turned = (_mirrored(cell, columns) for cell in cells)
    return tuple(sorted(turned, key=lambda cell: (cell.row, cell.column)))


_MIRRORED = {Split.RISING: Split.FALLING, Split.FALLING: Split.RISING}


def _mirrored(cell: Cell, columns: int) -> Cell:
    fabrics = cell.fabrics[::-1]
    if cell.split is Split.BOTH:
        head, right, foot, left = cell.fabrics
        fabrics = head, left, foot, right
    return Cell(
        column=columns - cell.column - cell.across,
        row=cell.row,
        across=cell.across,
        down=cell.down,
        split=_MIRRORED.get(cell.split, cell.split),
        fabrics=fabrics,
    )
