"""The plan that is printed: the same wherever and whenever it is made.

The search ends by its tries alone, as many as `cutpaths cloth` has unasked, so that a booklet buys
and cuts what the command says. No clock, no chance and no package beyond the usual ones plays a
part.
"""

from __future__ import annotations

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.joining import with_panels
from cutpaths.cloth.notes import cloth_notes
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.searched_strips import Search
from cutpaths.pieces import Kit
from cutpaths.values import Value

STEADY = Effort(seconds=None, tries=4000)


class SteadyPlan(Value):
    """How a kit is cut by hand.

    Attributes:
        kit: the kit, its backing joined where its cloth is too narrow.
        plans: one for each fabric that it takes, in the order of the project.
        notes: what a person should know of them.
    """

    kit: Kit
    plans: tuple[FabricPlan, ...]
    notes: tuple[str, ...]


def steady_plan(kit: Kit) -> SteadyPlan:
    """A plan for all fabrics of a kit.

    Raises:
        InputError: a piece fits no cloth that there is; each is named, with what would do.
    """
    search = Search(STEADY)
    joined, advice = with_panels(kit, search)
    plans = plans_of(joined, search)
    return SteadyPlan(joined, plans, (*cloth_notes(plans, kit.project.ruler), *advice))
