"""Strips and bricks."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layouts import QUARTER_INCH, check_allowances, check_sewing, check_tiling, rules

from cutpaths.geometry.assembly import Stage
from cutpaths.geometry.layouts.bricks import bricks
from cutpaths.geometry.layouts.strips import strips
from cutpaths.geometry.polygons import box
from cutpaths.lengths import INCH
from cutpaths.project.patchwork import Run


def test_seam_test_of_three_strips() -> None:
    """Sewn, three strips measure 2 1/4, 2 and 2 1/4 from raw edge to raw edge, 6 1/2 in all.

    Source: hobby page, the usual seam test; the outer strips still have one allowance each.
    """
    made = strips([2 * INCH] * 3, ["moss", "sand", "moss"], 4 * INCH, Run.DOWN, rules())
    assert [(piece.size[0], piece.count) for piece in made.pieces()] == [(63.5, 2), (63.5, 1)]
    first, second = (seam.start[0] + 6.35 for seam in made.seams)
    raw = box(made.outline)[2] + 12.7
    assert [first, second - first, raw - second] == pytest.approx([57.15, 50.8, 57.15])
    assert raw == pytest.approx(165.1)


def test_strips_across_start_at_the_head() -> None:
    """The first strip lies at the head, and every seam is as long as the strips."""
    made = strips([2 * INCH, 3 * INCH], ["moss", "sand"], 20 * INCH, Run.ACROSS, rules())
    assert made.outline[2] == (508.0, 127.0)
    assert made.pieces()[0].places[0].dy == pytest.approx(76.2 - 6.35)
    assert [(s.start, s.end, s.stage) for s in made.seams] == [
        ((0.0, 76.2), (508.0, 76.2), Stage.TOP)
    ]


def test_half_brick_is_half_and_both_allowances() -> None:
    """A brick of 6 x 3 has half bricks of 3 x 3, cut 3 1/2 square."""
    made = bricks(6 * INCH, 3 * INCH, [["moss"] * 3, ["sand", "moss", "moss", "sand"]], rules())
    assert [(p.fabric, p.count, p.size) for p in made.pieces()] == [
        ("moss", 5, (165.1, 88.9)),
        ("sand", 2, (88.9, 88.9)),
    ]
    assert made.outline[2] == (float(18 * INCH), float(6 * INCH))
    ends = [(round(s.start[0] / 25.4), round(s.start[1] / 25.4)) for s in made.seams]
    assert ends == [(6, 3), (12, 3), (3, 0), (9, 0), (15, 0), (0, 3)]


@settings(deadline=None, max_examples=30)
@given(st.integers(1, 4), st.integers(1, 5), st.booleans(), st.integers(9, 90))
def test_any_bricks_tile_and_sew(columns: int, rows: int, first: bool, eighths: int) -> None:
    """Whole rows and shifted rows tile the outline, whichever comes first."""
    chart = [["moss"] * (columns + (row + first) % 2) for row in range(rows)]
    if rows == 1:
        chart = [["moss"] * columns]
    made = bricks(eighths * INCH / 8, 3 * INCH, chart, rules())
    check_tiling(made)
    check_allowances(made, float(QUARTER_INCH))
    check_sewing(made)
    assert made.outline[2][0] == float(columns * eighths * INCH / 8)
