"""The shortest plan of strips, crosscuts and trims, proved; for a few pieces, and takes the solver.

Every strip that may be of use is listed, none higher than the tallest piece, and the solver picks
those that make all pieces from the least cloth. A strip may make more than is needed, so that only
strips are listed to which no further stack can be added.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain, islice

from cutpaths.cloth.packing.cover import Cover
from cutpaths.cloth.packing.cuts import Cut, Node, Way, placements
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.plan import CutPlan, Method, Plan, with_cuts
from cutpaths.cloth.packing.runs import trimmed
from cutpaths.cloth.packing.sheet import Sheet, sheet_of
from cutpaths.cloth.packing.strips import Part, Stack, Strip, column, runs_of_strip

NODES = 2000  # most nodes of the solver's tree
LISTED = 10_000  # most strips that are listed; the solver is slow with more


def pack_exact(items: Sequence[Item], width: Length, *, seconds: float = 10.0) -> CutPlan | None:
    """The shortest plan of strips; None where there are too many strips or too little time.

    Args:
        items: what to cut.
        width: of the cloth.
        seconds: most seconds for the solver.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the cloth.
    """
    sheet = sheet_of(items, width)
    strips = _listed(sheet)
    if strips is None:
        return None
    cover = Cover([item.count for item in items])
    for strip in strips:
        cover.add(column(strip))
    whole = cover.whole(seconds=seconds, gap=0.0, nodes=NODES)
    if whole is None or not whole.is_proved:
        return None
    used = [(times, strip) for times, strip in zip(whole.times, strips, strict=True) if times]
    runs = chain.from_iterable(runs_of_strip(sheet, strip, times) for times, strip in used)
    kept = trimmed(tuple(runs), [item.count for item in items])
    return _plan(width, [run.strip for run in kept for _ in range(run.times)])


def _plan(width: Length, strips: Sequence[Node]) -> CutPlan:
    """Strips one above the other."""
    height = sum(strip.height for strip in strips)
    cuts = Cut(width=width, height=height, way=Way.ACROSS, parts=tuple(strips))
    places = tuple(placements(cuts))
    return with_cuts(Plan(width=width, height=height, placements=places, method=Method.EXACT))


def _listed(sheet: Sheet) -> list[Strip] | None:
    """Strips with no room for another stack, the lowest for what they make; None if too many."""
    counts = Counter({item: kind.count for item, kind in enumerate(sheet.kinds)})
    stacks = list(islice(_stacks(sheet, counts), LISTED + 1))
    stacks.sort(key=lambda stack: (-stack.height, -stack.width))
    found = list(islice(_filled(stacks, sheet.width, counts), LISTED + 1))
    if len(found) > LISTED:
        return None
    found.sort(key=lambda strip: -strip.height)
    return list({frozenset(strip.makes.items()): strip for strip in found}.values())


def _stacks(sheet: Sheet, counts: Counter[int]) -> Iterator[Stack]:
    """Every stack that is no higher than the tallest piece."""
    highest = max(height for kind in sheet.kinds for _, height, _ in kind.ways)
    parts: dict[int, list[Part]] = {}
    for item, kind in enumerate(sheet.kinds):
        for width, height, turned in kind.ways:
            parts.setdefault(width, []).append(Part(item, height, turned))
    for width, alike in parts.items():
        yield from (Stack(width, chosen) for chosen in _piled(alike, highest, counts))


def _piled(parts: Sequence[Part], room: int, left: Counter[int]) -> Iterator[tuple[Part, ...]]:
    """Parts one above the other within a height, in the order of the list."""
    for k, part in enumerate(parts):
        if part.height <= room and left[part.item]:
            fewer = left - Counter([part.item])
            yield (part,)
            for others in _piled(parts[k:], room - part.height, fewer):
                yield (part, *others)


def _filled(stacks: Sequence[Stack], room: int, left: Counter[int]) -> Iterator[Strip]:
    """Stacks side by side within a width, in the order of the list."""
    for k, stack in enumerate(stacks):
        made = Counter(part.item for part in stack.parts)
        if stack.width <= room and made <= left:
            more = False
            for strip in _filled(stacks[k:], room - stack.width, left - made):
                more = True
                yield Strip((stack, *strip.stacks))
            if not more:
                yield Strip((stack,))
