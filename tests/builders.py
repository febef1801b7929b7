"""Projects made by hand for tests, without a project file; sizes are inches, exact."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.project.cells import read_cells
from cutpaths.project.model import (
    BackingCorners,
    Construction,
    Fabric,
    Opening,
    Outline,
    Panel,
    Project,
    Regular,
    Squares,
    Top,
)
from cutpaths.project.patchwork import Grid, OnPoint
from cutpaths.values import Value, replace

Inches = Fraction | int

SAND = Fabric(name="sand", label="Sand", directional=False)
SEA = Fabric(name="sea", label="Sea", directional=True)
ANY_OPENING = Opening(length=None, side=None, start=None)


class Sewn(Value, kw_only=True):
    """How a blanket is sewn; inches."""

    allowance: Inches = Fraction(1, 4)
    basting: Inches = Fraction(1, 8)
    trim: Inches = Fraction(1, 4)
    turn: Inches = 0
    opening: Opening | None = ANY_OPENING
    corners: BackingCorners = BackingCorners.LEFT_ON
    construction: Construction = Construction.TURNED


AS_USUAL = Sewn()


def project(top: Top, borders: Sequence[Inches], sewn: Sewn = AS_USUAL) -> Project:
    """A project of a top and its borders, in the order of the sides."""
    folded_over = sewn.construction is Construction.FOLDED_OVER
    return Project(
        title="Tidepool",
        digest="0" * 64,
        ruler=Ruler(Unit.INCH, INCH / 8),
        construction=sewn.construction,
        top=top,
        measured=None,
        fabrics=(SAND, SEA),
        backing_fabric="sea",
        corners=sewn.corners,
        allowance=sewn.allowance * INCH,
        basting=sewn.basting * INCH,
        trim=sewn.trim * INCH,
        borders=tuple(border * INCH for border in borders),
        turn_of_cloth=sewn.turn * INCH,
        opening=None if folded_over else sewn.opening,
        notes=(),
    )


def folded_over(sewn: Sewn = AS_USUAL) -> Sewn:
    """The same way of sewing, folded over."""
    return replace(sewn, construction=Construction.FOLDED_OVER, turn=Fraction(0))


def squares(columns: int, rows: int, finished: Inches = Fraction(9, 2)) -> Squares:
    """A checkerboard of two fabrics."""
    names = "sand", "sea"
    chart = tuple(
        tuple(names[(row + column) % 2] for column in range(columns)) for row in range(rows)
    )
    return Squares(finished=finished * INCH, chart=chart)


def grid(side: Inches, cells: Sequence[str]) -> Grid:
    """Square cells of one size, each of one fabric or split."""
    read = read_cells(list(cells))
    columns = len(cells[0].split())
    return Grid(columns=(side * INCH,) * columns, rows=(side * INCH,) * len(cells), cells=read)


def on_point(finished: Inches, chart: Sequence[tuple[str, ...]]) -> OnPoint:
    """Squares on point in triangles of plain cloth."""
    return OnPoint(finished=finished * INCH, chart=tuple(chart), setting="sand")


def panel(width: Inches, height: Inches) -> Panel:
    """A rectangle, seam to seam."""
    return Panel(width=width * INCH, height=height * INCH, fabric="sand")


def regular(sides: int, side: Inches) -> Regular:
    """A regular polygon."""
    return Regular(sides=sides, side=side * INCH, fabric="sand")


def outline(points: Sequence[tuple[Inches, Inches]], outset: Inches = 0) -> Outline:
    """A convex outline, counter-clockwise."""
    return Outline(
        points=tuple((x * INCH, y * INCH) for x, y in points), outset=outset * INCH, fabric="sand"
    )
