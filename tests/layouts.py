"""Layouts for the tests: random ones, and what a sewn top must satisfy. All lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import shapely
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.assembly import Assembly, Piece
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring
from cutpaths.lengths import INCH
from cutpaths.project.patchwork import Pressing

QUARTER_INCH = INCH / 4
AREA_SLACK = 1e-6  # mm², for the rounding of floats
LENGTH_SLACK = 1e-6  # mm
FABRICS = ("moss", "rust", "sand")


def rules(
    *,
    headed: Sequence[str] = (),
    pressing: Pressing = Pressing.OPEN,
    blunted: bool = False,
    fabrics: Sequence[str] = (*FABRICS, "a", "b", "c", "d"),
) -> PatchRules:
    """Rules with a seam allowance of 1/4 in; the fabrics in `headed` have an up."""
    return PatchRules(
        allowance=QUARTER_INCH,
        directional={name: name in headed for name in fabrics},
        pressing=pressing,
        blunted=blunted,
    )


def finished(piece: Piece) -> Ring:
    """A patch's seam line in its own frame."""
    return select(piece.marks, MarkKind.SEAM_RING)[0].points


def laid(assembly: Assembly) -> list[Polygon]:
    """Every finished patch where it lies."""
    return [
        Polygon(place.ring(finished(piece)))
        for piece in assembly.pieces()
        for place in piece.places
    ]


def check_tiling(assembly: Assembly) -> None:
    """Finished patches cover the outline exactly once."""
    patches, outline = laid(assembly), Polygon(assembly.outline)
    assert abs(sum(patch.area for patch in patches) - outline.area) < AREA_SLACK
    covered = shapely.union_all(patches, grid_size=1e-7)
    assert covered.symmetric_difference(outline).area < outline.length * 1e-5
    tree = shapely.STRtree(patches)
    first, second = tree.query(patches, predicate="overlaps")
    for i, j in zip(first, second, strict=True):
        assert patches[i].intersection(patches[j]).area < AREA_SLACK


def check_allowances(assembly: Assembly, allowance: float) -> None:
    """Cut shapes reach the allowance past every edge of the finished shape, and no further."""
    for piece in assembly.pieces():
        inside = Polygon(finished(piece))
        cut = inside.buffer(allowance, join_style="mitre", mitre_limit=100)
        assert cut.symmetric_difference(Polygon(piece.outline)).area < AREA_SLACK
        assert min(x for x, _ in piece.outline) == 0.0
        assert min(y for _, y in piece.outline) == 0.0


def check_sewing(assembly: Assembly) -> None:
    """Seam by seam, each joins two parts of the top along all of their common edge.

    Seams that are first sewn in part are only measured.
    """
    seams = assembly.all_seams()
    around = sum(patch.length for patch in laid(assembly)) - Polygon(assembly.outline).length
    assert abs(sum(seam.length for seam in seams) - around / 2) < LENGTH_SLACK * len(seams) + 1e-6
    parts: list[BaseGeometry] = list(laid(assembly))
    for seam in seams:
        if seam.partial:
            return
        line = LineString([seam.start, seam.end])
        beside = [
            i
            for i, part in enumerate(parts)
            if line.buffer(1e-5, cap_style="flat").intersection(part).area > 1e-5 * 1e-3
            and part.boundary.intersection(line.buffer(1e-6)).length > 1e-3
        ]
        assert len(beside) == 2
        first, second = (parts[i] for i in beside)
        common = first.buffer(1e-6).intersection(second).length / 2
        assert abs(common - line.length) < 1e-3
        parts = [part for i, part in enumerate(parts) if i not in beside]
        parts.append(shapely.union_all([first, second], grid_size=1e-7))
    assert len(parts) == 1


@st.composite
def charts(draw: st.DrawFn) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...], tuple[str, ...]]:
    """Column widths, row heights and a chart with joined and split cells."""
    sizes = st.integers(8, 96).map(lambda eighths: eighths * INCH / 8)
    columns = draw(st.lists(sizes, min_size=1, max_size=5))
    rows = draw(st.lists(sizes, min_size=1, max_size=5))
    grid = [[""] * len(columns) for _ in rows]
    for y in range(len(rows)):
        for x in range(len(columns)):
            if not grid[y][x]:
                _join(draw, grid, x, y)
    return tuple(columns), tuple(rows), tuple(" ".join(row) for row in grid)


def _join(draw: st.DrawFn, grid: list[list[str]], x: int, y: int) -> None:
    """Fills a free cell, with as many free ones to the right of it and below as are drawn."""
    right = next((i for i in range(x, len(grid[0])) if grid[y][i]), len(grid[0]))
    across = draw(st.integers(1, min(3, right - x)))
    down = draw(st.integers(1, min(3, len(grid) - y)))
    for row in range(y, y + down):
        for column in range(x, x + across):
            grid[row][column] = "<" if column > x else "^"
    grid[y][x] = draw(cells())


def cells() -> st.SearchStrategy[str]:
    """Cells that are not joined to others."""
    name = st.sampled_from(FABRICS)
    return st.one_of(
        name,
        st.tuples(name, st.sampled_from("/\\+"), name).map("".join),
        st.lists(name, min_size=4, max_size=4).map("+".join),
    )
