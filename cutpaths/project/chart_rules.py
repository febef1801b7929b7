"""Rules of tops whose patches are either counted or written in a chart, the same for every layout.

Beside a chart `columns` and `rows` may stand where they agree with it; `fabrics` may not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.project.flaws import Flaw
from cutpaths.project.layout_shape import BricksTable, OnPointTable
from cutpaths.project.shape import SquaresTable

Counted = SquaresTable | OnPointTable | BricksTable


def rows_of(table: Counted) -> list[list[str]]:
    """The names in the rows of a chart; no rows without one."""
    return [row.split() for row in table.chart or ()]


def counted_flaws(table: Counted, columns: int, rows: int) -> Iterator[Flaw]:
    """Which of the keys are there, and whether they agree.

    Args:
        table: what the file says.
        columns: how many the chart has; of no meaning without a chart, as are its rows.
        rows: the same of its rows.
    """
    if table.chart is None:
        yield from _missing(table)
        return
    if table.fabrics is not None:
        yield Flaw(("top", "fabrics"), "has no place beside a chart", "Give one of the two")
    written = rows_of(table)
    if not written or not written[0]:
        yield Flaw(("top", "chart"), "must have at least one row with one fabric name")
        return
    for name, given, charted in (("columns", table.columns, columns), ("rows", table.rows, rows)):
        if given is not None and given != charted:
            problem = f"must be as in the chart, {charted}, got {given}"
            yield Flaw(("top", name), problem, "Leave it out: the chart gives it")


def _missing(table: Counted) -> Iterator[Flaw]:
    for name, count in (("columns", table.columns), ("rows", table.rows)):
        if count is None:
            yield Flaw(("top", name), "is missing", "Give `columns` and `rows`, or a `chart`")
    if table.fabrics is not None and not table.fabrics:
        yield Flaw(("top", "fabrics"), "must name at least one fabric, got an empty list")


def shortest(rows: Sequence[Sequence[str]]) -> int:
    """Names in the shortest of the first two rows, of which one may be shifted; 0 without rows."""
    return min((len(row) for row in rows[:2]), default=0)
