"""Squares of one size in columns and rows: the simplest grid; mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.project.cells import plain_cells


def squares(finished: Fraction, chart: Sequence[Sequence[str]], rules: PatchRules) -> Assembly:
    """Lays squares edge to edge.

    Args:
        finished: finished side of a square, exact mm.
        chart: names of fabrics, the head row first.
        rules: how patches are cut and sewn.
    """
    columns, rows = [finished] * len(chart[0]), [finished] * len(chart)
    return grid(columns, rows, plain_cells(chart), rules)
