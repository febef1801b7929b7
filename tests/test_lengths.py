"""Lengths are read as written, kept exact, and printed as a ruler shows them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import UNITS, lengths, written_lengths

from cutpaths.lengths import (
    INCH,
    YARD,
    Ruler,
    Unit,
    decimals,
    exact_text,
    in_unit,
    millimetres,
    mixed,
    nearest,
    read_length,
)

IN, MM, CM = Unit.INCH, Unit.MILLIMETRE, Unit.CENTIMETRE


def test_inch_and_yard_are_the_legal_ones() -> None:
    """1 yd = 0.9144 m exactly, so 1 in = 25.4 mm.

    Source: "Refinement of Values for the Yard and the Pound", US Federal Register, 1 July 1959
    (seen in a restatement); the same values in NIST SP 811 (2008) app. B.8 are from memory.
    """
    assert Fraction(9144, 10) == YARD
    assert Fraction(254, 10) == INCH


def test_eighths_of_a_yard() -> None:
    """A yard in eighths is 4.5, 9, 13.5, 18, 22.5, 27, 31.5 in (arithmetic)."""
    eighths = [read_length(f"{part}/8 yd", IN) / INCH for part in range(1, 8)]
    assert [float(inches) for inches in eighths] == [4.5, 9.0, 13.5, 18.0, 22.5, 27.0, 31.5]


@pytest.mark.parametrize(
    ("written", "unit", "mm"),
    [
        (5, IN, INCH * 5),
        ("4.5", IN, INCH * Fraction(9, 2)),
        ("4 1/2", IN, INCH * Fraction(9, 2)),
        ("4½", IN, INCH * Fraction(9, 2)),
        ("4 ½", IN, INCH * Fraction(9, 2)),
        ("4-½", IN, INCH * Fraction(9, 2)),
        ("4-1/2", IN, INCH * Fraction(9, 2)),
        ("9/2", IN, INCH * Fraction(9, 2)),
        ("1⁄8", IN, INCH / 8),
        ("½", IN, INCH / 2),
        ("⅓", CM, Fraction(10, 3)),
        ('2 1/4"', MM, INCH * Fraction(9, 4)),
        ("2 1/4″", MM, INCH * Fraction(9, 4)),
        ("2 1/4 in", MM, INCH * Fraction(9, 4)),
        ("2 1/4 inches", MM, INCH * Fraction(9, 4)),
        ("1 inch", MM, INCH),
        ("57 mm", IN, Fraction(57)),
        ("57mm", IN, Fraction(57)),
        ("5.7 cm", IN, Fraction(57)),
        ("1 1/4 yd", IN, INCH * 45),
        ("2 yards", CM, INCH * 72),
        ("1 m", IN, Fraction(1000)),
        ("0.1", MM, Fraction(1, 10)),
        (".5", CM, Fraction(5)),
        ("5.", CM, Fraction(50)),
        ("  7  ", MM, Fraction(7)),
        ("+7", MM, Fraction(7)),
        ("-7 1/2", MM, Fraction(-15, 2)),
        (0, IN, Fraction(0)),
    ],
)
def test_every_written_form(written: str | int, unit: Unit, mm: Fraction) -> None:
    """Each way in which people write a length gives exactly its value."""
    assert read_length(written, unit) == mm


@given(written_lengths(), UNITS)
def test_written_lengths_are_exact(written: tuple[str, Fraction], unit: Unit) -> None:
    """A length with its unit has the same exact value in every file."""
    text, mm = written
    assert read_length(text, unit) == mm


LIKE = 'a length such as 4 1/2, 4.5, "4 1/2 in", "57 mm" or "1 1/4 yd"'


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("", f"must be {LIKE}, got ''"),
        ("wide", f"must be {LIKE}, got 'wide'"),
        ("1 2", f"must be {LIKE}, got '1 2'"),
        ("1 1 1/2", f"must be {LIKE}, got '1 1 1/2'"),
        ("1/2/3", f"must be {LIKE}, got '1/2/3'"),
        ("4.5 1/2", f"must be {LIKE}, got '4.5 1/2'"),
        ("1,5", f"must be {LIKE}, got '1,5'"),
        ("nan", f"must be {LIKE}, got 'nan'"),
        ("inf", f"must be {LIKE}, got 'inf'"),
        ("1e9999999", f"must be {LIKE}, got '1e9999999'"),
        ("٣", f"must be {LIKE}, got '٣'"),
        ("1234567890", f"must be {LIKE}, got '1234567890'"),
        ("9" * 70, f"must be {LIKE}, got '{'9' * 40}...'"),
        (10**9, f"must be {LIKE}, got a number of more than 9 digits"),
        pytest.param(10**5000, f"must be {LIKE}, got a number of more than 9 digits", id="huge"),
        (True, f"must be {LIKE}, got true"),
        ("1/0", "must not divide by zero, got '1/0'"),
        ("2 1/0 in", "must not divide by zero, got '2 1/0 in'"),
        ("5 ft", "must be in cm, in, m, mm or yd, got unit 'ft' in '5 ft'"),
    ],
)
def test_what_is_no_length(written: str | int, message: str) -> None:
    """What cannot be read says what a length looks like, and what was written."""
    with pytest.raises(ValueError, match="must") as caught:
        read_length(written, IN)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("step", "inches", "text"),
    [
        (8, Fraction(17, 4), "4 1/4 in"),
        (8, Fraction(1, 8), "1/8 in"),
        (8, Fraction(3), "3 in"),
        (8, Fraction(0), "0 in"),
        (8, Fraction(67, 16), "~4 1/4 in"),
        (16, Fraction(67, 16), "4 3/16 in"),
        (16, Fraction(133, 32), "~4 3/16 in"),
        (32, Fraction(133, 32), "4 5/32 in"),
        (32, Fraction(1, 3), "~11/32 in"),
        (8, Fraction(-9, 4), "-2 1/4 in"),
    ],
)
def test_ruler_in_inches(step: int, inches: Fraction, text: str) -> None:
    """Inches print to the nearest mark, as a mixed fraction, with `~` where that rounds."""
    assert Ruler(IN, INCH / step).text(inches * INCH) == text


@pytest.mark.parametrize(
    ("inches", "square"),
    [(4, "5 5/8"), (6, "8 1/2"), (8, "11 3/8"), (10, "14 1/8"), (12, "17"), (14, "19 3/4")],
)
def test_diagonals_to_the_nearest_eighth(inches: int, square: str) -> None:
    """Diagonals of squares to the nearest 1/8 in. 8 in: 11.31 is nearer to 11 3/8 than to 11 1/4.

    Source: quilter's math charts (2002).
    """
    diagonal = Fraction(inches * 2**0.5) * INCH
    assert Ruler(IN, INCH / 8).text(diagonal) == f"~{square} in"


@pytest.mark.parametrize(
    ("unit", "step", "mm", "text"),
    [
        (MM, 1, Fraction(108), "108 mm"),
        (MM, 1, INCH * 4, "~102 mm"),
        (MM, Fraction(1, 2), Fraction(215, 2), "107.5 mm"),
        (CM, 1, Fraction(108), "10.8 cm"),
        (CM, 1, INCH * 4, "~10.2 cm"),
        (CM, Fraction(1, 2), Fraction(215, 2), "10.75 cm"),
    ],
)
def test_ruler_in_metric(unit: Unit, step: Fraction, mm: Fraction, text: str) -> None:
    """Millimetres and centimetres print as decimals, with `~` where that rounds."""
    assert Ruler(unit, Fraction(step)).text(mm) == text


def test_ruler_says_both_systems() -> None:
    """Beside a length stands the same in the other system, in inches to 1/16."""
    assert Ruler(IN, INCH / 8).both(INCH * Fraction(17, 4)) == "4 1/4 in (108 mm)"
    assert Ruler(MM, Fraction(1)).both(Fraction(100)) == "100 mm (~3 15/16 in)"


def test_ruler_knows_its_marks() -> None:
    """A length is on the ruler exactly or not at all."""
    ruler = Ruler(IN, INCH / 8)
    assert ruler.on_step(INCH * Fraction(5, 8))
    assert not ruler.on_step(INCH * Fraction(5, 16))


@given(lengths(Fraction(0)), st.sampled_from([8, 16, 32]))
def test_what_the_ruler_prints_reads_back(mm: Fraction, parts: int) -> None:
    """A printed length reads back as the nearest mark, half a step away at most."""
    step = INCH / parts
    text = Ruler(IN, step).text(mm)
    back = read_length(text.removeprefix("~"), MM)
    assert back == nearest(mm, step)
    assert abs(back - mm) <= step / 2
    assert text.startswith("~") == (back != mm)


@given(lengths(Fraction(0), Fraction(3000), Fraction(1, 100)), st.sampled_from([MM, CM]))
def test_metric_prints_read_back(mm: Fraction, unit: Unit) -> None:
    """Printed millimetres and centimetres read back as the nearest millimetre."""
    text = Ruler(unit, Fraction(1)).text(mm)
    assert read_length(text.removeprefix("~"), IN) == nearest(mm, Fraction(1))


@given(lengths(Fraction(0), step=INCH / 64), UNITS)
def test_messages_are_exact_or_say_so(mm: Fraction, unit: Unit) -> None:
    """A length in a message reads back exactly, or is marked and off by half a digit at most."""
    text = exact_text(mm, unit)
    back = read_length(text.removeprefix("~"), unit)
    assert (back == mm) == (not text.startswith("~"))
    assert abs(back - mm) <= unit.mm / 20000


def test_nearest_goes_up_from_the_middle() -> None:
    """Half a step is rounded up, as is usual at a table."""
    assert nearest(Fraction(5, 2), Fraction(1)) == 3
    assert nearest(Fraction(-5, 2), Fraction(1)) == -2
    assert nearest(Fraction(249, 100), Fraction(1)) == 2


def test_numbers_as_text() -> None:
    """Mixed fractions and decimals, with signs, without trailing zeros and without -0."""
    assert mixed(Fraction(-9, 4)) == "-2 1/4"
    assert mixed(Fraction(1, 3)) == "1/3"
    assert decimals(Fraction(5, 2), 0) == "3"
    assert decimals(Fraction(-1, 1000), 2) == "0"
    assert decimals(Fraction(120), 3) == "120"
    assert in_unit(INCH * Fraction(5, 4), IN) == "1 1/4"
    assert in_unit(INCH, CM) == "2.54"
    assert millimetres(INCH * Fraction(17, 4)) == "108 mm"
    assert millimetres(INCH * Fraction(17, 8)) == "54 mm"
    assert millimetres(INCH) == "25.4 mm"
