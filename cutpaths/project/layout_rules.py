"""Rules of [top] for patchwork of more than squares, one function a layout; [block], [patches]."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.project.blocks import read_sets, set_faults
from cutpaths.project.cells import Fault, chart_faults, names_of
from cutpaths.project.chart_rules import counted_flaws, rows_of, shortest
from cutpaths.project.fill import LONGEST
from cutpaths.project.flaws import Flaw
from cutpaths.project.kinds import PATCHES_MOST
from cutpaths.project.layout_shape import (
    BlocksTable,
    BricksTable,
    Cells,
    GridTable,
    OnPointTable,
    StripsTable,
)
from cutpaths.project.layouts import block_of, finished_brick, finished_sizes, layout_of
from cutpaths.project.patch_rules import patch_flaws, seam_too_wide, top_too_long
from cutpaths.project.patchwork import finished_size
from cutpaths.project.seams import Seams
from cutpaths.project.shape import FileTable, OutlineTable, PanelTable
from cutpaths.project.sizes import raw_top
from cutpaths.source import KeyPath

TOP: KeyPath = ("top",)
_LEAVE = "Leave it out"


def layout_flaws(file: FileTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of a layout of patches other than squares; its size is judged last."""
    flaws = list(_layout_flaws(file, seams))
    yield from flaws
    if not flaws:
        size = max(finished_size(layout_of(file, seams)))
        if size > LONGEST:
            yield top_too_long(size, seams)


def _layout_flaws(file: FileTable, seams: Seams) -> Iterator[Flaw]:
    match file.top:
        case GridTable() as table:
            yield from cells_flaws(TOP, table, seams)
        case BlocksTable() as table:
            yield from blocks_flaws(file, table, seams)
        case OnPointTable() as table:
            yield from on_point_flaws(table, seams)
        case StripsTable() as table:
            yield from strips_flaws(table, seams)
        case BricksTable() as table:
            yield from bricks_flaws(table, seams)


def stray_flaws(file: FileTable) -> Iterator[Flaw]:
    """Tables that the layout of the top has no use for."""
    if file.block and not isinstance(file.top, BlocksTable):
        problem = 'has a place only beside `layout = "blocks"`'
        yield Flaw(("block",), problem, _LEAVE)
    if file.patches is not None and isinstance(file.top, PanelTable | OutlineTable):
        problem = "has a place only beside a top of patches"
        yield Flaw(("patches",), problem, _LEAVE)


def cells_flaws(path: KeyPath, table: Cells, seams: Seams) -> Iterator[Flaw]:
    """Rules of a grid, or of a block: its chart, then its sizes."""
    if not table.chart:
        yield Flaw((*path, "chart"), "must have at least one row of cells")
        return
    flaws = list(_told((*path, "chart"), chart_faults(table.chart)))
    yield from flaws
    if flaws:
        return
    columns, rows = len(table.chart[0].split()), len(table.chart)
    yield from _sizes_flaws((*path, "widths"), table.widths, columns, table.size, seams)
    yield from _sizes_flaws((*path, "heights"), table.heights, rows, table.size, seams)
    yield from _count_flaws(_patches(table))


def _told(path: KeyPath, faults: Iterator[Fault]) -> Iterator[Flaw]:
    """Faults of a chart, with their rows."""
    for fault in faults:
        yield Flaw((*path, fault.row), fault.problem, fault.hint)


def _patches(table: Cells) -> int:
    """How many patches a chart has; a split cell has two or four."""
    texts = [text for row in table.chart for text in row.split()]
    return sum(4 if "+" in text else len(names_of(text)) for text in texts)


def _count_flaws(patches: int) -> Iterator[Flaw]:
    if patches > PATCHES_MOST:
        problem = f"must not have over {PATCHES_MOST:,} patches, has {patches:,}"
        yield Flaw(TOP, problem, "Use fewer columns or rows")


def _sizes_flaws(
    path: KeyPath, sizes: Sequence[Fraction], count: int, meant: str, seams: Seams
) -> Iterator[Flaw]:
    """Sizes of columns, rows or strips: one for each, or one for all, and none too narrow."""
    if len(sizes) not in (1, count):
        line = "column" if path[-1] == "widths" else "row"
        lines = f"each of the {count} {line}s" if count > 1 else f"the only {line}"
        hint = "Give a size for each, or one that is the size of all"
        yield Flaw(path, f"must have one size for {lines}, has {len(sizes)}", hint)
        return
    for place, finished in enumerate(finished_sizes(sizes, len(sizes), meant, seams)):
        if finished < seams.allowance:
            yield _too_narrow((*path, place), sizes[place], meant, seams)


def _too_narrow(path: KeyPath, size: Fraction, meant: str, seams: Seams) -> Flaw:
    """A patch must show at least as much as a seam takes, or its seams lie over each other."""
    if meant == "cut":
        least, rule = 3 * seams.allowance, "three seam allowances"
    else:
        least, rule = seams.allowance, "the seam allowance"
    problem = f"must be at least {rule}, {seams.text(least)}, got {seams.text(size)}"
    return Flaw(path, problem, "Make it wider or the seam allowance smaller")


def blocks_flaws(file: FileTable, top: BlocksTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of blocks and of the chart that sets them; the chart only where blocks are sound."""
    flaws = list(_declared_flaws(file, seams))
    if top.sashing is not None and top.sashing.width < seams.allowance:
        path = (*TOP, "sashing", "width")
        flaws.append(_too_narrow(path, top.sashing.width, "finished", seams))
    if not top.chart:
        flaws.append(Flaw((*TOP, "chart"), "must have at least one row of blocks"))
    yield from flaws
    if flaws:
        return
    blocks = {name: block_of(table, seams) for name, table in file.block.items()}
    flaws = list(_told((*TOP, "chart"), set_faults(top.chart, blocks, file.fabric)))
    yield from flaws
    if not flaws:
        chart = read_sets(top.chart)
        counts = {name: _patches(table) for name, table in file.block.items()}
        yield from _count_flaws(sum(counts.get(each.name, 1) for row in chart for each in row))


def _declared_flaws(file: FileTable, seams: Seams) -> Iterator[Flaw]:
    if not file.block:
        hint = "Declare one in a table such as [block.star]"
        yield Flaw((*TOP, "layout"), "of blocks must have at least one block", hint)
    for name, table in file.block.items():
        if name in file.fabric:
            yield Flaw(("block", name), "must not have the name of a fabric", "Rename one of them")
        yield from cells_flaws(("block", name), table, seams)


def on_point_flaws(table: OnPointTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of squares on point: their size, then their rows."""
    yield from patch_flaws((*TOP, "patch"), table.patch, seams)
    rows = rows_of(table)
    yield from counted_flaws(table, len(rows[0]) if rows else 0, (len(rows) + 1) // 2)
    if table.chart is None:
        columns, full = table.columns or 0, table.rows or 0
        yield from _count_flaws(columns * full + (columns - 1) * (full - 1) + 2 * (columns + full))
    elif len(rows) % 2 == 0:
        hint = "Begin and end with a full row"
        yield Flaw((*TOP, "chart"), f"must have an odd count of rows, has {len(rows)}", hint)
    else:
        for count, row in enumerate(rows):
            expected = len(rows[0]) - count % 2
            yield from _length_flaws(count, len(row), expected, "full" if count % 2 else "first")


def _length_flaws(row: int, found: int, expected: int, like: str) -> Iterator[Flaw]:
    if found != expected:
        relation = {
            "first": "like row 1",
            "full": "one less than a full row",
            "second": "like row 2",
            "shifted": "one more or one less than row 1",
        }[like]
        names = "name" if expected == 1 else "names"
        problem = f"must have {expected} {names}, {relation}, has {found}"
        yield Flaw((*TOP, "chart", row), problem)


def strips_flaws(table: StripsTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of strips."""
    if not table.widths:
        yield Flaw((*TOP, "widths"), "must have at least one width, got an empty list")
    if table.fabrics is not None and not table.fabrics:
        yield Flaw((*TOP, "fabrics"), "must name at least one fabric, got an empty list")
    elif table.fabrics is not None and len(table.fabrics) > len(table.widths) > 0:
        problem = f"must not name more fabrics than there are strips, {len(table.widths)}"
        yield Flaw((*TOP, "fabrics"), f"{problem}, has {len(table.fabrics)}", "Leave some out")
    yield from _sizes_flaws((*TOP, "widths"), table.widths, len(table.widths), table.size, seams)
    if finished_sizes([table.length], 1, table.size, seams)[0] < seams.allowance:
        yield _too_narrow((*TOP, "length"), table.length, table.size, seams)


def bricks_flaws(table: BricksTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of bricks: their size, then their rows."""
    yield from _brick_flaws(table, seams)
    rows = rows_of(table)
    yield from counted_flaws(table, shortest(rows), len(rows))
    if table.chart is None:
        yield from _count_flaws(((table.columns or 0) + 1) * (table.rows or 0))
        return
    if len(rows) > 1 and abs(len(rows[0]) - len(rows[1])) != 1:
        yield from _length_flaws(1, len(rows[1]), len(rows[0]) + 1, "shifted")
        return
    for count, row in enumerate(rows[2:], 2):
        expected = len(rows[count % 2])
        yield from _length_flaws(count, len(row), expected, "second" if count % 2 else "first")


def _brick_flaws(table: BricksTable, seams: Seams) -> Iterator[Flaw]:
    cut, finished = table.cut, table.finished
    if cut is None and finished is None:
        hint = "Write for example `cut = { width = 6, height = 3 }`"
        yield Flaw(TOP, "must have `cut` or `finished`", hint)
        return
    width, height = finished_brick(table, seams)
    if cut is not None and finished is not None:
        made = raw_top(width, seams.allowance), raw_top(height, seams.allowance)
        if made != (cut.width, cut.height):
            problem = f"disagrees with `top.finished`, which is cut {seams.by(made)}"
            got = f", got {seams.by((cut.width, cut.height))}"
            yield Flaw((*TOP, "cut"), problem + got, "Give one of the two")
    if width / 2 < seams.allowance:
        yield seam_too_wide("half brick", width / 2, seams)
    elif height < seams.allowance:
        yield seam_too_wide("brick", height, seams)
