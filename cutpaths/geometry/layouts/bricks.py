"""Bricks: every second row is shifted by half a brick, with half bricks at its ends; mm.

A half brick finishes at half the brick, so it is cut half and both its allowances wide.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.project.cells import Cell


def bricks(
    width: Fraction, height: Fraction, chart: Sequence[Sequence[str]], rules: PatchRules
) -> Assembly:
    """Lays bricks in rows.

    Args:
        width: finished width of a brick, exact mm.
        height: its finished height.
        chart: names of fabrics, the head row first; rows of whole bricks and shifted rows, which
            have one name more, take turns.
        rules: how patches are cut and sewn.
    """
    halves = 2 * min(len(names) for names in chart[:2]) if len(chart) > 1 else 2 * len(chart[0])
    cells = [cell for row, names in enumerate(chart) for cell in _row(row, names, halves)]
    return grid([width / 2] * halves, [height] * len(chart), cells, rules)


def _row(row: int, names: Sequence[str], halves: int) -> Iterator[Cell]:
    """The bricks of one row on columns of half a brick."""
    column = 0
    for name in names:
        at_end = column == 0 or column == halves - 1
        across = 1 if 2 * len(names) > halves and at_end else 2
        yield Cell(column=column, row=row, across=across, fabrics=(name,))
        column += across
