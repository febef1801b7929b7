"""Papers by name and rolls by width; sizes against the published ones."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cutpaths.lengths import INCH, Unit
from cutpaths.sheets.pages.paper import LONGEST, NAMES, paper_named, usual_paper

HALF = Fraction(1, 2)


def test_papers_have_their_published_sizes() -> None:
    """A0 to A2 of ISO 216:2007; A3, A4, letter, legal, ledger of W3C CSS Paged Media 3."""
    sizes = {name: (paper_named(name).width, paper_named(name).height) for name in NAMES}
    assert sizes == {
        "a0": (841, 1189),
        "a1": (594, 841),
        "a2": (420, 594),
        "a3": (297, 420),
        "a4": (210, 297),
        "ledger": (11 * INCH, 17 * INCH),
        "legal": ((8 + HALF) * INCH, 14 * INCH),
        "letter": ((8 + HALF) * INCH, 11 * INCH),
    }


def test_each_size_halves_the_one_before() -> None:
    """Each A size is the one before with its longer side halved, rounded down (ISO 216:2007)."""
    for larger, smaller in zip(range(4), range(1, 5), strict=True):
        above, below = paper_named(f"a{larger}"), paper_named(f"A{smaller}")
        assert below.width == above.height // 2
        assert below.height == above.width


@pytest.mark.parametrize(
    ("text", "name", "width"),
    [
        ("36 in", "36 in roll", 36 * INCH),
        ("610mm", "610mm roll", 610),
        ('24 1/2"', '24 1/2" roll', INCH * 49 / 2),
        (" 1 m ", "1 m roll", 1000),
    ],
)
def test_a_roll_is_named_by_its_width(text: str, name: str, width: Fraction) -> None:
    """A width with its unit is a roll; its pages may be as long as a PDF page can be."""
    paper = paper_named(text)
    assert (paper.name, paper.width, paper.height, paper.roll) == (name, width, LONGEST, True)
    assert LONGEST == 5080  # 14,400 units of 1/72 in (ISO 32000-1, from memory)


WANTED = (
    "must be a0, a1, a2, a3, a4, ledger, legal, letter, "
    "or the width of a roll such as 36 in or 610 mm, got "
)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("b5", WANTED + "'b5'"),
        ("", WANTED + "''"),
        ("610", WANTED + "'610'"),
        ("24½", WANTED + "'24½'"),
        ("1e5 mm", WANTED + "'1e5 mm'"),
        ("5 m", "must be a roll from 200 mm to 2 m wide, got '5 m'"),
        ("-30 in", "must be a roll from 200 mm to 2 m wide, got '-30 in'"),
        ("5 cm", "must be a roll from 200 mm to 2 m wide, got '5 cm'"),
    ],
)
def test_what_is_no_paper_is_one_line(text: str, line: str) -> None:
    """The line says what would be right, and what was given."""
    with pytest.raises(ValueError, match="must be") as caught:
        paper_named(text)
    assert str(caught.value) == line


def test_a_printer_may_have_another_margin() -> None:
    """The white edge is 8 mm unless another is asked for, from nothing to 25 mm."""
    paper = paper_named("a4")
    assert paper.margin == 8
    assert paper.with_margin("1/4 in").margin == INCH / 4
    assert paper.with_margin("0 mm").margin == 0
    for text, line in (
        ("5", "must be a margin such as 6 mm or 1/4 in, got '5'"),
        ("30 mm", "must be a margin from 0 to 25 mm, got '30 mm'"),
        ("-1 mm", "must be a margin from 0 to 25 mm, got '-1 mm'"),
    ):
        with pytest.raises(ValueError, match="must be") as caught:
            paper.with_margin(text)
        assert str(caught.value) == line


def test_the_usual_paper_follows_the_unit() -> None:
    """Letter where people measure in inches, A4 where they do not."""
    assert usual_paper(Unit.INCH).name == "letter"
    assert usual_paper(Unit.CENTIMETRE).name == usual_paper(Unit.MILLIMETRE).name == "A4"
