"""Plans that take nothing but the cloth on hand; mm, exact."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.cloth.by_hand import PLAIN, misfits
from cutpaths.cloth.checked import checked
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import Need, needs_of
from cutpaths.cloth.plain_strips import plain_strips
from cutpaths.cloth.sheets_of import blanks_on_hand, sheets_of
from cutpaths.cloth.stock import stock_of
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric, Project

_NONE = Fraction(0)


class OnHandPlans:
    """Plans from cloth on hand alone, kept: the patches are the same for many borders."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, tuple[Need, ...]], FabricPlan | None] = {}

    def of(self, project: Project, fabric: Fabric, needs: tuple[Need, ...]) -> FabricPlan | None:
        """A sound plan; None where there is not cloth enough."""
        key = fabric.name, needs
        if key not in self._known:
            self._known[key] = _from_on_hand(project, fabric, needs)
        return self._known[key]


def is_enough(kit: Kit) -> bool:
    """Whether the cloth on hand makes all the pieces of a kit."""
    plans = OnHandPlans()
    wanted = ((fabric, needs_of(kit, fabric)) for fabric in kit.project.fabrics)
    return all(plans.of(kit.project, fabric, needs) for fabric, needs in wanted if needs)


def _from_on_hand(project: Project, fabric: Fabric, needs: tuple[Need, ...]) -> FabricPlan | None:
    if not _enough(project, fabric, needs) or any(misfits(project, fabric, needs)):
        return None
    stock = stock_of(project, fabric)
    sheets = tuple(sheets_of(stock, [need.item for need in needs], plain_strips, plain_strips))
    plan = FabricPlan(
        fabric=fabric, stock=stock, needs=needs, sheets=sheets, bound=_NONE, method=PLAIN
    )
    made = sum(1 for sheet in sheets for _ in sheet.placements())
    if plan.bought or made < sum(need.count for need in needs):
        return None
    return checked(plan)


def _enough(project: Project, fabric: Fabric, needs: Sequence[Need]) -> bool:
    """Whether there is as much cloth as the pieces cover."""
    inner = [blank.inner for blank in blanks_on_hand(stock_of(project, fabric))]
    return sum(need.area for need in needs) <= sum(w * h for w, h in inner if w > 0 and h > 0)
