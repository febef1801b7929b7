"""Exact lengths: read as people write them, print as a ruler shows them.

A length is a `Fraction` of millimetres from the file to the edge of the geometry. The inch is
25.4 mm exactly (US Federal Register, "Refinement of Values for the Yard and the Pound", 1 July
1959: 1 yd = 0.9144 m). Nothing here rounds what a person wrote; only printing rounds, and marks it.
"""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction

from cutpaths.values import Value

INCH = Fraction(127, 5)
INCH_MM = float(INCH)
YARD = 36 * INCH
FINEST = 64  # parts of an inch on the finest ruler in use (common practice, no source)

_UNITS = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "yd": YARD,
    "yard": YARD,
    "yards": YARD,
}
# Signs as they would be typed: a fraction stands apart, so that `2½` is `2 1/2`.
_TYPED = str.maketrans(
    {
        "½": " 1/2 ",
        "⅓": " 1/3 ",
        "⅔": " 2/3 ",
        "¼": " 1/4 ",
        "¾": " 3/4 ",
        "⅛": " 1/8 ",
        "⅜": " 3/8 ",
        "⅝": " 5/8 ",
        "⅞": " 7/8 ",
        "⁄": "/",
        "″": '"',
    }
)
_LENGTH = re.compile(
    r"""(?P<sign>[+-]?)\s*
    (?: (?P<decimal>[0-9]{1,9}(?:\.[0-9]{0,9})?|\.[0-9]{1,9}) (?!\s*[/0-9])
      | (?:(?P<whole>[0-9]{1,9})(?:\s+|\s*-\s*))? (?P<over>[0-9]{1,9})\s*/\s*(?P<under>[0-9]{1,9})
    )
    \s*(?P<unit>[A-Za-z"]*)""",
    re.VERBOSE | re.ASCII,
)

EXAMPLES = '4 1/2, 4.5, "4 1/2 in", "57 mm" or "1 1/4 yd"'


class Unit(StrEnum):
    """The unit of a project file's bare numbers, and of what is shown first."""

    INCH = "in"
    MILLIMETRE = "mm"
    CENTIMETRE = "cm"

    @property
    def mm(self) -> Fraction:
        """Exact millimetres in one of this unit."""
        return _UNITS[self.value]


def read_length(written: str | int, unit: Unit) -> Fraction:
    """Reads one length as a person writes it; exact, in mm.

    A bare number takes `unit`. The sign is read, so that a caller can say what is wrong with it.

    Raises:
        ValueError: it is not a length; the text says what a length looks like.

    >>> read_length("4 1/2", Unit.INCH) / INCH
    Fraction(9, 2)
    >>> read_length('2¼"', Unit.MILLIMETRE)
    Fraction(1143, 20)
    """
    if isinstance(written, bool):
        raise ValueError(f"must be a length such as {EXAMPLES}, got {str(written).lower()}")
    text = str(written) if abs_is_short(written) else ""
    found = _LENGTH.fullmatch(text.translate(_TYPED).strip())
    if found is None:
        raise ValueError(f"must be a length such as {EXAMPLES}, got {shown(written)}")
    number = _number(found)
    if number is None:
        raise ValueError(f"must not divide by zero, got {shown(written)}")
    name = found["unit"]
    if name and name.lower() not in _UNITS:
        known = "cm, in, m, mm or yd"
        raise ValueError(f"must be in {known}, got unit {name!r} in {shown(written)}")
    return number * (_UNITS[name.lower()] if name else unit.mm)


def unit_of(written: object, usual: Unit) -> Unit:
    """The unit that a length is written with; `usual` where it has none, or one of no ruler.

    >>> unit_of("57 mm", Unit.INCH), unit_of('4 1/2"', Unit.CENTIMETRE), unit_of(4, Unit.INCH)
    (<Unit.MILLIMETRE: 'mm'>, <Unit.INCH: 'in'>, <Unit.INCH: 'in'>)
    """
    found = re.search(r'[A-Za-z"″]+$', str(written).strip(), re.ASCII)
    size = _UNITS.get(found[0].translate(_TYPED).lower()) if found else None
    return next((unit for unit in Unit if unit.mm == size), usual)


def abs_is_short(written: str | int) -> bool:
    """Whether the value is short enough to be a length at all (printing a huge int is slow)."""
    if isinstance(written, str):
        return len(written) <= 60
    return abs(written) < 10**9


def shown(written: object) -> str:
    """The value as the person wrote it, cut short when it is long."""
    if isinstance(written, int) and not isinstance(written, bool) and not abs_is_short(written):
        return "a number of more than 9 digits"
    text = str(written).lower() if isinstance(written, bool) else str(written)
    return repr(text[:40] + "...") if len(text) > 43 else repr(text)


def _number(found: re.Match[str]) -> Fraction | None:
    """The number of a matched length, signed; None where it divides by zero."""
    sign = -1 if found["sign"] == "-" else 1
    if found["decimal"]:
        return sign * Fraction(found["decimal"].rstrip("."))
    over, under = int(found["over"]), int(found["under"])
    if under == 0:
        return None
    return sign * (int(found["whole"] or 0) + Fraction(over, under))


class Ruler(Value):
    """How lengths are printed: the unit shown first and the step of its marks (mm, exact)."""

    unit: Unit
    step: Fraction

    def on_step(self, mm: Fraction) -> bool:
        """Whether a length falls on a mark of the ruler, exactly."""
        return (mm / self.step).denominator == 1

    def text(self, mm: Fraction) -> str:
        """A length to the nearest mark, with `~` before it where that rounds.

        >>> Ruler(Unit.INCH, INCH / 8).text(INCH * Fraction(17, 4))
        '4 1/4 in'
        >>> Ruler(Unit.INCH, INCH / 8).text(Fraction(100))
        '~3 7/8 in'
        """
        near = nearest(mm, self.step)
        mark = "" if near == mm else "~"
        return f"{mark}{in_unit(near, self.unit)} {self.unit.value}"

    def both(self, mm: Fraction) -> str:
        """A length on the ruler and beside it in the other system: `4 1/4 in (108.0 mm)`."""
        other = "mm" if self.unit is Unit.INCH else "in"
        beside = millimetres(mm) if other == "mm" else _SIXTEENTHS.text(mm)
        return f"{self.text(mm)} ({beside})"


_SIXTEENTHS = Ruler(Unit.INCH, INCH / 16)


def as_fraction(mm: Fraction | float) -> Fraction:
    """A length as a fraction; a computed one to the 1e-6 mm that drawings hold.

    >>> as_fraction(25.400000000000002)
    Fraction(127, 5)
    """
    return mm if isinstance(mm, Fraction) else Fraction(f"{mm:.6f}")


def nearest(mm: Fraction, step: Fraction) -> Fraction:
    """The multiple of `step` nearest to a length; halves go up."""
    # Whole numbers: fractions take ten times as long, and tables have hundreds of sizes.
    part = mm.denominator * step.numerator
    return (2 * mm.numerator * step.denominator + part) // (2 * part) * step


def in_unit(mm: Fraction, unit: Unit) -> str:
    """A length as a plain number of `unit`: `4 1/4` inches, or decimals of mm and cm."""
    if unit is Unit.INCH:
        return mixed(mm / INCH)
    places = 1 if unit is Unit.MILLIMETRE else 2
    return decimals(mm / unit.mm, places)


def exact_text(mm: Fraction, unit: Unit) -> str:
    """A length for a message: exact where `unit` can say it, else with `~` and four figures.

    >>> exact_text(INCH / 8, Unit.INCH), exact_text(Fraction(57), Unit.INCH)
    ('1/8 in', '~2.2441 in')
    >>> exact_text(INCH, Unit.MILLIMETRE)
    '25.4 mm'
    """
    number = mm / unit.mm
    if unit is Unit.INCH and FINEST % number.denominator == 0:
        return f"{mixed(number)} {unit.value}"
    text = decimals(number, 4)
    mark = "" if Fraction(text) == number else "~"
    return f"{mark}{text} {unit.value}"


def mixed(number: Fraction) -> str:
    """A number as whole and fraction, `4 1/4`; exact, whatever its denominator.

    >>> mixed(Fraction(-9, 4)), mixed(Fraction(3)), mixed(Fraction(1, 8))
    ('-2 1/4', '3', '1/8')
    """
    sign = "-" if number < 0 else ""
    whole, rest = divmod(abs(number.numerator), number.denominator)
    if rest == 0:
        return f"{sign}{whole}"
    part = f"{rest}/{number.denominator}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def decimals(number: Fraction, places: int) -> str:
    """A number with a fixed count of decimals, rounded half up, trailing zeros dropped.

    >>> decimals(Fraction(1270, 10), 1), decimals(Fraction(2003, 20), 1)
    ('127', '100.2')
    """
    parts = number.denominator
    scaled = (2 * abs(number.numerator) * 10**places + parts) // (2 * parts)
    sign = "-" if number < 0 and scaled else ""
    whole, rest = divmod(scaled, 10**places)
    fraction = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{whole}.{fraction}" if fraction else f"{sign}{whole}"


def millimetres(mm: Fraction) -> str:
    """A length in millimetres with one decimal at most: `108 mm`, `107.9 mm`."""
    return f"{decimals(mm, 1)} mm"
