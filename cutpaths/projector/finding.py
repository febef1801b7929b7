"""What is wrong with a rig, before file and line of its key are known."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.errors import Finding
from cutpaths.lengths import INCH, Unit, exact_text, nearest


def finding(key: str, problem: str, hint: str = "") -> Finding:
    """A finding about a key of the rig file."""
    return Finding(key=key, problem=problem, hint=hint)


def about(mm: float, unit: Unit) -> str:
    """A length that is not known better: to the sixteenth of an inch, else to the mm.

    >>> about(1235.2, Unit.MILLIMETRE), about(1235.2, Unit.INCH)
    ('1235 mm', '48 5/8 in')
    """
    step = INCH / 16 if unit is Unit.INCH else Fraction(1)
    return exact_text(nearest(Fraction(mm), step), unit)
