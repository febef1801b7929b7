"""Strips side by side or one below the other, each of its own width; mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.project.cells import Cell
from cutpaths.project.patchwork import Run


def strips(
    widths: Sequence[Fraction],
    fabrics: Sequence[str],
    length: Fraction,
    run: Run,
    rules: PatchRules,
) -> Assembly:
    """Lays strips edge to edge.

    Args:
        widths: finished widths, exact mm, from the left or from the head.
        fabrics: a fabric for each strip.
        length: finished length of all strips, exact mm.
        run: which way the strips run.
        rules: how patches are cut and sewn.
    """
    if run is Run.DOWN:
        cells = [Cell(column=count, row=0, fabrics=(name,)) for count, name in enumerate(fabrics)]
        return grid(widths, [length], cells, rules)
    cells = [Cell(column=0, row=count, fabrics=(name,)) for count, name in enumerate(fabrics)]
    return grid([length], widths, cells, rules)
