"""Thread and seam test: sums that a person can add up by hand; inches."""

from __future__ import annotations

from fractions import Fraction

import pytest
from builders import Sewn, folded_over, panel, project, squares

from cutpaths.figures import Figure, figures_of
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project.model import Project


def _figures(made: Project) -> dict[str, Figure]:
    return {f.key: f for group in figures_of(build(made)).groups for f in group.figures}


def test_seams_of_a_turned_panel_add_up() -> None:
    """A panel of 20 x 30 with borders of 2: each line sewn, counted by hand.

    Basting 1/8 in from the raw edge runs on 20 1/4 x 30 1/4, so 101; border seam 100; four miters
    of 2 sqrt 2; top stitching 100 on that seam and 116 at the edge of 24 x 34.
    """
    found = _figures(project(panel(20, 30), (2, 2, 2, 2)))
    by_hand = 101 + 100 + 4 * 2 * 2**0.5 + 100 + 116
    assert float(found["thread.seams"].value or 0) / 25.4 == pytest.approx(by_hand, abs=1e-6)


def test_patch_seams_are_counted() -> None:
    """A top of 4 x 4 squares of 4 1/2 in has 24 patch seams of 4 1/2 in, 108 in together."""
    pieced = _figures(project(squares(4, 4), (2, 2, 2, 2)))["thread.seams"].value
    plain = _figures(project(panel(18, 18), (2, 2, 2, 2)))["thread.seams"].value
    assert pieced is not None
    assert plain is not None
    assert pieced - plain == 108 * INCH


def test_folded_over_only_the_border_is_stitched() -> None:
    """Folded over, one line runs along the border's inner fold: 20 1/2 less twice 2, and so on."""
    found = _figures(project(panel(20, 30), (2, 2, 2, 2), folded_over()))
    assert found["thread.seams"].value == 2 * (Fraction(33, 2) + Fraction(53, 2)) * INCH


def test_thread_is_a_rule_of_the_trade() -> None:
    """A lockstitch takes roughly 2.5 to 3 times its seam (trade rule, from memory), rounded up."""
    made = project(panel(20, 30), (2, 2, 2, 2), folded_over())
    found = _figures(made)
    # 86 in of seam: 215 in are 5.97 yd and 5.46 m, 258 in are 7.17 yd and 6.55 m.
    assert found["thread.least"].text == "about 6 yd (6 m)"
    assert found["thread.most"].text == "about 8 yd (7 m)"
    titles = [group.title for group in figures_of(build(made)).groups]
    assert "Thread, by a rule of the trade" in titles


def test_the_seam_test_follows_the_allowance() -> None:
    """Ten allowances a strip: 2 1/2 in and 6 1/2 in at 1/4 in (hobby pages), 5 and 13 at 1/2."""
    quarter = _figures(project(panel(20, 30), (2, 2, 2, 2)))
    assert (quarter["test.strip"].text, quarter["test.sewn"].text) == (
        "2 1/2 in (63.5 mm)",
        "6 1/2 in (165.1 mm)",
    )
    assert quarter["test.middle"].text == "2 in (50.8 mm)"
    half = _figures(project(panel(20, 30), (2, 2, 2, 2), Sewn(allowance=Fraction(1, 2))))
    assert half["test.sewn"].value == 13 * INCH


def test_nothing_sewn_needs_no_seam_test() -> None:
    """A folded-over panel has no seam with an allowance."""
    assert "test.strip" not in _figures(project(panel(20, 30), (2, 2, 2, 2), folded_over()))
