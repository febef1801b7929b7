"""The chart of a grid and the chart of blocks, as text."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from layouts import charts

from cutpaths.lengths import INCH
from cutpaths.project.blocks import Block, SetBlock, read_sets, set_faults
from cutpaths.project.cells import (
    Cell,
    Fault,
    Split,
    chart_faults,
    mirrored,
    names_of,
    read_cells,
)
from cutpaths.project.roots import ROOT2, root


def test_cells_are_read_as_written() -> None:
    """One fabric, two on either diagonal, two or four on both."""
    assert read_cells([r"a b/c b\c a+b a+b+c+d"]) == (
        Cell(column=0, row=0, fabrics=("a",)),
        Cell(column=1, row=0, split=Split.RISING, fabrics=("b", "c")),
        Cell(column=2, row=0, split=Split.FALLING, fabrics=("b", "c")),
        Cell(column=3, row=0, split=Split.BOTH, fabrics=("a", "b", "a", "b")),
        Cell(column=4, row=0, split=Split.BOTH, fabrics=("a", "b", "c", "d")),
    )


def test_joined_cells_are_one() -> None:
    """`<` joins to the left, `^` upward, and a joined rectangle may be split."""
    assert read_cells(["a/b < c", "^ < c"]) == (
        Cell(column=0, row=0, across=2, down=2, split=Split.RISING, fabrics=("a", "b")),
        Cell(column=2, row=0, fabrics=("c",)),
        Cell(column=2, row=1, fabrics=("c",)),
    )
    assert read_cells(["a <", "^ ^"]) == (Cell(column=0, row=0, across=2, down=2, fabrics=("a",)),)


@pytest.mark.parametrize(
    ("chart", "fault"),
    [
        (
            ["a a", "a"],
            Fault(
                1,
                "must have 2 cells like row 1, has 1",
                "Write one fabric, `<` or `^` for each cell",
            ),
        ),
        (["a", " "], Fault(1, "must have cells, is empty", "Write a fabric for each cell")),
        (
            ["a//b"],
            Fault(
                0,
                r"cell 1 must be `sand`, `sand/sea`, `sand\sea`, `sand+sea`, `a+b+c+d`, "
                "`<` or `^`, "
                "got 'a//b'",
            ),
        ),
        (
            ["a a+b+c"],
            Fault(
                0,
                r"cell 2 must be `sand`, `sand/sea`, `sand\sea`, `sand+sea`, `a+b+c+d`, "
                "`<` or `^`, "
                "got 'a+b+c'",
                "A cell split both ways takes two fabrics or four",
            ),
        ),
        (
            ["sand\bark"],
            Fault(
                0,
                r"cell 1 must be `sand`, `sand/sea`, `sand\sea`, `sand+sea`, `a+b+c+d`, "
                "`<` or `^`, "
                r"got 'sand\x08ark'",
                "Put the row into single quotes, where a backslash is a backslash",
            ),
        ),
        (["a ^"], Fault(0, "cell 2 has no cell above it to join")),
        (["a", "<"], Fault(1, "cell 1 has no cell at its left to join")),
        (
            ["a < b", "^ b b"],
            Fault(
                0,
                "the cells joined to cell 1, a, must form a rectangle",
                "Join whole rows of cells",
            ),
        ),
    ],
)
def test_charts_that_cannot_be_read(chart: list[str], fault: Fault) -> None:
    """Each kind of fault is one clear line with the row it is in."""
    assert list(chart_faults(chart)) == [fault]


def test_names_of_a_cell() -> None:
    """Every fabric that a cell names; joined cells name none."""
    assert [names_of(text) for text in ("a", "a/b", r"a\b", "a+b+c+d", "<", "^", "a//b")] == [
        ("a",),
        ("a", "b"),
        ("a", "b"),
        ("a", "b", "c", "d"),
        (),
        (),
        (),
    ]


@given(charts())
def test_mirroring_twice_changes_nothing(
    chart: tuple[tuple[Fraction, ...], tuple[Fraction, ...], tuple[str, ...]],
) -> None:
    """A mirror of the mirror is the chart, and random charts are without faults."""
    columns, _, text = chart
    assert list(chart_faults(text)) == []
    cells = read_cells(text)
    assert mirrored(mirrored(cells, len(columns)), len(columns)) == cells


def test_mirrored_cells() -> None:
    """Left and right change places, and the diagonals with them."""
    cells = read_cells([r"a/b c\d a+b+c+d"])
    assert mirrored(cells, 3) == (
        Cell(column=0, row=0, split=Split.BOTH, fabrics=("a", "d", "c", "b")),
        Cell(column=1, row=0, split=Split.RISING, fabrics=("d", "c")),
        Cell(column=2, row=0, split=Split.FALLING, fabrics=("b", "a")),
    )


def test_blocks_are_set_by_their_signs() -> None:
    """`>` turns clockwise, `<` the other way, `>>` half round, `~` mirrors first."""
    assert read_sets(["star star> star< star>>", "star~ star~> star~< star~>>"]) == (
        (SetBlock("star"), SetBlock("star", 3), SetBlock("star", 1), SetBlock("star", 2)),
        (
            SetBlock("star", 0, mirrored=True),
            SetBlock("star", 3, mirrored=True),
            SetBlock("star", 1, mirrored=True),
            SetBlock("star", 2, mirrored=True),
        ),
    )


def _block(width: int, height: int) -> Block:
    return Block(columns=(width * INCH,), rows=(height * INCH,), cells=read_cells(["a"]))


@pytest.mark.parametrize(
    ("chart", "fault"),
    [
        (
            ["star <"],
            Fault(0, "cell 2 must be `star`, `star>`, `star<`, `star>>` or `star~`, got '<'"),
        ),
        (
            ["star moss>"],
            Fault(
                0,
                "cell 2 must name a block before `~`, `<` or `>`, got 'moss>'",
                "Declared are star, tall",
            ),
        ),
        (
            ["star stat"],
            Fault(
                0,
                "cell 2 must name a declared block or fabric, got 'stat'",
                "Write `star`; declared are moss, star, tall",
            ),
        ),
        (
            ["star", "tall"],
            Fault(
                1,
                "block tall in column 1 must be as wide as star",
                "Make the sizes of both blocks add up to one column",
            ),
        ),
        (
            ["star tall>"],
            Fault(
                0,
                "block tall in row 1 must be as high as star",
                "Make the sizes of both blocks add up to one row",
            ),
        ),
        (
            ["star moss"],
            Fault(
                0,
                "has no block in column 2 to say how large it is",
                "Make it a block of one cell",
            ),
        ),
        (
            ["star star", "star"],
            Fault(
                1,
                "must have 2 cells like row 1, has 1",
                "Write one fabric, `<` or `^` for each cell",
            ),
        ),
    ],
)
def test_block_charts_that_do_not_fit(chart: list[str], fault: Fault) -> None:
    """Each kind of fault is one clear line with the row it is in."""
    blocks = {"star": _block(6, 6), "tall": _block(4, 6)}
    assert list(set_faults(chart, blocks, ["moss"])) == [fault]


def test_roots_are_exact_or_below() -> None:
    """Roots of squares are exact, others are good to forty places."""
    assert root(Fraction(25, 4)) == Fraction(5, 2)
    assert 0 < 2 - ROOT2**2 < Fraction(1, 10**39)
