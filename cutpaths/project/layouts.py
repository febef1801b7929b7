"""From the tables of a project file without flaws to the layout of a pieced top."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.project.blocks import Block, Sashing, read_sets
from cutpaths.project.cells import read_cells
from cutpaths.project.fabrics import top_fabrics
from cutpaths.project.layout_shape import (
    BlocksTable,
    BricksTable,
    Cells,
    GridTable,
    OnPointTable,
    SashingTable,
    StripsTable,
)
from cutpaths.project.patch_rules import finished_side
from cutpaths.project.patchwork import Blocks, Bricks, Grid, OnPoint, Patchwork, Strips
from cutpaths.project.seams import Seams
from cutpaths.project.shape import FileTable

Chart = tuple[tuple[str, ...], ...]


def layout_of(file: FileTable, seams: Seams) -> Patchwork:
    """The layout of a [top] table of patches other than squares."""
    match file.top:
        case GridTable() as table:
            block = block_of(table, seams)
            return Grid(columns=block.columns, rows=block.rows, cells=block.cells)
        case BlocksTable(chart=chart, sashing=sashing):
            declared = {name: block_of(table, seams) for name, table in file.block.items()}
            return Blocks(declared=declared, chart=read_sets(chart), sashing=_sashing(sashing))
        case OnPointTable() as table:
            return OnPoint(
                finished=finished_side(table.patch, seams),
                chart=on_point_chart(table, top_fabrics(file)),
                setting=table.setting,
            )
        case StripsTable() as table:
            return _strips(table, top_fabrics(file), seams)
        case BricksTable() as table:
            width, height = finished_brick(table, seams)
            rows = bricks_chart(table, top_fabrics(file))
            return Bricks(width=width, height=height, chart=rows)
        case _:
            raise TypeError("other tops are made by their own rules")


def block_of(table: Cells, seams: Seams) -> Block:
    """The columns, rows and cells of a grid, or of a block."""
    return Block(
        columns=finished_sizes(table.widths, len(table.chart[0].split()), table.size, seams),
        rows=finished_sizes(table.heights, len(table.chart), table.size, seams),
        cells=read_cells(table.chart),
    )


def finished_sizes(
    sizes: Sequence[Fraction], count: int, meant: str, seams: Seams
) -> tuple[Fraction, ...]:
    """Finished sizes of some columns or rows; one that is given stands for all."""
    allowances = 2 * seams.allowance if meant == "cut" else Fraction(0)
    given = tuple(size - allowances for size in sizes)
    return given * count if len(given) == 1 else given


def _sashing(table: SashingTable | None) -> Sashing | None:
    if table is None:
        return None
    return Sashing(
        width=table.width,
        fabric=table.fabric,
        cornerstone=table.cornerstone,
        around=table.around,
    )


def on_point_chart(table: OnPointTable, fabrics: Sequence[str]) -> Chart:
    """Rows as written, or fabrics that take turns row by row."""
    if table.chart is not None:
        return _rows(table.chart)
    columns, rows = table.columns or 0, 2 * (table.rows or 0) - 1
    return tuple((fabrics[row % len(fabrics)],) * (columns - row % 2) for row in range(rows))


def bricks_chart(table: BricksTable, fabrics: Sequence[str]) -> Chart:
    """Rows as written, or fabrics that take turns, each row starting one further."""
    if table.chart is not None:
        return _rows(table.chart)
    columns, count = table.columns or 0, len(fabrics)
    return tuple(
        tuple(fabrics[(row + i) % count] for i in range(columns + row % 2))
        for row in range(table.rows or 0)
    )


def _rows(chart: Sequence[str]) -> Chart:
    return tuple(tuple(row.split()) for row in chart)


def finished_brick(table: BricksTable, seams: Seams) -> tuple[Fraction, Fraction]:
    """Finished width and height of a brick; 0 where none is given."""
    if table.finished is not None:
        return table.finished.width, table.finished.height
    if table.cut is None:
        return Fraction(0), Fraction(0)
    both = 2 * seams.allowance
    return table.cut.width - both, table.cut.height - both


def _strips(table: StripsTable, fabrics: Sequence[str], seams: Seams) -> Strips:
    count = len(table.widths)
    return Strips(
        widths=finished_sizes(table.widths, count, table.size, seams),
        fabrics=tuple(fabrics[i % len(fabrics)] for i in range(count)),
        length=finished_sizes([table.length], 1, table.size, seams)[0],
        run=table.run,
    )
