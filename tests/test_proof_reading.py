"""How measured values become lines of the proof."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.proof.reading import Fault, Measure, angle, count, faultless, judge

INCHES = Measure(Ruler(Unit.INCH, INCH / 8))
METRIC = Measure(Ruler(Unit.CENTIMETRE, Fraction(1)))


@pytest.mark.parametrize(
    ("measure", "mm", "text"),
    [
        (INCHES, 63.5, "2 1/2 in"),
        (INCHES, 63.5 + 1e-9, "2 1/2 in"),
        (INCHES, 63.6, "~2 1/2 in (2.5039 in)"),
        (INCHES, 3.0, "~1/8 in (0.1181 in)"),
        (INCHES, 0.5, "0.0197 in"),
        (INCHES, math.nan, "no length"),
        (METRIC, 63.0, "6.3 cm"),
        (METRIC, 63.5, "~6.4 cm (6.35 cm)"),
    ],
)
def test_lengths_as_text(measure: Measure, mm: float, text: str) -> None:
    """A length is the ruler's nearest mark, with decimals beside it only where that rounds."""
    assert measure.length_text(mm) == text


@pytest.mark.parametrize(("mm", "text"), [(3.0, "3 mm"), (2.98, "2.98 mm")])
def test_sizes_of_card_are_millimetres(mm: float, text: str) -> None:
    """What is cut out of card is read in mm, whatever the blanket's unit."""
    (check,) = judge("a-b", "It is.", [INCHES.card("A", 3.0, mm)])
    assert (check.expected, check.found, check.passed) == ("3 mm", text, mm == 3.0)


def test_areas_as_text() -> None:
    """Areas are square inches or square centimetres."""
    assert INCHES.area_text(645.16) == "1 sq in"
    assert METRIC.area_text(645.16) == "6.4516 sq cm"
    assert METRIC.area_text(math.inf) == "no area"


def test_judge_tells_the_worst_of_those_that_fail() -> None:
    """The reading that is most slacks off is told, with its place."""
    readings = [INCHES.length("A", 25.4, 25.4), INCHES.length("B", 25.4, 50.8)]
    (check,) = judge("a-b", "It is.", readings)
    assert (check.at, check.expected, check.found, check.passed) == ("B", "1 in", "2 in", False)


def test_judge_tells_no_place_where_all_are_alike() -> None:
    """A fact that holds everywhere alike has no place."""
    alike = [INCHES.length("A", 25.4, 25.4), INCHES.length("B", 25.4, 25.4)]
    unlike = [INCHES.length("A", 25.4, 25.4), INCHES.length("B", 50.8, 50.8)]
    assert judge("a-b", "It is.", alike)[0].at == ""
    assert judge("a-b", "It is.", unlike)[0].at == "A"


def test_judge_says_how_far_where_texts_are_the_same() -> None:
    """A difference that no ruler shows is said as such."""
    (check,) = judge("a-b", "It is.", [INCHES.length("A", 25.4, 25.4 + 2e-6)])
    assert (check.expected, check.found) == ("1 in", "1 in, off by 2e-06")


def test_no_number_fails() -> None:
    """What is no number holds nowhere."""
    for reading in (
        INCHES.length("A", 1, math.nan),
        INCHES.length("A", 1, math.inf, least=True),
        angle("AB", 90, math.nan),
    ):
        assert not judge("a-b", "It is.", [reading])[0].passed


def test_at_least() -> None:
    """More than the least is as good, less is not."""
    (more,) = judge("a-b", "It is.", [INCHES.length("A", 25.4, 50.8, least=True)])
    (less,) = judge("a-b", "It is.", [INCHES.length("A", 25.4, 12.7, least=True)])
    assert (more.expected, more.found, more.passed) == ("at least 1 in", "2 in", True)
    assert (less.expected, less.found, less.passed) == ("at least 1 in", "1/2 in", False)


def test_counts_are_exact() -> None:
    """One thing more or less is wrong."""
    assert judge("a-b", "It is.", [count("A", 1, 1, "tick")])[0].found == "1 tick"
    (check,) = judge("a-b", "It is.", [count("A", 3, 2, "tick")])
    assert (check.expected, check.found, check.passed) == ("3 ticks", "2 ticks", False)


def test_nothing_to_judge_is_no_line() -> None:
    """A fact without a reading is not claimed to hold."""
    assert judge("a-b", "It is.", []) == ()


def test_faults_are_counted() -> None:
    """The first fault is told, the others counted."""
    (check,) = faultless("a-b", "It is.", [Fault("A", "torn"), Fault("B", "wet")])
    assert (check.at, check.found, check.passed) == ("A", "torn, and 1 more", False)
    assert faultless("a-b", "It is.", [])[0].passed
