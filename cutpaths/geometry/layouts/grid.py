"""Columns and rows, each of its own size, with cells of one or more patches; mm.

Sashing and cornerstones are narrow columns and rows. The assembly's frame is the front view with
the origin at the lower left corner of the seam polygon.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import chain

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.cells import (
    boxes_of,
    different_tiles,
    pairs_of,
    shaping_of,
    splits_of,
    tiles_of,
    triangle_pairs,
)
from cutpaths.geometry.layouts.lattice import Lattice, edges_of, unit_of
from cutpaths.geometry.layouts.patches import numbered, pieces
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.layouts.sewing import joins, seams_of
from cutpaths.geometry.outlines import rectangle
from cutpaths.project.cells import Cell


def grid(
    columns: Sequence[Fraction],
    rows: Sequence[Fraction],
    cells: Sequence[Cell],
    rules: PatchRules,
) -> Assembly:
    """Lays out a grid.

    Args:
        columns: finished widths from the left, exact mm.
        rows: finished heights from the head, exact mm.
        cells: cells that fill the grid, row by row from the head.
        rules: how patches are cut and sewn.

    Returns:
        The top's assembly; its pieces are numbered in the order of the cells.
    """
    lattice = Lattice(unit_of((*columns, *rows)))
    across, down = edges_of(columns, lattice.unit), edges_of(rows, lattice.unit)
    boxes = boxes_of(cells, across, down)
    # Tiles and lines are made one by one: a grid has hundreds of thousands of them.
    tiles = (tile for cell, box in zip(cells, boxes, strict=True) for tile in tiles_of(cell, box))
    splits = (line for cell, box in zip(cells, boxes, strict=True) for line in splits_of(cell, box))
    names = numbered(different_tiles(cells, boxes), rules)
    return Assembly(
        outline=rectangle(lattice.mm(across[-1]), lattice.mm(down[-1])),
        parts=pieces(tiles, lattice, names, shaping_of(lattice.unit), rules),
        seams=seams_of(chain(splits, joins(boxes)), lattice, rules.pressing),
        pairs=triangle_pairs(pairs_of(cells, boxes), lattice.unit),
    )
