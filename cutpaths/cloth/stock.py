"""What a project says of its cloth, and what of it can be cut; mm, exact."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.project.model import Fabric, Project
from cutpaths.project.stock import Run, Stock, Washed, plain_stock

_PLAIN = (Fraction(0), Fraction(0))


def stock_of(project: Project, fabric: Fabric) -> Stock:
    """The fabric's stock, or the usual one where the project does not say."""
    return fabric.stock or plain_stock(project.ruler.unit)


def strip_width(stock: Stock) -> Fraction:
    """What a strip across the usable width leaves once its ends are squared."""
    return stock.width - 2 * stock.strip_ends


def before_washing(needed: Fraction, shrinkage: Fraction) -> Fraction:
    """Cloth to have before a wash that takes a part of it.

    The part is 100 (after - before) / before percent, with its sign turned (ISO 5077:2007).

    >>> before_washing(Fraction(32), Fraction(3, 35))
    Fraction(35, 1)
    """
    return needed / (1 - shrinkage)


def lost_first(stock: Stock) -> tuple[Fraction, Fraction]:
    """Parts of length and width that are gone before pieces are cut."""
    return stock.shrinkage if stock.washed is Washed.BEFORE else _PLAIN


def lost_later(stock: Stock) -> tuple[Fraction, Fraction]:
    """Parts of length and width that the first wash of the sewn blanket takes."""
    return stock.shrinkage if stock.washed is Washed.AFTER else _PLAIN


def run_of(stock: Stock, part: str, *, directional: bool) -> Run:
    """How pieces of a part of the blanket lie; a print with an up stands along the selvage."""
    return stock.grain.get(part, Run.LENGTHWISE if directional else Run.EITHER)
