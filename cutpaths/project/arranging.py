"""The [arrange] table: prints with their squares, and the rules for laying them out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction

from cutpaths.lengths import shown
from cutpaths.project.arrange_shape import ArrangeTable, PackTable
from cutpaths.project.flaws import Flaw
from cutpaths.project.model import Squares, Top
from cutpaths.project.prints import ArrangeRules, Group, Pin, Print, cell_name, read_cell_name
from cutpaths.project.seams import Seams
from cutpaths.project.shape import FileTable
from cutpaths.project.sizes import raw_top
from cutpaths.source import KeyPath

CELLS_MOST = 2_500  # beyond these a search takes minutes
PRINTS_MOST = 200
NEIGHBOURS = {(0, 1): "side by side", (1, 0): "side by side"}
CORNER_NEIGHBOURS = {(1, 1): "corner to corner", (1, -1): "corner to corner"}

Cell = tuple[int, int]


def arrange_of(file: FileTable, top: Top, seams: Seams) -> ArrangeRules | None:
    """The rules of an [arrange] table without flaws; None where the file has none."""
    table = file.arrange
    if table is None or not isinstance(top, Squares):
        return None
    counts = _counts(table, raw_top(top.finished, seams.allowance))
    return ArrangeRules(
        columns=top.columns,
        rows=top.rows,
        prints=tuple(Print(name, count) for name, count in counts.items()),
        corners=table.corners,
        apart=table.apart,
        balance=tuple(Group(name, tuple(prints)) for name, prints in table.balance.items()),
        pinned=tuple(Pin(*cell, name) for cell, name in _pins(table).items()),
    )


def arrange_flaws(file: FileTable, top: Top, seams: Seams) -> Iterator[Flaw]:
    """Rules of [arrange] beside a sound top."""
    table = file.arrange
    if table is None:
        return
    if not isinstance(top, Squares):
        problem = "has a place only beside a top of squares"
        yield Flaw(("arrange",), problem, "Leave it out")
        return
    if not table.prints and not table.pack:
        hint = "Write for example `prints = { rose = 12, fern = 12 }`"
        yield Flaw(("arrange", "prints"), "is missing", hint)
        return
    cut = raw_top(top.finished, seams.allowance)
    flaws = [
        flaw
        for place, pack in enumerate(table.pack)
        for flaw in _pack_flaws(("arrange", "pack", place), pack, cut, seams)
    ]
    yield from flaws
    if flaws:
        return  # its squares cannot be counted
    counts = _counts(table, cut)
    yield from _supply_flaws(counts, top)
    yield from _balance_flaws(table, counts)
    yield from _pin_flaws(table, counts, top)


def _counts(table: ArrangeTable, cut: Fraction) -> Mapping[str, int]:
    """Squares of each print in the order of the file, those of packs after the single ones."""
    counts: Counter[str] = Counter(table.prints)
    for pack in table.pack:
        from_one = (pack.size // cut) ** 2  # a large square makes several
        for name, count in _of_each(pack).items():
            counts[name] += count * pack.bought * from_one
    return counts


def _of_each(pack: PackTable) -> Mapping[str, int]:
    """Squares of each print in one pack."""
    if pack.counts is not None:
        return pack.counts
    names = pack.prints or []
    return dict.fromkeys(names, (pack.count or 0) // max(1, len(names)))


def _pack_flaws(path: KeyPath, pack: PackTable, cut: Fraction, seams: Seams) -> Iterator[Flaw]:
    if pack.size < cut:
        problem = f"must be at least the cut patch, {seams.text(cut)}, got {seams.text(pack.size)}"
        yield Flaw((*path, "size"), problem, "Use smaller patches or another pack")
    if (pack.prints is None) == (pack.counts is None):
        both = "only one of `prints` and `counts`" if pack.prints else "`prints` or `counts`"
        yield Flaw(path, f"must have {both}", "Name its prints one way")
    elif pack.prints is not None:
        yield from _equal_flaws(path, pack.prints, pack.count)
    elif pack.count not in (None, sum(_of_each(pack).values())):
        stated = sum(_of_each(pack).values())
        problem = f"must be as many as its `counts` say, {stated}, got {pack.count}"
        yield Flaw((*path, "count"), problem, "Leave it out")


def _equal_flaws(path: KeyPath, prints: list[str], count: int | None) -> Iterator[Flaw]:
    """Rules of a pack that has as many squares of each print as of the next."""
    twice = next((name for name, times in Counter(prints).items() if times > 1), None)
    if not prints:
        yield Flaw((*path, "prints"), "must name at least one print, got an empty list")
    elif twice is not None:
        yield Flaw((*path, "prints"), f"must name each print once, got {shown(twice)} again")
    elif count is None:
        yield Flaw((*path, "count"), "is missing", "Write for example `count = 42`")
    elif count % len(prints):
        problem = f"must be a multiple of its {len(prints)} prints, got {count}"
        yield Flaw((*path, "count"), problem, "Give `counts` for each print where they differ")


def _supply_flaws(counts: Mapping[str, int], top: Squares) -> Iterator[Flaw]:
    cells, squares = top.columns * top.rows, sum(counts.values())
    if cells > CELLS_MOST:
        problem = f"can lay out {CELLS_MOST:,} cells at most, the top has {cells:,}"
        yield Flaw(("arrange",), problem, "Write the chart by hand or use larger patches")
    elif squares < cells:
        problem = f"must have {cells} squares for {top.rows} rows of {top.columns}, has {squares}"
        yield Flaw(("arrange",), problem, f"Add {_squares(cells - squares)} of its prints")
    if len(counts) > PRINTS_MOST:
        problem = f"must not have over {PRINTS_MOST} prints, has {len(counts)}"
        yield Flaw(("arrange",), problem)


def _squares(count: int) -> str:
    return "1 square" if count == 1 else f"{count} squares"


def _balance_flaws(table: ArrangeTable, counts: Mapping[str, int]) -> Iterator[Flaw]:
    group_of: dict[str, str] = {}
    for group, names in table.balance.items():
        for place, name in enumerate(names):
            path = ("arrange", "balance", group, place)
            if name not in counts:
                yield Flaw(path, f"must be one of the prints, got {shown(name)}")
            elif name in group_of:
                yield Flaw(
                    path, f"must not be in two groups: {name} is in {group_of[name]} already"
                )
            group_of[name] = group


def _pin_flaws(table: ArrangeTable, counts: Mapping[str, int], top: Squares) -> Iterator[Flaw]:
    for written, name in table.pinned.items():
        path = ("arrange", "pinned", written)
        row, column = read_cell_name(written) or (0, 0)
        if row >= top.rows or column >= top.columns:
            problem = f"is outside the top of {top.rows} rows and {top.columns} columns"
            yield Flaw(
                path, problem, f"The last cell is {cell_name(top.rows - 1, top.columns - 1)}"
            )
        if name not in counts:
            yield Flaw(path, f"must be one of the prints, got {shown(name)}")
    for name, pinned in Counter(table.pinned.values()).items():
        if pinned > counts.get(name, pinned):
            problem = f"asks for {pinned} squares of {name}, there are {counts[name]}"
            yield Flaw(("arrange", "pinned"), problem, "Let some of them go")
    yield from _meeting_flaws(table)


def _meeting_flaws(table: ArrangeTable) -> Iterator[Flaw]:
    """Pinned cells alike that meet: no layout could keep the rules."""
    pins = _pins(table)
    ways = NEIGHBOURS | CORNER_NEIGHBOURS if table.corners else NEIGHBOURS
    for (row, column), name in pins.items():
        for (down, across), how in ways.items():
            other = row + down, column + across
            if pins.get(other) == name:
                problem = f"is {name}, as is {cell_name(*other)}, {how}"
                path = ("arrange", "pinned", cell_name(row, column))
                yield Flaw(path, problem, "Pin another print or let one of them go")


def _pins(table: ArrangeTable) -> dict[Cell, str]:
    """Pinned cells, by row and column from 0."""
    cells = {read_cell_name(written): name for written, name in table.pinned.items()}
    return {cell: name for cell, name in cells.items() if cell is not None}
