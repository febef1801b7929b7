"""Judges a cutting plan by its places alone, before anyone sees it; mm, exact.

It knows nothing of how plans are made: it reads where the pieces lie, and their needs.
"""

from __future__ import annotations

from bisect import bisect_right, insort
from collections import Counter
from collections.abc import Iterator, Sequence

from cutpaths.cloth.cutting import FabricPlan, Sheet
from cutpaths.cloth.needs import Need
from cutpaths.cloth.packing.items import Placement
from cutpaths.errors import CutpathsError


class PlanError(CutpathsError):
    """A cutting plan does not hold what it must; the text names every fault."""


def checked(plan: FabricPlan) -> FabricPlan:
    """The plan itself, once it is found sound.

    Raises:
        PlanError: a piece is missing, too small, outside the cloth or over another one.
    """
    require(tuple(faults(plan)), plan.fabric.label)
    return plan


def require(found: Sequence[str], label: str) -> None:
    """Stops where something is wrong with the plan of a fabric.

    Raises:
        PlanError: names every fault, one line each.
    """
    if found:
        raise PlanError("\n".join(f"the cutting plan of {label}: {fault}" for fault in found))


def faults(plan: FabricPlan) -> Iterator[str]:
    """Everything that is wrong with a plan."""
    count: Counter[int] = Counter()
    for sheet in plan.sheets:
        placed = tuple(sheet.placements())
        count.update(place.item for place in placed)
        yield from _sheet_faults(sheet, placed, plan.needs)
    for index, need in enumerate(plan.needs):
        if count[index] != need.count:
            yield f"{need.keys[0]} is cut {count[index]} times, not {need.count}"


def _sheet_faults(
    sheet: Sheet, placed: Sequence[Placement], needs: Sequence[Need]
) -> Iterator[str]:
    for place in placed:
        key = needs[place.item].keys[0]
        item = needs[place.item].item
        lying = (item.height, item.width) if place.turned else (item.width, item.height)
        if (place.width, place.height) != lying or (place.turned and not item.turn):
            yield f"{key} on {sheet.name} is not of its size, or lies the wrong way"
        if not _inside(sheet, place):
            yield f"{key} on {sheet.name} lies outside the cloth"
    for one, other in overlaps(placed):
        names = needs[one.item].keys[0], needs[other.item].keys[0]
        yield f"{names[0]} and {names[1]} on {sheet.name} lie over each other"


def _inside(sheet: Sheet, place: Placement) -> bool:
    right, head = sheet.width - sheet.strip_ends, sheet.length - sheet.square_up
    across = sheet.strip_ends <= place.x and place.x + place.width <= right
    return across and sheet.square_up <= place.y and place.y + place.height <= head


def overlaps(placed: Sequence[Placement]) -> Iterator[tuple[Placement, Placement]]:
    """Pairs of pieces that lie over each other: a line swept along the cloth.

    Where pieces on the line do not overlap they are in order across it, so a piece that comes in
    can only meet its neighbours.
    """
    events = sorted(
        [(p.y + p.height, 0, n) for n, p in enumerate(placed)]
        + [(p.y, 1, n) for n, p in enumerate(placed)]
    )
    line: list[tuple[object, int]] = []
    for _, enters, n in events:
        mark = (placed[n].x, n)
        if not enters:
            line.remove(mark)
            continue
        k = bisect_right(line, mark)
        for _, other in line[max(0, k - 1) : k + 1]:
            one = placed[other]
            if one.x < placed[n].x + placed[n].width and placed[n].x < one.x + one.width:
                yield one, placed[n]
        insort(line, mark)
