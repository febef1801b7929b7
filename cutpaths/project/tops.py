"""The [top] table: its rules, and the top that it asks for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.project import outlines
from cutpaths.project.chart_rules import counted_flaws, rows_of
from cutpaths.project.fabrics import top_fabrics
from cutpaths.project.fill import LONGEST
from cutpaths.project.flaws import Flaw
from cutpaths.project.kinds import PATCHES_MOST, Rectangle
from cutpaths.project.layout_rules import layout_flaws
from cutpaths.project.layouts import layout_of
from cutpaths.project.model import Outline, Panel, Regular, Squares, Top
from cutpaths.project.outlines import Ring
from cutpaths.project.patch_rules import finished_side, patch_flaws, seam_too_wide, top_too_long
from cutpaths.project.seams import Seams
from cutpaths.project.shape import FileTable, OutlineTable, PanelTable, SquaresTable
from cutpaths.project.sizes import raw_top
from cutpaths.source import KeyPath

_ONE_OF_TWO = "Give one of the two"
_NO_SEAM = "has no place in a folded-over blanket: no seam runs round the top"


def top_flaws(file: FileTable, seams: Seams) -> Iterator[Flaw]:
    """Rules of the [top] table."""
    match file.top:
        case SquaresTable() as table:
            yield from patch_flaws(("top", "patch"), table.patch, seams)
            yield from _grid_flaws(table, seams)
        case PanelTable() as table:
            yield from _panel_flaws(table, seams)
        case OutlineTable() as table:
            yield from _outline_flaws(table, seams)
        case _:
            yield from layout_flaws(file, seams)


def top_of(file: FileTable, seams: Seams) -> Top:
    """The top of a [top] table without flaws."""
    match file.top:
        case SquaresTable() as table:
            return Squares(finished=_patch(table, seams), chart=_chart(table, top_fabrics(file)))
        case PanelTable() as table:
            width, height = _panel(table, seams)
            return Panel(width=width, height=height, fabric=top_fabrics(file)[0])
        case OutlineTable(regular=None) as table:
            ring = ring_of(table)
            outset = seams.allowance if _is_cut(table, seams) else Fraction(0)
            return Outline(points=ring.points, outset=outset, fabric=top_fabrics(file)[0])
        case OutlineTable(regular=regular):
            sides, side = (regular.sides, regular.side) if regular else (0, Fraction(0))
            return Regular(sides=sides, side=side, fabric=top_fabrics(file)[0])
        case _:
            return layout_of(file, seams)


def ring_of(table: OutlineTable) -> Ring:
    """The ring of an outline given by its points."""
    return outlines.ring_of(table.points or [])


def _grid_flaws(table: SquaresTable, seams: Seams) -> Iterator[Flaw]:
    columns, rows = _grid(table)
    yield from counted_flaws(table, columns, rows)
    yield from _chart_flaws(table)
    if columns * rows > PATCHES_MOST:
        problem = f"must not have over {PATCHES_MOST:,} patches, has {columns * rows:,}"
        yield Flaw(("top",), problem, "Use fewer columns or rows")
        return
    size = _patch(table, seams) * max(columns, rows)
    if size > LONGEST:
        yield top_too_long(size, seams)


def _chart_flaws(table: SquaresTable) -> Iterator[Flaw]:
    """Rows that are not as long as the first; whether there are any is judged before."""
    first, *others = rows_of(table) or [[]]
    for index, row in enumerate(others, 1):
        if first and len(row) != len(first):
            problem = f"must have {len(first)} names like row 1, got {len(row)}"
            yield Flaw(("top", "chart", index), problem)


def _panel_flaws(table: PanelTable, seams: Seams) -> Iterator[Flaw]:
    if seams.folded_over and table.seen is not None:
        yield Flaw(("top", "seen"), _NO_SEAM, "Give `cut`")
    elif table.cut is None and table.seen is None:
        hint = "Write for example `cut = { width = 30, height = 36 }`"
        yield Flaw(("top",), "must have `cut` or `seen`", hint)
    elif table.cut is not None and table.seen is not None:
        made = _raw(table.seen, seams)
        if made != _pair(table.cut):
            problem = f"disagrees with `top.seen`, which is cut {seams.by(made)}"
            got = f", got {seams.by(_pair(table.cut))}"
            yield Flaw(("top", "cut"), problem + got, _ONE_OF_TWO)
    if (table.cut or table.seen) and min(_panel(table, seams)) < seams.allowance:
        yield seam_too_wide("panel", min(_panel(table, seams)), seams)


def _outline_flaws(table: OutlineTable, seams: Seams) -> Iterator[Flaw]:
    if (table.points is None) == (table.regular is None):
        both = "only one of `points` and `regular`" if table.points else "`points` or `regular`"
        yield Flaw(("top",), f"must have {both}", "Describe the outline one way")
    elif table.points is not None:
        yield from _points_flaws(table, table.points, seams)
    elif table.size is not None:
        problem = "has no place beside `regular`, whose side is always the finished one"
        yield Flaw(("top", "size"), problem, "Leave it out")
    elif seams.folded_over:
        hint = "Write a square as a panel with its `cut` size"
        yield Flaw(("top", "regular"), _NO_SEAM, hint)


def _points_flaws(
    table: OutlineTable, points: Sequence[outlines.Point], seams: Seams
) -> Iterator[Flaw]:
    path: KeyPath = ("top", "points")
    found = list(outlines.faults(points))
    for index, problem, hint in found:
        yield Flaw(path if index is None else (*path, index), problem, hint)
    if seams.folded_over and table.size == "seen":
        yield Flaw(("top", "size"), _NO_SEAM, 'Write `size = "cut"`')
    if found:
        return
    ring = ring_of(table)
    if seams.folded_over and not outlines.is_rectangle(ring.points):
        hint = 'Make it a rectangle, or write `construction = "turned"`'
        yield Flaw(path, "must have right angles only in a folded-over blanket", hint)
    inset = seams.allowance if _is_cut(table, seams) else Fraction(0)
    if outlines.shortest_inside(ring.points, inset) <= 0:
        problem = f"must leave every side inside a seam of {seams.text(inset)}"
        yield Flaw(path, problem, "Make the outline larger or the seam allowance smaller")


def _is_cut(table: OutlineTable, seams: Seams) -> bool:
    """Whether the points lie on the raw edge; the only edge that a folded-over top has."""
    return table.size == "cut" or seams.folded_over


def _patch(table: SquaresTable, seams: Seams) -> Fraction:
    """Finished side of a patch; 0 or less where none is given or its seams take all."""
    return finished_side(table.patch, seams)


def _grid(table: SquaresTable) -> tuple[int, int]:
    """Columns and rows."""
    if table.chart is None:
        return table.columns or 0, table.rows or 0
    return max(map(len, rows_of(table)), default=0), len(table.chart)


def _chart(table: SquaresTable, fabrics: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The chart as written, or fabrics that take turns, each row starting one further."""
    if table.chart is not None:
        return tuple(map(tuple, rows_of(table)))
    columns, rows = _grid(table)
    count = len(fabrics)
    turns = [tuple(fabrics[(row + i) % count] for i in range(columns)) for row in range(count)]
    return tuple(turns[row % count] for row in range(rows))


def _panel(table: PanelTable, seams: Seams) -> tuple[Fraction, Fraction]:
    """Width and height between the stitching lines."""
    if table.seen is not None:
        return _pair(table.seen)
    width, height = _pair(table.cut) if table.cut else (Fraction(0), Fraction(0))
    return width - 2 * seams.allowance, height - 2 * seams.allowance


def _pair(size: Rectangle) -> tuple[Fraction, Fraction]:
    return size.width, size.height


def _raw(size: Rectangle, seams: Seams) -> tuple[Fraction, Fraction]:
    return raw_top(size.width, seams.allowance), raw_top(size.height, seams.allowance)
