"""What can be ruled out by counting alone, before any search.

Where prints alike must not meet side by side, one print takes at most half of the cells: rows and
columns paired off, ceil(m n / 2) of m x n. Where they must not meet corner to corner either it
takes one of each block of two by two at most, ceil(m/2) ceil(n/2), the independence number of the
king's graph. Cells pinned to others, or beside a print's own pins, only lower these.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from cutpaths.arrange.rules import ArrangeRules, meetings

Block = tuple[int, ...]


def most_cells(rules: ArrangeRules, fabric: int) -> int:
    """A count of cells that one print cannot exceed; exact where nothing is pinned."""
    if not rules.fixed:
        return whole_grid_most(rules)
    open_cells = _open_cells(rules, fabric)
    return min(
        sum(any(cell in open_cells for cell in block) for block in blocks)
        for blocks in _block_covers(rules)
    )


def whole_grid_most(rules: ArrangeRules) -> int:
    """The most cells one print can take where nothing is pinned; exact."""
    if rules.corners:
        return -(-rules.rows // 2) * -(-rules.columns // 2)
    return -(-rules.cells // 2)


def impossible(rules: ArrangeRules) -> str:
    """Why no layout can keep the rules, where counting shows it; else nothing."""
    most = [most_cells(rules, place) for place in range(len(rules.prints))]
    able = [min(each.count, m) for each, m in zip(rules.prints, most, strict=True)]
    lacking = rules.cells - sum(able)
    if lacking <= 0:
        return ""
    over = [place for place, each in enumerate(rules.prints) if each.count > most[place]]
    limits = ", ".join(f"{rules.names[place]} at most {most[place]}" for place in over)
    rule = "side by side or corner to corner" if rules.corners else "side by side"
    return (
        f"with none alike {rule}, {limits} of the {rules.rows} x {rules.columns} cells; "
        f"so the prints fill {sum(able)} of {rules.cells}"
    )


def fewest_touches(rules: ArrangeRules, counts: tuple[int, ...]) -> int:
    """A number of meetings of cells alike that no layout with these counts can go below.

    A block's cells all meet one another: k of one print in it are k (k - 1) / 2 meetings. A print
    has the fewest when its squares are dealt out to the blocks in turn.
    """
    return max(
        sum(_dealt_out(blocks, count) for count in counts) for blocks in _block_covers(rules)
    )


def _dealt_out(blocks: tuple[Block, ...], count: int) -> int:
    """Meetings of `count` squares of one print dealt out evenly to blocks."""
    meetings = 0
    for before in range(max(map(len, blocks))):
        dealt = min(count, sum(len(block) > before for block in blocks))
        meetings += before * dealt
        count -= dealt
    return meetings


def _open_cells(rules: ArrangeRules, fabric: int) -> set[int]:
    """Cells that pins leave to a print, those pinned to it among them."""
    left = {cell for cell in range(rules.cells) if rules.fixed.get(cell, fabric) == fabric}
    for first, second in meetings(rules):
        if rules.fixed.get(first) == fabric:
            left.discard(second)
        elif rules.fixed.get(second) == fabric:
            left.discard(first)
    return left


def _block_covers(rules: ArrangeRules) -> Iterator[tuple[Block, ...]]:
    """Ways to part the cells into blocks whose cells all meet one another."""
    if rules.corners:
        for down, across in product((0, 1), repeat=2):
            yield _blocks(rules, _pairs(rules.rows, down), _pairs(rules.columns, across))
        return
    for first in (0, 1):
        yield from (_dominoes(rules, first, along_rows) for along_rows in (True, False))


def _pairs(count: int, first: int) -> list[range]:
    """Lines from 0 in twos; where `first` is 1 line 0 stands alone."""
    starts = range(-first, count, 2)
    return [range(max(start, 0), min(start + 2, count)) for start in starts]


def _blocks(rules: ArrangeRules, rows: list[range], columns: list[range]) -> tuple[Block, ...]:
    return tuple(
        tuple(row * rules.columns + column for row in down for column in across)
        for down in rows
        for across in columns
    )


def _dominoes(rules: ArrangeRules, first: int, along_rows: bool) -> tuple[Block, ...]:
    """Cells in twos along one path that turns to and fro through the whole grid."""
    lines, length = (rules.rows, rules.columns) if along_rows else (rules.columns, rules.rows)
    path = [
        line * rules.columns + step if along_rows else step * rules.columns + line
        for line in range(lines)
        for step in (range(length) if line % 2 == 0 else reversed(range(length)))
    ]
    return tuple(tuple(path[i] for i in pair) for pair in _pairs(len(path), first))
