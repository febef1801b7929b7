"""Layouts of a pieced top as checked, frozen values; exact finished sizes in mm.

Everything is seen from the front of the finished blanket.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction

from cutpaths.project.blocks import Block, Sashing, SetBlock, sizes_of, with_sashing
from cutpaths.project.cells import Cell
from cutpaths.project.roots import ROOT2
from cutpaths.values import Value


class Pressing(StrEnum):
    """How seam allowances of the patchwork are pressed."""

    OPEN = "open"
    ALTERNATE = "alternate"


class Run(StrEnum):
    """Which way strips run in the blanket."""

    ACROSS = "across"
    DOWN = "down"


class Squares(Value, kw_only=True):
    """Squares of one size in columns and rows.

    Attributes:
        finished: finished side of a patch.
        chart: names of fabrics, one row of the blanket each, the head row first.
    """

    finished: Fraction
    chart: tuple[tuple[str, ...], ...]

    @property
    def columns(self) -> int:
        """Squares across."""
        return len(self.chart[0])

    @property
    def rows(self) -> int:
        """Squares down."""
        return len(self.chart)


class Grid(Value, kw_only=True):
    """Columns and rows, each of its own finished size, and the cells that fill them.

    Attributes:
        columns: widths from the left.
        rows: heights from the head.
        cells: row by row from the head.
    """

    columns: tuple[Fraction, ...]
    rows: tuple[Fraction, ...]
    cells: tuple[Cell, ...]


class Blocks(Value, kw_only=True):
    """Blocks set in the rows of a larger grid.

    Attributes:
        declared: blocks by their names.
        chart: what stands in each row, the head row first; a name that is no block's is a fabric.
        sashing: the strips between blocks; None without them.
    """

    declared: Mapping[str, Block]
    chart: tuple[tuple[SetBlock, ...], ...]
    sashing: Sashing | None


class OnPoint(Value, kw_only=True):
    """Squares on point, with triangles at the sides and in the corners.

    Attributes:
        finished: finished side of a square.
        chart: names of fabrics, the head row first; full rows and the rows between them, which
            have one name less, take turns.
        setting: fabric of the triangles.
    """

    finished: Fraction
    chart: tuple[tuple[str, ...], ...]
    setting: str


class Strips(Value, kw_only=True):
    """Strips of given finished widths, from the left or from the head, all of one length."""

    widths: tuple[Fraction, ...]
    fabrics: tuple[str, ...]
    length: Fraction
    run: Run


class Bricks(Value, kw_only=True):
    """Bricks of one finished size; every second row is shifted by half a brick.

    Attributes:
        width, height: finished size of a brick.
        chart: names of fabrics, the head row first; a shifted row has one name more.
    """

    width: Fraction
    height: Fraction
    chart: tuple[tuple[str, ...], ...]


Patchwork = Squares | Grid | Blocks | OnPoint | Strips | Bricks


def finished_size(top: Patchwork) -> tuple[Fraction, Fraction]:
    """Width and height between the stitching lines round the top."""
    match top:
        case Squares(finished=finished):
            return top.columns * finished, top.rows * finished
        case Grid(columns=columns, rows=rows):
            return _sum(columns), _sum(rows)
        case Blocks(declared=declared, chart=chart, sashing=sashing):
            across, down = sizes_of(chart, declared)
            return _sum(with_sashing(across, sashing)), _sum(with_sashing(down, sashing))
        case OnPoint(finished=finished, chart=chart):
            half = finished * ROOT2 / 2
            return 2 * len(chart[0]) * half, (len(chart) + 1) * half
        case Strips(widths=widths, length=length, run=run):
            size = _sum(widths), length
            return size if run is Run.DOWN else size[::-1]
        case Bricks(width=width, height=height, chart=chart):
            return min(len(names) for names in chart[:2]) * width, len(chart) * height


def _sum(sizes: tuple[Fraction, ...]) -> Fraction:
    return sum(sizes, Fraction(0))
