"""What pages are printed on: a paper by name, or a roll by its width. Exact mm.

A0 to A4 are those of ISO 216:2007; letter, legal and ledger those of CSS Paged Media Module Level 3
(W3C), page sizes. A sheet lies upright; a roll's pages are as long as they must be.
"""

from __future__ import annotations

from fractions import Fraction

from cutpaths.lengths import INCH, Unit, read_length, shown
from cutpaths.values import Value, replace

# Printers for homes leave 3 to 6.4 mm at an edge, some more at the foot (common practice, no
# source).
MARGIN = Fraction(8)
# A PDF page has at most 14,400 units of 1/72 in a side (ISO 32000-1, annex C, from memory), which
# is 5.08 m.
LONGEST = 200 * INCH
NARROWEST_ROLL, WIDEST_ROLL = Fraction(200), Fraction(2000)
WIDEST_MARGIN = Fraction(25)

_A = {
    "a0": (841, 1189),
    "a1": (594, 841),
    "a2": (420, 594),
    "a3": (297, 420),
    "a4": (210, 297),
}
_US = {"ledger": (11 * INCH, 17 * INCH), "legal": (INCH * 17 / 2, 14 * INCH)}
_LETTER = {"letter": (INCH * 17 / 2, 11 * INCH)}
SIZES: dict[str, tuple[Fraction, Fraction]] = {
    **{name: (Fraction(w), Fraction(h)) for name, (w, h) in _A.items()},
    **_US,
    **_LETTER,
}
NAMES = tuple(SIZES)


class Paper(Value, kw_only=True):
    """What pages are printed on.

    Attributes:
        name: as a person says it: `A4`, `letter`, `36 in roll`.
        width: of the sheet upright, or of the roll.
        height: of the sheet; of a roll the longest page.
        margin: what the printer leaves white at every edge.
        roll: whether a page may be shorter than `height`.
    """

    name: str
    width: Fraction
    height: Fraction
    margin: Fraction = MARGIN
    roll: bool = False

    def with_margin(self, text: str) -> Paper:
        """The paper on a printer with another white edge, written as a length with its unit.

        Raises:
            ValueError: it is not a length from nothing to an inch.

        >>> paper_named("a4").with_margin("5 mm").margin
        Fraction(5, 1)
        """
        margin = _length(text, "a margin such as 6 mm or 1/4 in")
        if not 0 <= margin <= WIDEST_MARGIN:
            raise ValueError(f"must be a margin from 0 to 25 mm, got {shown(text)}")
        return replace(self, margin=margin)


def paper_named(text: str) -> Paper:
    """A paper by its name, or a roll by its width with the unit.

    Raises:
        ValueError: it is neither; the text says what would be right.

    >>> paper_named("A4").name, paper_named("letter").name, paper_named("36 in").name
    ('A4', 'letter', '36 in roll')
    """
    name = text.strip().lower()
    if name in SIZES:
        width, height = SIZES[name]
        return Paper(name=name.upper() if name in _A else name, width=width, height=height)
    width = _length(text, f"{', '.join(NAMES)}, or the width of a roll such as 36 in or 610 mm")
    if not NARROWEST_ROLL <= width <= WIDEST_ROLL:
        raise ValueError(f"must be a roll from 200 mm to 2 m wide, got {shown(text)}")
    return Paper(name=f"{' '.join(text.split())} roll", width=width, height=LONGEST, roll=True)


def usual_paper(unit: Unit) -> Paper:
    """The paper of most printers where people measure in this unit."""
    return paper_named("letter" if unit is Unit.INCH else "a4")


def _length(text: str, wanted: str) -> Fraction:
    """A length that says its unit.

    Raises:
        ValueError: it does not.
    """
    end = text.strip()[-1:]
    if end.isalpha() or end in ('"', "″"):
        try:
            return read_length(text, Unit.MILLIMETRE)
        except ValueError:
            pass
    raise ValueError(f"must be {wanted}, got {shown(text)}")
