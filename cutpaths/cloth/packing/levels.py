"""First fit decreasing height: levels across the strip, the tallest pieces first.

Each piece goes on the lowest level that has room, or opens a new one; a level is as high as its
first piece. Without turning, the length is at most 1.7 times the shortest plus the tallest piece
(E. G. Coffman, M. R. Garey, D. S. Johnson, R. E. Tarjan, "Performance bounds for level-oriented
two-dimensional packing algorithms", SIAM Journal on Computing 9(4), 1980, 808-826). Pieces that
may be turned lie flat where that fits.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.cloth.packing.filling import Filling, plan_of
from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.plan import CutPlan, Method, with_cuts
from cutpaths.cloth.packing.sheet import Sheet, sheet_of


def pack_levels(items: Sequence[Item], width: Length) -> CutPlan:
    """A plan in levels, which three stages of cuts set free.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.
    """
    sheet = sheet_of(items, width)
    return with_cuts(plan_of(sheet, levels_filling(sheet), Method.LEVELS))


def levels_filling(sheet: Sheet) -> Filling:
    """Every piece of a sheet on levels."""
    flat = {shape.piece: shape for shape in sorted(sheet.shapes(), key=lambda s: -s.height)}
    room: list[int] = []
    floors: list[int] = []
    top, steps = 0, []
    for shape in sorted(flat.values(), key=lambda s: (-s.height, -s.width)):
        level = next((k for k, free in enumerate(room) if free >= shape.width), len(room))
        if level == len(room):
            room.append(sheet.width)
            floors.append(top)
            top += shape.height
        steps.append((shape, sheet.width - room[level], floors[level]))
        room[level] -= shape.width
    return Filling(sum(s.width * s.height for s in flat.values()), True, steps)
