"""Names of a chart's rows and columns, and where they stand; mm, front view.

Rows count from the head and columns from the left, from 1, as in the chart of the project file; the
patch of row 2 and column 3 is `r2c3`. Layouts whose rows take turns have two lines of column names:
those at the head count the patches of the first row, those at the foot those of the second.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from cutpaths.project.blocks import Sashing, sizes_of, with_sashing
from cutpaths.project.patchwork import (
    Blocks,
    Bricks,
    Grid,
    OnPoint,
    Patchwork,
    Run,
    Squares,
    Strips,
    finished_size,
)
from cutpaths.project.roots import ROOT2
from cutpaths.values import Value

Places = tuple[float, ...]


class Names(Value, kw_only=True):
    """The middles of what is named.

    Attributes:
        rows: heights above the foot, the head row first.
        head: distances from the left of the columns, or of the first row's patches.
        foot: those of the second row's patches, where they stand elsewhere.
    """

    rows: Places = ()
    head: Places = ()
    foot: Places = ()


def names_of(top: Patchwork) -> Names:
    """The rows and columns of a layout."""
    height = finished_size(top)[1]
    match top:
        case Squares(finished=finished):
            return _grid([finished] * top.columns, [finished] * top.rows)
        case Grid(columns=columns, rows=rows):
            return _grid(columns, rows)
        case Blocks(declared=declared, chart=chart, sashing=sashing):
            columns, rows = sizes_of(chart, declared)
            down = (float(height - mm) for mm in _between(rows, sashing))
            return Names(rows=tuple(down), head=_floats(_between(columns, sashing)))
        case OnPoint(finished=finished, chart=chart):
            half = finished * ROOT2 / 2
            return Names(
                rows=_floats(height - half * (i + 1) for i in range(len(chart))),
                head=_floats(half * (2 * i + 1) for i in range(len(chart[0]))),
                foot=_floats(half * (2 * i + 2) for i in range(len(chart[0]) - 1)),
            )
        case Strips(widths=widths, run=run):
            if run is Run.DOWN:
                return Names(head=_floats(_middles(widths)))
            return Names(rows=_floats(height - mm for mm in _middles(widths)))
        case Bricks():
            return _bricks(top, height)


def _bricks(top: Bricks, height: Fraction) -> Names:
    whole = min(len(names) for names in top.chart[:2])
    lines = []
    for names in top.chart[:2]:
        shifted = len(names) > whole
        ends = [top.width / 2] if shifted else []
        lines.append(_floats(_middles([*ends, *[top.width] * (len(names) - 2 * len(ends)), *ends])))
    rows = _floats(height - mm for mm in _middles([top.height] * len(top.chart)))
    return Names(rows=rows, head=lines[0], foot=lines[1] if len(lines) > 1 else ())


def _grid(columns: Sequence[Fraction], rows: Sequence[Fraction]) -> Names:
    height = sum(rows, Fraction(0))
    down = _floats(height - mm for mm in _middles(rows))
    return Names(rows=down, head=_floats(_middles(columns)))


def _middles(sizes: Sequence[Fraction]) -> list[Fraction]:
    """The middles of sizes that stand side by side, from the start."""
    return [(start + end) / 2 for start, end in pairwise(accumulate(sizes, initial=Fraction(0)))]


def _between(sizes: Sequence[Fraction], sashing: Sashing | None) -> list[Fraction]:
    """The middles of blocks, with the sashing between them and perhaps round them."""
    middles = _middles(with_sashing(sizes, sashing))
    if sashing is None:
        return middles
    return middles[1 if sashing.around else 0 :: 2]


def _floats(lengths: Iterable[Fraction]) -> Places:
    return tuple(float(mm) for mm in lengths)
