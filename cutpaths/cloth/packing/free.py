"""Free placement: any piece anywhere, as a machine cuts."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.cloth.packing.bounds import least_height
from cutpaths.cloth.packing.effort import Clock, Effort, Watch, unwatched
from cutpaths.cloth.packing.filling import Filling, plan_of
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.levels import levels_filling
from cutpaths.cloth.packing.order import Order
from cutpaths.cloth.packing.plan import Method, Plan
from cutpaths.cloth.packing.reach import snug_width
from cutpaths.cloth.packing.search import Search
from cutpaths.cloth.packing.sheet import sheet_of
from cutpaths.cloth.packing.skyline import skyline_filling


def pack_free(
    items: Sequence[Item],
    width: Length,
    *,
    spacing: Length = 0,
    effort: Effort = Effort(),  # noqa: B008 (frozen)
    watch: Watch = unwatched,
) -> Plan:
    """A plan as short as a search finds, pieces placed freely on a strip.

    Args:
        items: what to place.
        width: of the strip.
        spacing: least distance between pieces, across or along the strip; none to its edges.
        effort: how much work to do.
        watch: hears of the progress and may stop the search; the best plan so far is kept.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.
    """
    sheet = sheet_of(items, width, spacing)
    snug = snug_width(sheet)
    levels = levels_filling(sheet)
    clock = Clock(sheet, effort, watch, best=levels.height, least=least_height(sheet))

    def pack(order: Order, target: int) -> Filling:
        return skyline_filling(order, snug, target)

    found = Search(sheet, pack, clock, seed=effort.seed).best()
    if found is None:
        return plan_of(sheet, levels, Method.LEVELS)
    return plan_of(sheet, found, Method.FREE)
