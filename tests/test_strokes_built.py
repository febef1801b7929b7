"""Letters that the single-line font builds of others: fractions, and accents over letters."""

from __future__ import annotations

import math
import unicodedata

import pytest

from cutpaths.shapes import Point
from cutpaths.strokes import missing_letters, text_strokes, text_width

PEN = 0.35  # mm, a common fine marking pen (common practice, no source)


def height(text: str) -> float:
    """The highest point of a text that is 21 units tall."""
    return max(y for line in text_strokes(text, 21) for _, y in line)


def segment_distance(p: Point, a: Point, b: Point) -> float:
    """Distance from a point to a segment."""
    (px, py), (ax, ay), (bx, by) = p, a, b
    along = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / math.dist(a, b) ** 2
    t = min(1.0, max(0.0, along))
    return math.dist(p, (ax + t * (bx - ax), ay + t * (by - ay)))


@pytest.mark.parametrize("over", ["1", "3", "7", "15", "31"])
@pytest.mark.parametrize("under", ["2", "4", "8", "16", "32", "64"])
def test_a_fraction_fits_between_baseline_and_capital_height(over: str, under: str) -> None:
    """Figures above the slash keep to the upper 3/5, those below to the lower, at 3 mm 1.8 mm."""
    lines = text_strokes(f"{over}⁄{under}", 3.0)
    count = len(text_strokes(over, 3.0))
    top, slash, bottom = lines[:count], lines[count], lines[count + 1 :]
    assert [y for _, y in slash] == [0.0, 3.0]
    assert min(y for line in top for _, y in line) == pytest.approx(1.2, abs=1e-12)
    assert max(y for line in top for _, y in line) == pytest.approx(3.0, abs=1e-12)
    assert min(y for line in bottom for _, y in line) == 0.0
    assert max(y for line in bottom for _, y in line) == pytest.approx(1.8, abs=1e-12)
    a, b = slash
    for line in (*top, *bottom):
        assert all(segment_distance(p, a, b) > PEN for p in line)


def test_a_fraction_has_its_exact_width() -> None:
    """The width of 1⁄2, by hand.

    Room at the side 3.5, the 1 5 x 0.6, to the slash 3.5 at its feet, where the slash has gone 2/5
    of 11 to the right; the 2 stands 3.5 right of 3/5 of 11 and is 14 x 0.6 wide; room 3.5.
    """
    slash = 3.5 + 5 * 0.6 + 3.5 - 11 * 0.4
    expected = slash + 11 * 0.6 + 3.5 + 14 * 0.6 + 3.5
    assert text_width("1⁄2", 21) == pytest.approx(expected, abs=1e-12)
    assert text_width("1⁄2", 21) < text_width("1/2", 21)


@pytest.mark.parametrize(("ready", "built"), [("½", "1⁄2"), ("⅞", "7⁄8"), ("⅒", "1⁄10")])
def test_a_ready_made_fraction_is_the_built_up_one(ready: str, built: str) -> None:
    """A fraction in one character is drawn as its figures about a fraction slash."""
    assert text_strokes(ready, 3.0) == text_strokes(built, 3.0)
    assert text_width(ready, 3.0) == text_width(built, 3.0)


def test_a_ready_made_fraction_takes_no_figure_before_it() -> None:
    """2¼ is two and a quarter, not twenty-one quarters."""
    assert text_width("2¼", 21) == pytest.approx(20 + text_width("1⁄4", 21), abs=1e-12)


def test_a_mixed_number_stands_close() -> None:
    """The space between a whole number and its fraction is 4 wide, before a plain word 16."""
    fraction = text_width("1⁄16", 21)
    assert text_width("2 1⁄16", 21) == pytest.approx(20 + 4 + fraction, abs=1e-12)
    assert text_width("2\u00a01⁄16", 21) == text_width("2 1⁄16", 21)
    assert text_width("2 ½", 21) == pytest.approx(20 + 4 + text_width("½", 21), abs=1e-12)
    assert text_width("in 1⁄16", 21) == pytest.approx(8 + 19 + 16 + fraction, abs=1e-12)


@pytest.mark.parametrize("letter", ["é", "Å", "ñ", "ç", "ě", "ü", "Ő", "ę", "ť", "ģ"])
def test_composed_and_decomposed_letters_are_drawn_alike(letter: str) -> None:
    """How an accented letter is encoded makes no difference."""
    apart = unicodedata.normalize("NFD", letter)
    assert len(apart) == 2
    assert text_strokes(apart, 3.0) == text_strokes(letter, 3.0)
    assert text_width(apart, 3.0) == text_width(letter, 3.0)
    assert missing_letters(apart) == ()


@pytest.mark.parametrize(
    ("accented", "base", "marks"), [("é", "e", 1), ("Ü", "U", 2), ("Ő", "O", 2)]
)
def test_an_accent_stands_over_its_letter(accented: str, base: str, marks: int) -> None:
    """The letter is unchanged; its marks are clear above it and within its width."""
    lines = text_strokes(accented, 21)
    assert lines[:-marks] == text_strokes(base, 21)
    assert min(y for line in lines[-marks:] for _, y in line) == height(base) + 3
    assert text_width(accented, 21) == text_width(base, 21)


def test_a_cedilla_hangs_from_its_letter() -> None:
    """A cedilla starts on the baseline and ends below it."""
    cedilla = text_strokes("ç", 21)[-1]
    assert round(cedilla[0][1], 9) == 0.0
    assert round(min(y for _, y in cedilla), 9) == -6.0


def test_an_accent_takes_the_place_of_the_dot() -> None:
    """An i or j loses its dot to a mark above, also past a mark below; to no other mark."""
    assert len(text_strokes("i", 21)) == 2
    assert text_strokes("í", 21)[0] == text_strokes("ı", 21)[0]
    assert len(text_strokes("í", 21)) == 2
    assert len(text_strokes("j\u0302", 21)) == 2
    assert len(text_strokes("i\u0323\u0301", 21)) == 3
    assert len(text_strokes("į", 21)) == 3


def test_a_wide_accent_makes_its_letter_wider() -> None:
    """The tilde, 10 wide, keeps 1 clear at either side of an i, which is 8 wide."""
    assert text_width("ĩ", 21) == pytest.approx(12.0, abs=1e-12)


def test_a_mark_alone_is_set_on_a_space() -> None:
    """A mark with no letter before it is still drawn."""
    assert text_strokes("\u0301", 21) == text_strokes(" \u0301", 21)
    assert len(text_strokes("\u0301", 21)) == 1
