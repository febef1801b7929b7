"""The shopping list: what is used of a fabric, what to buy, what it costs; mm, exact."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.stock import before_washing, lost_first
from cutpaths.geometry.layouts.triangles import rounded_up
from cutpaths.lengths import YARD, Ruler, decimals, mixed
from cutpaths.project.stock import Sold, Stock
from cutpaths.values import Value

WHOLE = "all of it is used"


class Shopping(Value, kw_only=True):
    """One line of the shopping list; parts are 0 to 1.

    Attributes:
        used: length that is cut into, or quarters or pack pieces, of what is bought.
        to_buy: length, after rounding up, or quarters or packs.
        bound: below which `used` cannot come.
        gap: how far `used` lies above the bound, as a part of it.
        waste: the part of all cloth used, on hand too, that is in no piece.
        cost: None where the price is not known.
        width: usable width to look for, before any washing.
    """

    used: Fraction
    to_buy: Fraction
    bound: Fraction
    gap: Fraction
    waste: Fraction
    cost: Fraction | None
    width: Fraction


def shopping(plan: FabricPlan) -> Shopping:
    """What to buy for a plan."""
    stock, used = plan.stock, used_of(plan)
    buy = to_buy(stock, used)
    unit = stock.per if stock.sold is Sold.LENGTH else Fraction(1)
    return Shopping(
        used=used,
        to_buy=buy,
        bound=plan.bound,
        gap=(used - plan.bound) / plan.bound if plan.bound else Fraction(0),
        waste=_waste(plan),
        cost=None if stock.price is None else stock.price * buy / unit,
        width=before_washing(stock.width, lost_first(stock)[1]),
    )


def used_of(plan: FabricPlan) -> Fraction:
    """Length that is cut into, or quarters or pack pieces, of what is bought."""
    if plan.stock.sold is not Sold.LENGTH:
        return Fraction(len(plan.bought))
    return sum((sheet.used for sheet in plan.bought), Fraction(0))


def to_buy(stock: Stock, used: Fraction) -> Fraction:
    """Length, quarters or packs to buy for what is used: washed off, then rounded up."""
    match stock.sold:
        case Sold.LENGTH:
            return rounded_up(before_washing(used, lost_first(stock)[0]), stock.step)
        case Sold.QUARTERS:
            return used
        case Sold.PACK:
            return rounded_up(used / stock.count, Fraction(1))


def bought_words(stock: Stock, to_buy: Fraction) -> str:
    """What to ask for in a shop: yards in eighths, metres, quarters or packs."""
    match stock.sold:
        case Sold.LENGTH if stock.per == YARD:
            return f"{mixed(to_buy / YARD)} yd"
        case Sold.LENGTH:
            return f"{decimals(to_buy / 1000, 3)} m"
        case Sold.QUARTERS:
            return counted(to_buy, "fat quarter")
        case Sold.PACK:
            return counted(to_buy, "pack")


def counted(number: Fraction, what: str) -> str:
    """A number of things, with an s where it is not 1."""
    return f"{number} {what}{'' if number == 1 else 's'}"


def length_words(plan: FabricPlan, ruler: Ruler) -> str:
    """What the length bought is and how much of it is used: `1/2 yd; 17 in of it is used`."""
    stock, used = plan.stock, used_of(plan)
    length = to_buy(stock, used)
    shrinks = lost_first(stock)[0]
    washed = ", washed" if shrinks else ""
    part = WHOLE if used == length * (1 - shrinks) else f"{ruler.text(used)} of it is used"
    return f"{bought_words(stock, length)}{washed}; {part}"


def _waste(plan: FabricPlan) -> Fraction:
    whole = sum((sheet.width * sheet.used for sheet in plan.sheets), Fraction(0))
    pieces = sum((need.area for need in plan.needs), Fraction(0))
    return 1 - pieces / whole if whole else Fraction(0)
