"""Cloth against published charts and worked examples."""

from __future__ import annotations

from fractions import Fraction

import pytest
from cloths import BARE, kit, planned, squares, stock

from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.notes import percent
from cutpaths.cloth.packing.cuts import placements
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.plain_strips import plain_strips
from cutpaths.cloth.stock import before_washing
from cutpaths.lengths import INCH, YARD
from cutpaths.project.stock import Sold


@pytest.mark.parametrize(
    ("side", "count"),
    [
        ("2", 396),
        ("2.5", 238),
        ("3.5", 120),
        ("4", 99),
        ("5", 56),
        ("6.5", 30),
        ("7", 30),
        ("10", 12),
    ],
)
def test_squares_from_a_yard(side: str, count: int) -> None:
    """So many squares fill 36 in of 44 in cloth, and one more needs more.

    Quilter's math charts (2002): squares from a yard of 44 x 36, squaring up left out. Its 35 for
    7 in is an erratum: 6 x 5 is 30.
    """
    made, cloth = kit(), stock(44, **BARE)
    fits = planned(made, cloth, squares(Fraction(side), count))
    assert shopping(fits).used <= YARD
    assert shopping(planned(made, cloth, squares(Fraction(side), count + 1))).used > YARD


@pytest.mark.parametrize(
    ("side", "count"), [("2.5", 56), ("3.5", 30), ("4.5", 16), ("5", 12), ("6", 9)]
)
def test_squares_from_a_fat_quarter(side: str, count: int) -> None:
    """So many squares come from one fat quarter, and one more takes a second.

    The same charts: squares from 18 x 22, squaring up left out.
    """
    made = kit()
    quarter = stock(40, sold=Sold.QUARTERS, piece=(22 * INCH, 18 * INCH), **BARE)
    assert shopping(planned(made, quarter, squares(Fraction(side), count))).to_buy == 1
    assert shopping(planned(made, quarter, squares(Fraction(side), count + 1))).to_buy == 2


def test_worked_example_of_63_squares() -> None:
    """63 squares of 9 1/2 in from 42 in: 4 a strip, 16 strips, 152 in, to buy 4 1/4 yd.

    Worked example of a quilting forum; squaring up left out.
    """
    plan = planned(kit(), stock(42, **BARE), squares(Fraction(19, 2), 63))
    line, strips = shopping(plan), plan.sheets[0].strips
    assert (line.used, line.to_buy) == (152 * INCH, Fraction(17, 4) * YARD)
    assert [len(list(placements(strip))) for strip in strips] == [4] * 15 + [3]


def test_quarter_yards_have_one_area() -> None:
    """A quarter yard of 9 x 42 and a fat quarter of 18 x 21 are as large (magazine on precuts)."""
    strips = plain_strips([Item(width=9, height=9, count=4)], 42)
    assert (strips[0].width, strips[0].height) == (42, 9)
    width, length = stock(42).piece
    assert width * length == 9 * 42 * INCH**2


def test_shrinkage_of_a_test_page() -> None:
    """35 cm that come to 32 cm have shrunk 8.57 %, and 32 cm after washing take 35 cm before.

    Textile test page; ISO 5077:2007 counts 100 (after - before) / before.
    """
    part = Fraction(35 - 32, 35)
    assert percent(part) == "8.57 %"
    assert before_washing(Fraction(320), part) == 350


def test_flannel_after_six_washes() -> None:
    """103.75 in of washed flannel take 112 in before (home measurement, published 2017)."""
    part = 1 - Fraction("103.75") / 112
    assert percent(part) == "7.37 %"
    assert before_washing(Fraction("103.75"), part) == 112
