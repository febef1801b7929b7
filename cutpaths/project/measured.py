"""The top as it was sewn: what was taped on it, and what is done about that; exact mm.

Everything is taped from raw edge to raw edge. Sides are A foot, B right, C head, D left; a diagonal
is named by the corners that it joins. Width and height are those through the middle.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction

from cutpaths.lengths import INCH
from cutpaths.project.roots import root
from cutpaths.values import Value

Pair = tuple[Fraction, Fraction]

SIDE_NAMES = ("A", "B", "C", "D")
DIAGONAL_NAMES = ("DA-BC", "AB-CD")

# Common practice, no source, all three: what a tape on soft cloth cannot tell, how much of an edge
# can be eased without a pucker, and how far measures of one top may be from agreeing.
TOLERANCE = INCH / 16
EASED_UNDER = Fraction(1, 100)
AGREE_WITHIN = Fraction(2, 100)


class Remedy(StrEnum):
    """What is done about a top that is not what was designed."""

    AS_DESIGNED = "as-designed"  # the backing is cut as designed, the top eased onto it
    EASE = "ease"  # the backing is cut to the top's average, the top eased onto it
    CUT_TO_FIT = "cut-to-fit"  # the backing gets the corners and sides of the top
    TRIM_TOP = "trim-top"  # the top is cut down to a true rectangle


class Difference(Value):
    """One taped length beside what it would be in a rectangle."""

    what: str
    taped: Fraction
    due: Fraction

    @property
    def amount(self) -> Fraction:
        """How much longer it is than due."""
        return self.taped - self.due

    @property
    def part(self) -> Fraction:
        """How far it is off, as a part of what is due."""
        return abs(self.amount) / self.due


class Measured(Value, kw_only=True):
    """The sewn top as taped, and what is done about it.

    Attributes:
        width, height: through the middle; None where only the edges were taped.
        sides: A, B, C, D; empty where only the middle was taped.
        diagonals: DA-BC and AB-CD; None for one that was not taped.
        remedy: what is done.
        asked: whether the person chose it.
        trimmed: raw size of the rectangle to which the top is trimmed, once it is known.
    """

    width: Fraction | None
    height: Fraction | None
    sides: tuple[Fraction, ...] = ()
    diagonals: tuple[Fraction | None, Fraction | None] = (None, None)
    remedy: Remedy = Remedy.EASE
    asked: bool = False
    trimmed: Pair | None = None

    @property
    def average(self) -> Pair:
        """The rectangle that an eased top has: through the middle, or between opposite sides.

        The middle is preferred, since edges stretch.
        """
        foot, right, head, left = self.sides or (Fraction(0),) * 4
        across, down = (foot + head) / 2, (right + left) / 2
        width = across if self.width is None else self.width
        height = down if self.height is None else self.height
        return width, height

    @property
    def raw(self) -> Pair | None:
        """Raw size of the rectangle that backing, dots and miters follow, where there is one.

        A top that is taken as designed has the design's.
        """
        match self.remedy:
            case Remedy.EASE:
                return self.average
            case Remedy.TRIM_TOP:
                return self.trimmed
        return None

    def against(self, size: Pair) -> Iterator[Difference]:
        """Each taped length beside that of a rectangle; sides, diagonals, then the middle."""
        width, height = size
        for i, taped in enumerate(self.sides):
            yield Difference(f"side {SIDE_NAMES[i]}", taped, size[i % 2])
        for name, diagonal in zip(DIAGONAL_NAMES, self.diagonals, strict=True):
            if diagonal is not None:
                yield Difference(f"diagonal {name}", diagonal, root(width**2 + height**2))
        for name, middle, due in (
            ("width", self.width, width),
            ("height", self.height, height),
        ):
            if middle is not None:
                yield Difference(f"the {name}", middle, due)

    def worst(self, size: Pair) -> Difference:
        """The taped length that is furthest off, by its part, from a rectangle's."""
        return max(self.against(size), key=lambda each: each.part)


def remedy_for(measured: Measured, designed: Pair, *, folded_over: bool) -> Remedy:
    """What is done where the person leaves the choice: the least that serves.

    The backing is cut to fit before the top is trimmed, which comes last; but a folded-over
    backing needs right angles.
    """
    if all(abs(each.amount) <= TOLERANCE for each in measured.against(designed)):
        return Remedy.AS_DESIGNED
    if measured.worst(measured.average).part < EASED_UNDER:
        return Remedy.EASE
    return Remedy.TRIM_TOP if folded_over else Remedy.CUT_TO_FIT
