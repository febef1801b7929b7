"""Checks a plan before it is shown; shares no code with what makes plans.

Everything is compared exactly. A plan without faults places every piece once, as large as asked
for and turned only where that is allowed, inside the strip and clear of the others, and is as long
as it says; cuts, where it has some, run from edge to edge and set free what it places.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Way
from cutpaths.cloth.packing.items import Item, Length, Placement
from cutpaths.cloth.packing.plan import CutPlan, Plan
from cutpaths.cloth.packing.runs import PatternPlan

Place = tuple[int, Length, Length, Length, Length]  # item, x, y, width, height


def faults(items: Sequence[Item], plan: Plan, *, spacing: Length = 0) -> tuple[str, ...]:
    """Everything that is wrong with a plan; nothing if it may be shown."""
    return tuple(_faults(items, plan, spacing))


def pattern_faults(items: Sequence[Item], plan: PatternPlan) -> tuple[str, ...]:
    """Everything that is wrong with a plan of strips; nothing if it may be shown."""
    return tuple(_pattern_faults(items, plan))


def _faults(items: Sequence[Item], plan: Plan, spacing: Length) -> Iterator[str]:
    yield from _count_faults(items, Counter(placed.item for placed in plan.placements))
    for placed in plan.placements:
        yield from _piece_faults(items, placed)
        if not (0 <= placed.x <= plan.width - placed.width and placed.y >= 0):
            yield f"{_name(placed)} is outside the strip"
    top = max((placed.y + placed.height for placed in plan.placements), default=0)
    if top != plan.height:
        yield f"the plan takes {top} of cloth, not {plan.height}"
    yield from _overlaps(plan.placements, spacing)
    if isinstance(plan, CutPlan):
        yield from _cut_faults(plan)


def _pattern_faults(items: Sequence[Item], plan: PatternPlan) -> Iterator[str]:
    made = Counter[int]()
    for run in plan.runs:
        yield from _size_faults(run.strip)
        if run.times < 1:
            yield f"a strip is cut {run.times} times"
        if run.strip.width != plan.width:
            yield f"a strip is {run.strip.width} wide, the cloth {plan.width}"
        for item, _, _, width, height in _freed(run.strip, 0, 0):
            made[item] += run.times
            if (width, height) not in _sizes(items, item):
                yield f"item {item} is cut {width} x {height}"
    yield from _count_faults(items, made)
    length = sum(run.times * run.strip.height for run in plan.runs)
    if length != plan.height:
        yield f"the strips take {length} of cloth, not {plan.height}"
    if plan.bound > plan.height:
        yield f"the plan takes {plan.height} of cloth, less than its bound {plan.bound}"


def _count_faults(items: Sequence[Item], made: Counter[int]) -> Iterator[str]:
    wanted = Counter({index: item.count for index, item in enumerate(items)})
    for index in sorted(wanted.keys() | made.keys()):
        if wanted[index] != made[index]:
            yield f"item {index} is there {made[index]} times, not {wanted[index]}"


def _piece_faults(items: Sequence[Item], placed: Placement) -> Iterator[str]:
    if not 0 <= placed.item < len(items):
        yield f"{_name(placed)} was not asked for"
        return
    item = items[placed.item]
    as_asked = (item.height, item.width) if placed.turned else (item.width, item.height)
    if (placed.width, placed.height) != as_asked:
        yield f"{_name(placed)} is {placed.width} x {placed.height}"
    if placed.turned and not item.turn:
        yield f"{_name(placed)} must not be turned"


def _overlaps(placements: Sequence[Placement], spacing: Length) -> Iterator[str]:
    """Pairs that are too close, found by a line that sweeps up the strip.

    The pieces that the line crosses are kept from left to right; one that begins can only be too
    close to its neighbours among them. One that is too close is named once and left out.
    """
    starts = [(placed.y, 1, k) for k, placed in enumerate(placements)]
    ends = [(placed.y + placed.height + spacing, 0, k) for k, placed in enumerate(placements)]
    crossed: list[tuple[Length, int]] = []
    for _, starting, k in sorted(starts + ends):
        placed = placements[k]
        at = bisect_left(crossed, (placed.x, k))
        if not starting:
            if crossed[at : at + 1] == [(placed.x, k)]:
                del crossed[at]
            continue
        for _, other in crossed[max(0, at - 1) : at + 1]:
            near = placements[other]
            if (
                near.x < placed.x + placed.width + spacing
                and placed.x < near.x + near.width + spacing
            ):
                yield f"{_name(placed)} is too close to {_name(near)}"
                break
        else:
            crossed.insert(at, (placed.x, k))


def _cut_faults(plan: CutPlan) -> Iterator[str]:
    yield from _size_faults(plan.cuts)
    if (plan.cuts.width, plan.cuts.height) != (plan.width, plan.height):
        yield f"the cuts are of {plan.cuts.width} x {plan.cuts.height} of cloth"
    placed = Counter((p.item, p.x, p.y, p.width, p.height) for p in plan.placements)
    freed = Counter(_freed(plan.cuts, 0, 0))
    for item, x, y, *_ in (placed - freed) + (freed - placed):
        yield f"cuts and places differ on item {item} at {x}, {y}"


def _size_faults(node: Node) -> Iterator[str]:
    """Parts that do not make up what they are cut from."""
    if not isinstance(node, Cut):
        return
    across = node.way is Way.ACROSS
    total = sum(part.height if across else part.width for part in node.parts)
    same = {part.width if across else part.height for part in node.parts}
    if total != (node.height if across else node.width) or same != {
        node.width if across else node.height
    }:
        yield f"parts do not make up {node.width} x {node.height} cut {node.way.value}"
    for part in node.parts:
        yield from _size_faults(part)


def _freed(node: Node, x: Length, y: Length) -> Iterator[Place]:
    """What the cuts set free, and where."""
    if isinstance(node, Taken):
        yield node.item, x, y, node.width, node.height
    elif isinstance(node, Cut):
        for part in node.parts:
            yield from _freed(part, x, y)
            x += part.width if node.way is Way.ALONG else 0
            y += part.height if node.way is Way.ACROSS else 0


def _sizes(items: Sequence[Item], index: int) -> set[tuple[Length, Length]]:
    """The sizes that a piece may have as it lies."""
    if not 0 <= index < len(items):
        return set()
    item = items[index]
    return {(item.width, item.height)} | ({(item.height, item.width)} if item.turn else set())


def _name(placed: Placement) -> str:
    return f"item {placed.item} at {placed.x}, {placed.y}"
