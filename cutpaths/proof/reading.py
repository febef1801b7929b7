"""What is measured on paper, and how many measurements become one line of the proof.

A fact that holds at many places is one line: the worst place is named. Measured values are float
millimetres, degrees and square millimetres; texts are as the project's ruler
shows them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction

from cutpaths.lengths import FINEST, INCH, Ruler, Unit, decimals, nearest
from cutpaths.proof.check import Check
from cutpaths.proof.tolerances import ANGLE_DEGREES, COUNT, PLACE_MM
from cutpaths.values import Value, replace


class Reading(Value, kw_only=True):
    """One value as expected and as found at one place.

    Attributes:
        at: the side, corner or piece.
        expected, found: the values.
        slack: how far they may be apart.
        text: a value as text with its unit.
        least: whether more than expected is as good.
    """

    at: str
    expected: float
    found: float
    slack: float
    text: Callable[[float], str]
    least: bool = False

    @property
    def off(self) -> float:
        """How far it is off, in slacks; infinite where that is no number."""
        gap = self.found - self.expected
        off = max(0.0, -gap) if self.least else abs(gap)
        return off / self.slack if math.isfinite(gap) else math.inf


class Measure(Value):
    """Makes readings whose texts are as one ruler shows them."""

    ruler: Ruler

    def length(self, at: str, expected: float, found: float, *, least: bool = False) -> Reading:
        """A length in mm."""
        return Reading(
            at=at,
            expected=expected,
            found=found,
            slack=PLACE_MM,
            text=self.length_text,
            least=least,
        )

    def card(self, at: str, expected: float, found: float, *, least: bool = False) -> Reading:
        """A size of a template's card, which no sewing ruler measures, in mm."""
        reading = self.length(at, expected, found, least=least)
        return replace(reading, text=_card_text)

    def apart(self, at: str, found: float) -> Reading:
        """How far two things are apart that must meet, in mm."""
        return Reading(at=at, expected=0.0, found=found, slack=PLACE_MM, text=self.apart_text)

    def area(self, at: str, expected: float, found: float, slack: float) -> Reading:
        """An area in mm²."""
        return Reading(at=at, expected=expected, found=found, slack=slack, text=self.area_text)

    def length_text(self, mm: float) -> str:
        """A length on the ruler; where that rounds, in decimals beside it."""
        if not math.isfinite(mm):
            return "no length"
        length, unit = _without_noise(Fraction(mm)), self.ruler.unit
        mark = nearest(length, self.ruler.step)
        said, shown = (decimals(each / unit.mm, 4) for each in (length, mark))
        if said == shown:
            return self.ruler.text(mark)
        # Less than half a step is no mark of the ruler at all.
        exactly = f"{said} {unit.value}"
        return f"{self.ruler.text(length)} ({exactly})" if mark else exactly

    def apart_text(self, mm: float) -> str:
        """A distance between two things."""
        if abs(mm) <= PLACE_MM:
            return "0 mm apart"
        return f"{mm:.3g} mm apart"

    def area_text(self, mm2: float) -> str:
        """An area; metric projects read square centimetres."""
        if not math.isfinite(mm2):
            return "no area"
        inches = self.ruler.unit is Unit.INCH
        side, name = (INCH, "sq in") if inches else (Fraction(10), "sq cm")
        return f"{decimals(Fraction(mm2) / side**2, 4)} {name}"


def angle(at: str, expected: float, found: float) -> Reading:
    """An angle in degrees."""
    return Reading(at=at, expected=expected, found=found, slack=ANGLE_DEGREES, text=_angle_text)


def count(at: str, expected: int, found: int, what: str) -> Reading:
    """A number of things; `what` is their name in the singular."""
    return Reading(
        at=at, expected=expected, found=found, slack=COUNT, text=lambda n: _count_text(n, what)
    )


def _without_noise(length: Fraction) -> Fraction:
    """A length without the rounding of floats, where the finest ruler has a mark for it."""
    mark = nearest(length, INCH / FINEST)
    return mark if abs(length - mark) <= PLACE_MM else length


def _card_text(mm: float) -> str:
    return f"{decimals(Fraction(mm), 4)} mm" if math.isfinite(mm) else "no length"


def _count_text(number: float, what: str) -> str:
    return f"{number:.0f} {what}" if number == 1 else f"{number:.0f} {what}s"


def _angle_text(degrees: float) -> str:
    return f"{decimals(Fraction(degrees), 4)} degrees" if math.isfinite(degrees) else "no angle"


def judge(name: str, claim: str, readings: Iterable[Reading]) -> tuple[Check, ...]:
    """One line for all readings of one fact; none where there is no reading.

    It tells the worst reading where it fails, the first one where it holds, so that the same kit
    always reads the same.
    """
    taken = list(readings)
    if not taken:
        return ()
    worst = max(taken, key=lambda reading: reading.off)
    passed = worst.off <= 1
    told = taken[0] if passed else worst
    expected, found = told.text(told.expected), told.text(told.found)
    if not passed and expected == found:
        found = f"{found}, off by {abs(told.found - told.expected):.2g}"
    return (
        Check(
            name=name,
            at="" if passed and _all_alike(taken) else told.at,
            claim=claim,
            expected=f"at least {expected}" if told.least else expected,
            found=found,
            passed=passed,
        ),
    )


def _all_alike(readings: Sequence[Reading]) -> bool:
    """Whether all readings of the first one's sort expect the same."""
    first = readings[0]
    said = first.text(first.expected)
    return all(
        r.expected == first.expected or r.text(r.expected) == said
        for r in readings
        if r.text == first.text
    )


class Fault(Value):
    """Something that is wrong with a piece."""

    at: str
    text: str


def faultless(name: str, claim: str, faults: Sequence[Fault]) -> tuple[Check, ...]:
    """One line for what must have no fault at all; the first fault is told, the others counted."""
    found = "no fault"
    if faults:
        more = f", and {len(faults) - 1} more" if len(faults) > 1 else ""
        found = f"{faults[0].text}{more}"
    return (
        Check(
            name=name,
            at=faults[0].at if faults else "",
            claim=claim,
            expected="no fault",
            found=found,
            passed=not faults,
        ),
    )
