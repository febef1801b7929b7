"""What a person should know about the cloth of a project, one sentence each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import BACKING, FILLING, PANELS
from cutpaths.cloth.stock import lost_later
from cutpaths.lengths import Ruler, decimals
from cutpaths.project.stock import Sold, Washed

# Common practice, no source: a top and a backing that shrink further apart pucker.
APART_MOST = Fraction(2, 100)


def cloth_notes(plans: Sequence[FabricPlan], ruler: Ruler) -> tuple[str, ...]:
    """Notes on washing and on packs."""
    return (*_washing_notes(plans), *_pack_notes(plans, ruler))


def _washing_notes(plans: Sequence[FabricPlan]) -> Iterator[str]:
    backing = next((p for p in plans if _is_backing(p)), None)
    if backing is None:
        return
    later = lost_later(backing.stock)
    for plan in plans:
        if all(need.part in (BACKING, PANELS) for need in plan.needs):
            continue
        apart = max(abs(a - b) for a, b in zip(lost_later(plan.stock), later, strict=True))
        if apart > APART_MOST:
            layer = FILLING if all(need.part == FILLING for need in plan.needs) else "top"
            yield (
                f"{plan.fabric.label} of the {layer} and {backing.fabric.label} of the backing "
                f"come out {percent(apart)} apart after the first wash: the blanket will pucker. "
                "Wash both before cutting, or choose cloths that shrink alike."
            )


def _is_backing(plan: FabricPlan) -> bool:
    return any(need.part in (BACKING, PANELS) for need in plan.needs)


def _pack_notes(plans: Sequence[FabricPlan], ruler: Ruler) -> Iterator[str]:
    for plan in plans:
        stock = plan.stock
        if stock.sold is Sold.PACK and stock.prints > 1:
            yield (
                f"A pack of {plan.fabric.label} has {stock.prints} prints, about "
                f"{stock.count // stock.prints} pieces of each."
            )
        if stock.washed is Washed.BEFORE and any(stock.shrinkage):
            yield (
                f"Wash {plan.fabric.label} before cutting: it loses {percent(stock.shrinkage[0])} "
                f"of its length and {percent(stock.shrinkage[1])} of its width. The usable width "
                f"of {ruler.text(stock.width)} is after washing."
            )


def percent(part: Fraction) -> str:
    """A part as percent with two decimals at most: `8.57 %`."""
    return f"{decimals(part * 100, 2)} %"
