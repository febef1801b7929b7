"""Cuts from edge to edge, as a person makes them with ruler and rotary cutter."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.cloth.packing.bounds import least_height
from cutpaths.cloth.packing.effort import Clock, Effort, Watch, unwatched
from cutpaths.cloth.packing.filling import Filling, plan_of
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.levels import levels_filling
from cutpaths.cloth.packing.order import Order
from cutpaths.cloth.packing.plan import CutPlan, Method, with_cuts
from cutpaths.cloth.packing.search import Search
from cutpaths.cloth.packing.sheet import sheet_of
from cutpaths.cloth.packing.slicing import Cutting, slicing_filling

FLIPS = 0.3  # share of a search's moves that flip a rank
METHODS = {Cutting.STRIPS: Method.STRIPS, Cutting.EDGE_TO_EDGE: Method.EDGE_TO_EDGE}


def pack_guillotine(
    items: Sequence[Item],
    width: Length,
    *,
    cutting: Cutting = Cutting.STRIPS,
    effort: Effort = Effort(),  # noqa: B008 (frozen)
    watch: Watch = unwatched,
) -> CutPlan:
    """A plan as short as a search finds, with the tree of cuts that sets its pieces free.

    Args:
        items: what to cut.
        width: of the strip.
        cutting: how the cuts may follow on one another.
        effort: how much work to do.
        watch: hears of the progress and may stop the search; the best plan so far is kept.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.
    """
    sheet = sheet_of(items, width)
    levels = levels_filling(sheet)
    clock = Clock(sheet, effort, watch, best=levels.height, least=least_height(sheet))

    def pack(order: Order, target: int) -> Filling:
        return slicing_filling(order, sheet.width, target, cutting)

    found = Search(sheet, pack, clock, seed=effort.seed, flips=FLIPS).best()
    if found is None:
        return with_cuts(plan_of(sheet, levels, Method.LEVELS))
    return with_cuts(plan_of(sheet, found, METHODS[cutting]))
