"""How a cloth is bought and what is lost of it, as checked, frozen values; lengths in mm, exact.

Width runs from selvage to selvage, length along the selvage.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction

from cutpaths.lengths import INCH, YARD, Unit
from cutpaths.values import Value

Size = tuple[Fraction, Fraction]

FLANNEL_PLIES = 4


class Sold(StrEnum):
    """What a shop sells of it."""

    LENGTH = "length"
    QUARTERS = "quarters"
    PACK = "pack"


class Washed(StrEnum):
    """When it is first washed."""

    BEFORE = "before"  # it is cut
    AFTER = "after"  # the blanket is sewn


class Run(StrEnum):
    """How a piece lies on the cloth: its up along the selvage, across it, or either way."""

    LENGTHWISE = "lengthwise"
    CROSSWISE = "crosswise"
    EITHER = "either"


class OnHand(Value, kw_only=True):
    """Cloth that is there already; `size` is width and length, None for one unit as it is sold."""

    size: Size | None
    count: int


class Stock(Value, kw_only=True):
    """One fabric as it is bought.

    Attributes:
        width: usable width, after washing.
        sold: what is sold.
        step: step in which a length is sold.
        piece: width and length of a fat quarter or of one piece of a pack.
        count: pieces in a pack.
        prints: different prints in a pack.
        price: of a yard or metre (as `per`), of a quarter or a pack; None where it is not known.
        per: length that a price is for.
        shrinkage: parts of length and width that the first wash takes, 0 to under 1.
        washed: when that is.
        square_up: lost at each end of a length.
        strip_ends: lost at each end of a strip.
        grain: how pieces lie, by `top`, `backing`, `panels` or `patches`.
        flannel: whether it is flannel.
        plies: layers cut at once.
        bolt: length of a bolt.
        bolts: how many can be had; None for any number.
        on_hand: cloth that is there.
    """

    width: Fraction
    sold: Sold
    step: Fraction
    piece: Size
    count: int
    prints: int
    price: Fraction | None
    per: Fraction
    shrinkage: Size
    washed: Washed
    square_up: Fraction
    strip_ends: Fraction
    grain: Mapping[str, Run]
    flannel: bool
    plies: int
    bolt: Fraction
    bolts: int | None
    on_hand: tuple[OnHand, ...]


class Join(Value, kw_only=True):
    """How a backing is joined of panels.

    Attributes:
        seams: how many joining seams.
        down: whether they run from head to foot, else from left to right.
        at: seam lines, from the left or from the foot of the backing's raw edge; None to choose.
        allowance: of the joining seams.
    """

    seams: int
    down: bool
    at: tuple[Fraction, ...] | None
    allowance: Fraction


class Usual(Value, kw_only=True):
    """What holds where a file gives nothing; common practice, no source, but for the width."""

    width: Fraction  # St. Croix Quilters (guild): plan on 40 to 42 of 44/45 in
    step: Fraction
    quarter: Size
    per: Fraction
    square_up: Fraction
    strip_ends: Fraction
    bolt: Fraction
    join: Fraction


_USUAL_INCH = Usual(
    width=40 * INCH,
    step=YARD / 8,
    quarter=(21 * INCH, 18 * INCH),
    per=YARD,
    square_up=INCH,
    strip_ends=INCH / 2,
    bolt=15 * YARD,
    join=INCH / 2,
)
_USUAL_METRIC = Usual(
    width=Fraction(1000),
    step=Fraction(100),
    quarter=(Fraction(500), Fraction(500)),
    per=Fraction(1000),
    square_up=Fraction(25),
    strip_ends=Fraction(12),
    bolt=Fraction(15_000),
    join=Fraction(12),
)
PLIES = 6  # of cloth that is no flannel (common practice, no source)


def usual(unit: Unit) -> Usual:
    """What holds in a file of a unit where it gives nothing."""
    return _USUAL_INCH if unit is Unit.INCH else _USUAL_METRIC


def plain_stock(unit: Unit) -> Stock:
    """A fabric of which a file says nothing."""
    known = usual(unit)
    return Stock(
        width=known.width,
        sold=Sold.LENGTH,
        step=known.step,
        piece=known.quarter,
        count=1,
        prints=1,
        price=None,
        per=known.per,
        shrinkage=(Fraction(0), Fraction(0)),
        washed=Washed.AFTER,
        square_up=known.square_up,
        strip_ends=known.strip_ends,
        grain={},
        flannel=False,
        plies=PLIES,
        bolt=known.bolt,
        bolts=None,
        on_hand=(),
    )
