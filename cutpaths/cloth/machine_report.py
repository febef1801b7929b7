"""The machine's plans as lines for people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.by_machine import MachinePlan
from cutpaths.cloth.lengths_to_buy import to_buy
from cutpaths.cloth.notes import percent
from cutpaths.cloth.report import bought_words
from cutpaths.geometry.polygons import signed_area
from cutpaths.pieces import Kit
from cutpaths.project.stock import Sold

CAUTION = (
    "Never leave a cutting machine running unattended, and keep hands and children away from its "
    "blade or beam. Local rules and qualified people come first."
)


def machine_lines(kit: Kit, plans: Sequence[MachinePlan]) -> Iterator[str]:
    """Length used and to buy, waste and bound of each fabric."""
    ruler = kit.project.ruler
    yield f"{kit.project.title}: the cloth lies wrong side up, patches are turned over to match"
    for plan in plans:
        gap = (plan.used - plan.bound) / plan.bound
        yield ""
        yield (
            f"{plan.fabric.label}, usable width {ruler.text(plan.stock.width)}, "
            f"{_pieces(len(plan.laid))} {ruler.text(plan.spacing)} apart"
        )
        yield f"  {'used':<12}  {ruler.both(plan.used)}"
        if plan.stock.sold is Sold.LENGTH:
            yield f"  {'to buy':<12}  {bought_words(plan.stock, to_buy(plan.stock, plan.used))}"
        yield f"  {'waste':<12}  {percent(waste(plan))}"
        yield f"  {'at least':<12}  {ruler.both(plan.bound)} (proven; used is {percent(gap)} above)"
    yield ""
    yield CAUTION


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"


def waste(plan: MachinePlan) -> Fraction:
    """The part of the cloth used that is in no piece."""
    pieces = sum(signed_area(laid.piece.outline) for laid in plan.laid)
    return 1 - Fraction(pieces) / (plan.used * plan.stock.width)
