"""Sizes of real blankets, from outside, and the inverses of every formula."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from strategies import lengths

from cutpaths.lengths import INCH, Unit, read_length
from cutpaths.project import read, sizes

UTAH = "Utah State University Extension, Mitered Corner Baby Blanket"
JUAB = "Utah State University Extension (Juab County), handout, 2007"
# Top raw, backing, allowance, border, finished. Tops, backings and seams were seen in the sources,
# the rest is arithmetic from them except where the source prints it.
TURNED = [
    ("32", "42", "1/4", "2 1/2", "36 1/2", UTAH),
    ("30", "40", "1/4", "2 1/2", "34 1/2", JUAB),
    ("18", "26", "1/2", "2", "21", "sewing blog, prints (18 + 26) / 2 - 1 = 21"),
    ("76 cm", "100 cm", "1 cm", "6 cm", "86 cm", "sewing blog (metric)"),
    ("32", "36", "1/4", "1", "33 1/2", "quilting blog: backing 4 in larger, approx. 1 in miter"),
    ("36", "40", "1/4", "1", "37 1/2", "the same, down"),
]


def mm(text: str) -> Fraction:
    """A length in inches unless it names its unit."""
    return read_length(text, Unit.INCH)


@pytest.mark.parametrize(("top", "backing", "allowance", "border", "finished", "source"), TURNED)
def test_turned_blankets(
    top: str, backing: str, allowance: str, border: str, finished: str, source: str
) -> None:
    """Published turned blankets: any one of border, backing and finished size gives the others."""
    assert source
    raw, both = mm(top), 2 * mm(border)
    assert sizes.backing(raw, both, Fraction(0)) == mm(backing)
    assert sizes.finished(raw, both, mm(allowance)) == mm(finished)
    assert sizes.border_of_backing(mm(backing), raw, Fraction(0)) == mm(border)
    assert sizes.border_of_finished(mm(finished), raw, mm(allowance)) == mm(border)


@pytest.mark.parametrize(("top", "backing", "allowance", "border", "finished", "source"), TURNED)
def test_turned_blankets_by_each_of_three_sizes(
    top: str, backing: str, allowance: str, border: str, finished: str, source: str
) -> None:
    """The same published blankets as project files, settled by each of the three sizes."""
    assert source
    for given_size in (f'width = "{border}"', f'backing = "{backing}"', f'finished = "{finished}"'):
        project = read(
            'format = 1\ntitle = "x"\n'
            f'[top]\nlayout = "panel"\ncut = {{ width = "{top}", height = "{top}" }}\n'
            f'[border]\n{given_size}\n[seams]\nallowance = "{allowance}"\n'
        )
        assert project.borders == (mm(border),) * 4


def test_folded_over_blanket() -> None:
    """Top 30, backing 34 (overhang 2): the border is 1 and the blanket stays 30.

    Source: Care Wear (hospital charity), blanket instructions; the border is arithmetic.
    """
    project = read(
        'format = 1\ntitle = "x"\nconstruction = "folded-over"\n'
        '[top]\nlayout = "panel"\ncut = { width = 30, height = 30 }\n'
        "[border]\nbacking = 34\nfinished = 30\n"
    )
    assert project.borders == (INCH,) * 4


def test_turn_of_cloth() -> None:
    """Top 30, border 2 1/2, turn 1/8: backing 40 1/4, finished 34 1/2 (arithmetic)."""
    raw, both, turn = mm("30"), mm("5"), mm("1/8")
    assert sizes.backing(raw, both, turn) == mm("40 1/4")
    assert sizes.finished(raw, both, mm("1/4")) == mm("34 1/2")
    assert sizes.border_of_backing(mm("40 1/4"), raw, turn) == mm("2 1/2")


@pytest.mark.parametrize(
    ("seen", "cut"), [("3", "3 1/2"), ("2 1/2", "3"), ("5", "5 1/2"), ("12", "12 1/2")]
)
def test_cut_is_finished_and_two_allowances(seen: str, cut: str) -> None:
    """Finished 3 is cut 3 1/2; 2 1/2 x 5 is cut 3 x 5 1/2. Nine 4 1/2 squares sew to 12 1/2 raw.

    Sources: guild lesson sheet "Allowing for Seam Allowances"; hobby page (the nine-patch).
    """
    assert sizes.raw_top(mm(seen), mm("1/4")) == mm(cut)


@given(lengths(), lengths(), lengths(), lengths(Fraction(0), INCH))
def test_borders_come_back(
    top: Fraction, border: Fraction, allowance: Fraction, turn: Fraction
) -> None:
    """The border that a size gives is exactly the one that gave the size."""
    backing = sizes.backing(top, 2 * border, turn)
    finished = sizes.finished(top, 2 * border, allowance)
    assert sizes.border_of_backing(backing, top, turn) == border
    assert sizes.border_of_finished(finished, top, allowance) == border
    assert finished == (top + backing) / 2 - 2 * allowance - turn


def test_trim_of_a_folded_tip() -> None:
    """With equal borders the trim is b sqrt 2 at most; 3 and 4 hide 2 * 12 / 5 (arithmetic)."""
    one = Fraction(1)
    assert sizes.trim_fits(Fraction(24, 5), Fraction(3), Fraction(4))
    assert not sizes.trim_fits(Fraction(24, 5) + Fraction(1, 10**12), Fraction(3), Fraction(4))
    assert sizes.trim_fits(Fraction(sqrt(2)) - Fraction(1, 10**15), one, one)
    assert not sizes.trim_fits(Fraction(sqrt(2)) + Fraction(1, 10**15), one, one)
