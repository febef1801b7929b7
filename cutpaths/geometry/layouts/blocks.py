"""Blocks set in a larger grid, turned or mirrored, with sashing between them; mm.

A block is an assembly inside the top's. A turned block is set by its places; a mirrored one is a
layout of its own, since no patch may be turned over.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import chain

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.cells import (
    Pair,
    boxes_of,
    different_tiles,
    pairs_of,
    shaping_of,
    splits_of,
    tiles_of,
    triangle_pairs,
)
from cutpaths.geometry.layouts.lattice import Box, Lattice, edges_of, unit_of
from cutpaths.geometry.layouts.patches import Key, numbered, pieces
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.layouts.sewing import joins, seams_of
from cutpaths.geometry.outlines import rectangle
from cutpaths.project.blocks import Block, Sashing, SetBlock, sizes_of, with_sashing
from cutpaths.project.cells import Cell, mirrored
from cutpaths.shapes import Motion
from cutpaths.values import Value

_Kind = tuple[str, bool]  # a block's name, and whether it is mirrored


class _Drawn(Value):
    """A block on the lattice: its cells with their boxes, and its width and height."""

    cells: Sequence[Cell]
    boxes: Sequence[Box]
    size: tuple[int, int]


def blocks(
    declared: Mapping[str, Block],
    chart: Sequence[Sequence[SetBlock]],
    sashing: Sashing | None,
    rules: PatchRules,
) -> Assembly:
    """Lays out blocks.

    Args:
        declared: blocks by their names.
        chart: what stands in the rows of the larger grid, the head row first; names that are no
            block's are fabrics.
        sashing: the strips between blocks.
        rules: how patches are cut and sewn.

    Returns:
        The top's assembly; its pieces are numbered in the order of the chart, sashing last.
    """
    lattice = Lattice(_unit(declared, sashing))
    sizes = (with_sashing(each, sashing) for each in sizes_of(chart, declared))
    across, down = (edges_of(each, lattice.unit) for each in sizes)
    sets = _sets(chart, sashing)
    strips = _strips(len(across) - 1, len(down) - 1, sashing)
    plain = [cell for cell, each in sets if each.name not in declared] + strips
    plain_boxes = boxes_of(plain, across, down)
    placed = [(cell, each) for cell, each in sets if each.name in declared]
    placed_boxes = boxes_of([cell for cell, _ in placed], across, down)
    standing: dict[_Kind, list[tuple[Box, int]]] = {}
    for (_, each), box in zip(placed, placed_boxes, strict=True):
        standing.setdefault((each.name, each.mirrored), []).append((box, each.quarters))
    drawn = {kind: _drawn(declared[kind[0]], lattice.unit, mirror=kind[1]) for kind in standing}
    names = _numbered(drawn, plain, plain_boxes, rules)
    own = chain.from_iterable(map(tiles_of, plain, plain_boxes))
    return Assembly(
        outline=rectangle(lattice.mm(across[-1]), lattice.mm(down[-1])),
        parts=(
            *(
                _block(drawn[kind], lattice, found, names, rules)
                for kind, found in standing.items()
            ),
            *pieces(own, lattice, names, shaping_of(lattice.unit), rules),
        ),
        seams=seams_of(joins([*placed_boxes, *plain_boxes]), lattice, rules.pressing),
        pairs=triangle_pairs(_pairs(drawn, standing), lattice.unit),
    )


def _unit(declared: Mapping[str, Block], sashing: Sashing | None) -> Fraction:
    sizes = [size for block in declared.values() for size in (*block.columns, *block.rows)]
    return unit_of(sizes if sashing is None else [*sizes, sashing.width])


def _sets(
    chart: Sequence[Sequence[SetBlock]], sashing: Sashing | None
) -> list[tuple[Cell, SetBlock]]:
    """What stands in the larger grid, each with its cell among the sashing."""
    step = 1 if sashing is None else 2
    first = 1 if sashing is not None and sashing.around else 0
    return [
        (Cell(column=first + step * x, row=first + step * y, fabrics=(each.name,)), each)
        for y, line in enumerate(chart)
        for x, each in enumerate(line)
    ]


def _strips(columns: int, rows: int, sashing: Sashing | None) -> list[Cell]:
    """The cells of the sashing, row by row from the head."""
    if sashing is None:
        return []
    first = 0 if sashing.around else 1
    cells = []
    for row in range(rows):
        if row % 2 != first:
            cells += [_strip(x, row, sashing.fabric) for x in range(first, columns, 2)]
        elif sashing.cornerstone is None:
            cells.append(Cell(column=0, row=row, across=columns, fabrics=(sashing.fabric,)))
        else:
            fabrics = sashing.fabric, sashing.cornerstone
            cells += [_strip(x, row, fabrics[x % 2 == first]) for x in range(columns)]
    return cells


def _strip(column: int, row: int, fabric: str) -> Cell:
    return Cell(column=column, row=row, fabrics=(fabric,))


def _drawn(block: Block, unit: Fraction, *, mirror: bool) -> _Drawn:
    columns = block.columns[::-1] if mirror else block.columns
    cells = mirrored(block.cells, len(columns)) if mirror else block.cells
    across, down = edges_of(columns, unit), edges_of(block.rows, unit)
    return _Drawn(cells, boxes_of(cells, across, down), (across[-1], down[-1]))


def _numbered(
    drawn: Mapping[_Kind, _Drawn],
    plain: Sequence[Cell],
    plain_boxes: Sequence[Box],
    rules: PatchRules,
) -> dict[Key, str]:
    inner = (different_tiles(each.cells, each.boxes) for each in drawn.values())
    return numbered(chain(*inner, different_tiles(plain, plain_boxes)), rules)


def _block(
    block: _Drawn,
    lattice: Lattice,
    standing: Sequence[tuple[Box, int]],
    names: Mapping[Key, str],
    rules: PatchRules,
) -> Assembly:
    """A block's assembly with the places where it stands."""
    tiles = chain.from_iterable(map(tiles_of, block.cells, block.boxes))
    splits = chain.from_iterable(map(splits_of, block.cells, block.boxes))
    width, height = block.size
    return Assembly(
        outline=rectangle(lattice.mm(width), lattice.mm(height)),
        parts=pieces(tiles, lattice, names, shaping_of(lattice.unit), rules),
        seams=seams_of(chain(splits, joins(block.boxes)), lattice, rules.pressing),
        places=tuple(_place(box, quarters, lattice) for box, quarters in standing),
    )


def _place(box: Box, quarters: int, lattice: Lattice) -> Motion:
    """The motion that sets a block, turned by quarters, into a box."""
    left, foot, right, head = (lattice.mm(each) for each in box)
    x = right if quarters in (1, 2) else left
    y = head if quarters in (2, 3) else foot
    return Motion.quarters(quarters, x, y)


def _pairs(
    drawn: Mapping[_Kind, _Drawn], standing: Mapping[_Kind, Sequence[tuple[Box, int]]]
) -> Counter[Pair]:
    total: Counter[Pair] = Counter()
    for kind, block in drawn.items():
        for pair, count in pairs_of(block.cells, block.boxes).items():
            total[pair] += count * len(standing[kind])
    return total
