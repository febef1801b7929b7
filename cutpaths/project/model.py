"""The project as checked, frozen values.

Lengths are exact `Fraction` millimetres. Everything is seen from the front of the finished blanket:
side A is the foot and letters run counter-clockwise (a rectangle: A foot, B right, C head, D left).
Per-side tuples are in the order of the letters.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from string import ascii_uppercase

from cutpaths.lengths import Ruler
from cutpaths.project.blocks import Block, Sashing, SetBlock, sizes_of, with_sashing
from cutpaths.project.cells import Cell
from cutpaths.project.roots import ROOT2

SIDES_MOST = len(ascii_uppercase)


class Construction(StrEnum):
    """How top and backing are joined; the two are never mixed."""

    TURNED = "turned"
    FOLDED_OVER = "folded-over"


class BackingCorners(StrEnum):
    """Whether the backing's corners are cut off before sewing."""

    LEFT_ON = "left-on"
    TRIMMED = "trimmed"


class Pressing(StrEnum):
    """How seam allowances of the patchwork are pressed."""

    OPEN = "open"
    ALTERNATE = "alternate"


class Run(StrEnum):
    """Which way strips run in the blanket."""

    ACROSS = "across"
    DOWN = "down"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """One cloth; `directional` when its print or nap has an up."""

    name: str
    label: str
    directional: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Squares:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Columns and rows, each of its own finished size, and the cells that fill them.

    Attributes:
        columns: widths from the left.
        rows: heights from the head.
        cells: row by row from the head.
    """

    columns: tuple[Fraction, ...]
    rows: tuple[Fraction, ...]
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocks:
    """Blocks set in the rows of a larger grid.

    Attributes:
        declared: blocks by their names.
        chart: what stands in each row, the head row first; a name that is no block's is a fabric.
        sashing: the strips between blocks; None without them.
    """

    declared: Mapping[str, Block]
    chart: tuple[tuple[SetBlock, ...], ...]
    sashing: Sashing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPoint:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips of given finished widths, from the left or from the head, all of one length."""

    widths: tuple[Fraction, ...]
    fabrics: tuple[str, ...]
    length: Fraction
    run: Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Bricks:
    """Bricks of one finished size; every second row is shifted by half a brick.

    Attributes:
        width, height: finished size of a brick.
        chart: names of fabrics, the head row first; a shifted row has one name more.
    """

    width: Fraction
    height: Fraction
    chart: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One rectangle of cloth; width and height are finished (seam line to seam line)."""

    width: Fraction
    height: Fraction
    fabric: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A convex polygon of one cloth, by its points, counter-clockwise.

    Attributes:
        points: corners; side A runs from the first to the second.
        outset: how far the points lie outside the seam line (0, or the allowance if cut size).
    """

    points: tuple[tuple[Fraction, Fraction], ...]
    outset: Fraction
    fabric: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Regular:
    """A regular polygon of one cloth; `side` is the finished side length, side A at the foot."""

    sides: int
    side: Fraction
    fabric: str


Patchwork = Squares | Grid | Blocks | OnPoint | Strips | Bricks
Top = Patchwork | Panel | Outline | Regular


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """The turning opening as asked for; None leaves the choice to the geometry.

    Attributes:
        length: length of the opening.
        side: index of the side that has it.
        start: distance of its first end from the dot where the side starts.
    """

    length: Fraction | None
    side: int | None
    start: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """The sewn top's raw width and height, as taped."""

    width: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """One blanket, settled: any one of border, backing or finished size has given the others.

    Attributes:
        title: as the person wrote it.
        digest: SHA-256 of the project file's bytes, with those of its included files.
        ruler: how lengths are printed.
        fabrics: every fabric that the project declares, in order of the file.
        allowance: seam allowance s.
        basting: distance of the basting line from the top's raw edge.
        trim: miter trim t.
        borders: finished border width of each side.
        turn_of_cloth: c, what the cloth's thickness eats at the fold; 0 when folded over.
        opening: None when folded over.
        notes: what a person should know and that is no error.
        pressing: how seam allowances of the patchwork are pressed.
        blunted: whether sharp tips of triangles are cut off.
        pairs: whether squares of two triangles are sewn before they are cut.
    """

    title: str
    digest: str
    ruler: Ruler
    construction: Construction
    top: Top
    measured: Measured | None
    fabrics: tuple[Fabric, ...]
    backing_fabric: str
    corners: BackingCorners
    allowance: Fraction
    basting: Fraction
    trim: Fraction
    borders: tuple[Fraction, ...]
    turn_of_cloth: Fraction
    opening: Opening | None
    notes: tuple[str, ...]
    pressing: Pressing = Pressing.OPEN
    blunted: bool = False
    pairs: bool = False

    @property
    def finished_top(self) -> tuple[Fraction, Fraction] | None:
        """Width and height of the top seam line to seam line as designed; None for outlines."""
        match self.top:
            case Squares() as squares:
                return squares.columns * squares.finished, squares.rows * squares.finished
            case Grid(columns=columns, rows=rows):
                return sum(columns, Fraction(0)), sum(rows, Fraction(0))
            case Blocks(declared=declared, chart=chart, sashing=sashing):
                across, down = sizes_of(chart, declared)
                sizes = with_sashing(across, sashing), with_sashing(down, sashing)
                return sum(sizes[0], Fraction(0)), sum(sizes[1], Fraction(0))
            case OnPoint(finished=finished, chart=chart):
                half = finished * ROOT2 / 2
                return 2 * len(chart[0]) * half, (len(chart) + 1) * half
            case Strips(widths=widths, length=length, run=run):
                width = sum(widths, Fraction(0))
                return (length, width) if run is Run.ACROSS else (width, length)
            case Bricks(width=width, height=height, chart=chart):
                return min(len(row) for row in chart[:2]) * width, len(chart) * height
            case Panel(width=width, height=height):
                return width, height
            case _:
                return None

    @property
    def sewn_top(self) -> tuple[Fraction, Fraction] | None:
        """Width and height that backing, dots and miters follow: as measured where it was."""
        if self.measured is not None:
            both = 2 * self.allowance
            return self.measured.width - both, self.measured.height - both
        return self.finished_top
