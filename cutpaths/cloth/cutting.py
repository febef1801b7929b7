"""A plan for cutting by hand: lengths of cloth, each cut into strips, those crosscut; mm, exact.

A sheet is one length of cloth. It is squared up at both ends, then strips are cut across it from
the cut end up; each strip's ends are squared, and it is crosscut from the left.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction

from cutpaths.cloth.needs import Need
from cutpaths.cloth.packing.cuts import Node, placements
from cutpaths.cloth.packing.items import Placement
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Stock
from cutpaths.values import Value


class Source(StrEnum):
    """Where a sheet comes from."""

    ON_HAND = "on hand"
    BOUGHT = "bought"


class Sheet(Value, kw_only=True):
    """One length, quarter or pack piece with the strips cut from it.

    Attributes:
        source: where it comes from.
        name: what it is called in the plan, `length 1`.
        width, length: of the cloth as it lies, washed where it is washed first.
        square_up: lost at each end of it.
        strip_ends: lost at each end of a strip.
        strips: from the cut end up.
    """

    source: Source
    name: str
    width: Fraction
    length: Fraction
    square_up: Fraction
    strip_ends: Fraction
    strips: tuple[Node, ...]

    @property
    def used(self) -> Fraction:
        """Length that is cut into, squaring up at both ends with it."""
        return sum((Fraction(strip.height) for strip in self.strips), 2 * self.square_up)

    def placements(self) -> Iterator[Placement]:
        """Where the pieces lie, from the sheet's own lower left corner."""
        y = self.square_up
        for strip in self.strips:
            yield from placements(strip, self.strip_ends, y)
            y += Fraction(strip.height)


class FabricPlan(Value, kw_only=True):
    """How one fabric is cut, and what of it is bought.

    Attributes:
        fabric, stock: which one, and how it is sold.
        needs: what is cut of it; placements name them by their index.
        sheets: the cloth, what is on hand first.
        bound: length of cloth, or number of quarters or pack pieces, below which no plan can come.
        method: how the plan was made.
    """

    fabric: Fabric
    stock: Stock
    needs: tuple[Need, ...]
    sheets: tuple[Sheet, ...]
    bound: Fraction
    method: str

    @property
    def bought(self) -> tuple[Sheet, ...]:
        """The sheets that have to be bought."""
        return tuple(each for each in self.sheets if each.source is Source.BOUGHT)
