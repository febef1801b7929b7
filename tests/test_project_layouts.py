"""Layouts from a project file: what its keys come to."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.lengths import INCH
from cutpaths.project import Project, read
from cutpaths.project.patchwork import (
    Blocks,
    Bricks,
    Grid,
    OnPoint,
    Pressing,
    Run,
    Strips,
    finished_size,
)

HEAD = """format = 1
title = "Pond"
[border]
width = 2
[backing]
fabric = "sea"
[fabric.sand]
[fabric.sea]
directional = true
"""
QUARTER = INCH / 4


def _read(tables: str) -> Project:
    return read(HEAD + tables)


def test_grid_takes_finished_sizes() -> None:
    """One size stands for all columns; rows and columns are finished unless they say cut."""
    tables = "[top]\nlayout = 'grid'\nwidths = [3]\nheights = [2, 4]\nchart = ['sand sea', 'sea <']"
    top = _read(tables).top
    assert isinstance(top, Grid)
    assert (top.columns, top.rows) == ((3 * INCH, 3 * INCH), (2 * INCH, 4 * INCH))
    assert [cell.across for cell in top.cells] == [1, 1, 2]
    cut = _read(tables + "\nsize = 'cut'").top
    assert isinstance(cut, Grid)
    assert cut.columns == (3 * INCH - 2 * QUARTER,) * 2


def test_blocks_with_sashing() -> None:
    """The larger grid is as large as its blocks, with the strips between and round them."""
    block = "[block.star]\nwidths = [3, 2]\nheights = [4]\nchart = ['sand sea', 'sea sand']\n"
    project = _read(
        "[top]\nlayout = 'blocks'\nchart = ['star star~']\n"
        f"sashing = {{ width = 1, fabric = 'sea', around = true }}\n{block}"
    )
    assert isinstance(project.top, Blocks)
    assert project.top.declared["star"].size() == (5 * INCH, 8 * INCH)
    assert project.finished_top == (13 * INCH, 10 * INCH)


def test_on_point_takes_turns_row_by_row() -> None:
    """Full rows and the rows between them take turns; the top is as wide as its diagonals."""
    project = _read(
        "[top]\nlayout = 'on-point'\npatch = 6.5\ncolumns = 2\nrows = 2\nsetting = 'sea'\n"
        "fabrics = ['sand', 'sea']\n"
    )
    top = project.top
    assert isinstance(top, OnPoint)
    assert top.chart == (("sand", "sand"), ("sea",), ("sand", "sand"))
    assert top.finished == 6 * INCH
    width, height = finished_size(top)
    assert width == height
    assert abs(width**2 - 2 * (12 * INCH) ** 2) < Fraction(1, 10**30)
    assert project.notes == (
        "Squares on point are cut straight, so the print of sea leans: "
        "its up lies half way between head and left.",
    )


def test_strips_take_turns() -> None:
    """Strips across have the given length as their width."""
    project = _read(
        "[top]\nlayout = 'strips'\nwidths = [3, 2, 3]\nlength = 40\nfabrics = ['sand', 'sea']\n"
        "run = 'across'\n"
    )
    top = project.top
    assert isinstance(top, Strips)
    assert (top.fabrics, top.run) == (("sand", "sea", "sand"), Run.ACROSS)
    assert project.finished_top == (40 * INCH, 8 * INCH)


def test_bricks_take_turns() -> None:
    """Each row starts one fabric further, and shifted rows have one brick more."""
    project = _read(
        "[top]\nlayout = 'bricks'\ncut = { width = 6.5, height = 3.5 }\ncolumns = 2\nrows = 2\n"
        "fabrics = ['sand', 'sea']\n"
    )
    top = project.top
    assert isinstance(top, Bricks)
    assert top.chart == (("sand", "sea"), ("sea", "sand", "sea"))
    assert project.finished_top == (12 * INCH, 6 * INCH)


def test_patches_table() -> None:
    """Pressing, tips and pairs are the project's; prints with an up are noted beside pairs."""
    grid = "[top]\nlayout = 'grid'\nwidths = [3]\nheights = [3]\nchart = ['sand/sea']\n"
    plain = _read(grid)
    assert (plain.pressing, plain.blunted, plain.pairs) == (Pressing.OPEN, False, False)
    told = _read(grid + "[patches]\npressing = 'alternate'\ntips = 'blunted'\npairs = true\n")
    assert (told.pressing, told.blunted, told.pairs) == (Pressing.ALTERNATE, True, True)
    assert told.notes == (
        "Pairs of triangles sewn before cutting lie either way round: where the print of sea must "
        "stand upright, cut its triangles singly.",
    )


def test_columns_and_rows_that_agree_may_stand_beside_a_chart() -> None:
    """In all three layouts that are counted or written, with the same top as without them."""
    for table, chart, counted in (
        ("layout = 'squares'\npatch = 5", "'sand sea', 'sea sand', 'sand sea'", (2, 3)),
        (
            "layout = 'on-point'\npatch = 5\nsetting = 'sea'",
            "'sand sea', 'sea', 'sand sea'",
            (2, 2),
        ),
        ("layout = 'bricks'\ncut = { width = 6, height = 3 }", "'sand sea', 'sea sea sea'", (2, 2)),
        ("layout = 'bricks'\ncut = { width = 6, height = 3 }", "'sea sea sea', 'sand sea'", (2, 2)),
    ):
        bare = f"[top]\n{table}\nchart = [{chart}]\n"
        beside = f"{bare}columns = {counted[0]}\nrows = {counted[1]}\n"
        assert _read(beside).top == _read(bare).top
