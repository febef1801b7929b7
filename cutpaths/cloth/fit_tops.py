"""Tops in other numbers of columns and rows: which kinds can be made so, and what they then are.

Fabrics that take turns go on taking turns; a chart is repeated from its head row and left column.
Strips that run down are columns, those that run across are rows. Panels and grids are taken as
they stand: one column and one row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

from cutpaths.errors import Finding, InputError
from cutpaths.project.blocks import Block, SetBlock, sizes_of
from cutpaths.project.model import Panel, Project, Squares, Top
from cutpaths.project.patchwork import Blocks, Bricks, Grid, OnPoint, Run, Strips

Chart = Sequence[Sequence[str]]
Names = tuple[tuple[str, ...], ...]
Pair = tuple[int, int]
Patches = tuple[str, Fraction, Fraction, int]  # fabric, finished width and height, and how many

LEAST = 2  # columns or rows of patches

T = TypeVar("T")


def require_rectangle(project: Project) -> None:
    """Refuses tops that have no width and height to vary.

    Raises:
        InputError: the top is an outline.
    """
    if project.finished_top is None:
        raise InputError(
            Finding(
                key="top.layout",
                problem="must be a rectangle to be fitted to cloth: squares, bricks, on-point, "
                'blocks, strips, grid or panel, got "outline"',
                hint="Fit a panel about as large",
            )
        )


def least_of(top: Top) -> Pair:
    """The fewest columns and rows that are tried."""
    match top:
        case Squares() | Bricks() | OnPoint():
            return LEAST, LEAST
        case Strips(run=run):
            return (LEAST, 1) if run is Run.DOWN else (1, LEAST)
        case _:
            return 1, 1


def grows(top: Top) -> tuple[bool, bool]:
    """Whether there may be more columns, and more rows."""
    match top:
        case Squares() | Bricks() | OnPoint() | Blocks():
            return True, True
        case Strips(run=run):
            return run is Run.DOWN, run is Run.ACROSS
        case _:
            return False, False


def grid_of(top: Top) -> Pair:
    """Columns and rows, as the project file counts them."""
    match top:
        case Squares():
            return top.columns, top.rows
        case OnPoint(chart=chart):
            return len(chart[0]), (len(chart) + 1) // 2
        case Bricks(chart=chart):
            return min(map(len, chart)), len(chart)
        case Blocks(chart=chart):
            return len(chart[0]), len(chart)
        case Strips(widths=widths, run=run):
            return (len(widths), 1) if run is Run.DOWN else (1, len(widths))
        case _:
            return 1, 1


def resized(top: Top, columns: int, rows: int) -> Top | None:
    """The top in other numbers; None where a row or column of blocks would have no block."""
    match top:
        case Squares(finished=finished, chart=chart):
            return Squares(finished=finished, chart=_squares(chart, columns, rows))
        case OnPoint(finished=finished, chart=chart, setting=setting):
            made = _on_point(chart, columns, rows)
            return OnPoint(finished=finished, chart=made, setting=setting)
        case Bricks(width=width, height=height, chart=chart):
            return Bricks(width=width, height=height, chart=_bricks(chart, columns, rows))
        case Blocks(declared=declared, chart=chart, sashing=sashing):
            sets = tuple(
                tuple(chart[r % len(chart)][c % len(chart[0])] for c in range(columns))
                for r in range(rows)
            )
            lines = (*sets, *zip(*sets, strict=True))
            if not all(any(each.name in declared for each in line) for line in lines):
                return None
            return Blocks(declared=declared, chart=sets, sashing=sashing)
        case Strips(widths=widths, fabrics=fabrics, length=length, run=run):
            turn, number = turn_of((fabrics,)) or fabrics, max(columns, rows)
            return Strips(
                widths=_repeated(widths, number),
                fabrics=_repeated(turn, number),
                length=length,
                run=run,
            )
        case _:
            return top if (columns, rows) == (1, 1) else None


def turn_of(chart: Chart) -> tuple[str, ...] | None:
    """The fabrics that take turns, each row starting one further; None where they do not."""
    first = chart[0]
    for size in range(1, len(first) + 1):
        if all(tuple(row) == _turned(first[:size], r, len(row)) for r, row in enumerate(chart)):
            return tuple(first[:size])
    return None


def row_turn_of(chart: Chart) -> tuple[str, ...] | None:
    """The fabrics that take turns row by row; None where they do not."""
    first = [row[0] for row in chart]
    for size in range(1, len(chart) + 1):
        if all(name == first[r % size] for r, row in enumerate(chart) for name in row):
            return tuple(first[:size])
    return None


def _turned(turn: Sequence[str], row: int, columns: int) -> tuple[str, ...]:
    return tuple(turn[(row + c) % len(turn)] for c in range(columns))


def _repeated(row: Sequence[T], columns: int) -> tuple[T, ...]:
    return tuple(row[c % len(row)] for c in range(columns))


def _squares(chart: Chart, columns: int, rows: int) -> Names:
    if turn := turn_of(chart):
        return tuple(_turned(turn, r, columns) for r in range(rows))
    return tuple(_repeated(chart[r % len(chart)], columns) for r in range(rows))


def _bricks(chart: Chart, columns: int, rows: int) -> Names:
    if turn := turn_of(chart):
        return tuple(_turned(turn, r, columns + r % 2) for r in range(rows))
    kinds = chart[::2], chart[1::2] or chart[::2]
    return tuple(
        _repeated(kinds[r % 2][r // 2 % len(kinds[r % 2])], columns + r % 2) for r in range(rows)
    )


def _on_point(chart: Chart, columns: int, rows: int) -> Names:
    count = 2 * rows - 1
    if turn := row_turn_of(chart):
        return tuple((turn[r % len(turn)],) * (columns - r % 2) for r in range(count))
    kinds = chart[::2], chart[1::2] or chart[::2]
    return tuple(
        _repeated(kinds[r % 2][r // 2 % len(kinds[r % 2])], columns - r % 2) for r in range(count)
    )


def patches_of(top: Top) -> Iterator[Patches]:
    """Patches of rows of one size, for a quick look at whether there is cloth for them."""
    match top:
        case Squares(finished=side, chart=chart) | OnPoint(finished=side, chart=chart):
            for name, count in _counted(name for row in chart for name in row):
                yield name, side, side, count
        case Bricks(width=width, height=height, chart=chart):
            shifted = [row for r, row in enumerate(chart) if r % 2]
            whole = [*chart[::2], *(row[1:-1] for row in shifted)]
            for name, count in _counted(name for row in whole for name in row):
                yield name, width, height, count
            for name, count in _counted(row[end] for row in shifted for end in (0, -1)):
                yield name, width / 2, height, count
        case Strips(widths=widths, fabrics=fabrics, length=length):
            for name, wide in zip(fabrics, widths, strict=True):
                yield name, wide, length, 1


def areas_of(top: Top) -> Iterator[tuple[str, Fraction]]:
    """Fabrics and what their patches show, for a look at whether there is cloth; of blocks."""
    if isinstance(top, Blocks):
        across, down = sizes_of(top.chart, top.declared)
        for row, high in zip(top.chart, down, strict=True):
            for each, wide in zip(row, across, strict=True):
                if each.name in top.declared:
                    yield from _shown(top.declared[each.name])
                else:
                    yield each.name, wide * high


def _shown(block: Block) -> Iterator[tuple[str, Fraction]]:
    for cell in block.cells:
        wide = sum(block.columns[cell.column : cell.column + cell.across], Fraction(0))
        high = sum(block.rows[cell.row : cell.row + cell.down], Fraction(0))
        for name in cell.fabrics:
            yield name, wide * high / len(cell.fabrics)


def _counted(names: Iterator[str]) -> Iterator[tuple[str, int]]:
    found: dict[str, int] = {}
    for name in names:
        found[name] = found.get(name, 0) + 1
    yield from found.items()


_SIGNS = {0: "", 1: "<", 2: ">>", 3: ">"}


def top_table(top: Top, table: dict[str, object]) -> dict[str, object]:
    """The keys of [top] for a top that was made larger or smaller, from those that it had."""
    columns, rows = grid_of(top)
    kept = {key: value for key, value in table.items() if key not in _COUNTED}
    match top:
        case Squares(chart=chart) | Bricks(chart=chart):
            return kept | _charted(chart, turn_of(chart), columns, rows)
        case OnPoint(chart=chart):
            return kept | _charted(chart, row_turn_of(chart), columns, rows)
        case Blocks(chart=chart):
            return kept | {"chart": [" ".join(map(_set_words, row)) for row in chart]}
        case Strips(fabrics=fabrics):
            written = table["widths"]
            widths = list(written) if isinstance(written, list) else []
            return kept | {
                "widths": list(_repeated(widths, len(fabrics))),
                "fabrics": list(fabrics),
            }
        case Panel() | Grid():
            return table
    return table


_COUNTED = ("columns", "rows", "fabrics", "chart")


def _charted(
    chart: Chart, turn: Sequence[str] | None, columns: int, rows: int
) -> dict[str, object]:
    if turn is None:
        return {"chart": [" ".join(row) for row in chart]}
    return {"columns": columns, "rows": rows, "fabrics": list(turn)}


def _set_words(each: SetBlock) -> str:
    return f"{each.name}{'~' if each.mirrored else ''}{_SIGNS[each.quarters]}"
