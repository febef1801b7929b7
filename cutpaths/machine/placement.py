"""Parts laid on the fewest beds found, and how many there must be at least; float mm.

Boxes go one by one, in an order of size, onto the first bed that has a place. Several orders and
rules are tried until the number of beds is proven to be the fewest, or the work is done; work is
counted in boxes and not in seconds, so that the same input gives the same beds.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from itertools import product

from cutpaths.machine.bound import fewest_beds
from cutpaths.machine.boxes import Boxes, Laid, Way, boxes_of, can_nest, fits
from cutpaths.machine.free_space import FreeSpace, Rule
from cutpaths.machine.parts import Part
from cutpaths.shapes import shift
from cutpaths.values import Value

WORK = 12_000  # boxes laid in all tries together
_ROW = 10**6  # as many alike parts in a row as there is room for
_SEED = 1

Order = tuple[int, ...]


class Placement(Value):
    """What lies where.

    Attributes:
        beds: what is laid on each bed, from the lower left corner of its room.
        fewest: the proven lower bound for the number of beds.
    """

    beds: tuple[tuple[Laid, ...], ...]
    fewest: int

    @property
    def gap(self) -> int:
        """How many beds could be saved at most."""
        return len(self.beds) - self.fewest


def too_large(parts: Sequence[Part], room: tuple[float, float]) -> tuple[int, ...]:
    """Indices of the parts that fit the room in no way."""
    alone = boxes_of(parts, room, 0.0, 1)
    return tuple(
        index for index, boxes in enumerate(alone) if not any(fits(way, room) for way in boxes.ways)
    )


def placed(parts: Sequence[Part], room: tuple[float, float], gap: float) -> Placement:
    """Lays parts on beds; each fits the room.

    Args:
        parts: what to lay.
        room: width and height within the margins of a bed.
        gap: least distance between two boxes, across or along.
    """
    if not parts:
        return Placement((), 0)
    fewest = fewest_beds(parts, room, gap)
    best: tuple[tuple[Laid, ...], ...] | None = None
    work = 0
    for nested in (_ROW, 2, 1) if any(map(can_nest, parts)) else (1,):
        boxes = boxes_of(parts, room, gap, nested)
        size = sum(each.count for each in boxes)
        for order, rule in _tries(boxes):
            if best is not None and (len(best) <= fewest or work + size > WORK):
                break
            work += size
            beds = _filled(boxes, order, rule, (room[0] + gap, room[1] + gap), gap)
            if best is None or len(beds) < len(best):
                best = beds
    return Placement(best or (), fewest)


def _tries(boxes: Sequence[Boxes]) -> Iterator[tuple[Order, Rule]]:
    """Orders of the boxes and rules for their places, the most promising first, then by lot."""
    keys: list[Callable[[Way], tuple[float, float]]] = [
        lambda w: (-w.height, -w.width),
        lambda w: (-w.width * w.height, -w.height),
        lambda w: (-max(w.width, w.height), -min(w.width, w.height)),
        lambda w: (-w.width, -w.height),
        lambda w: (-w.width - w.height, -w.height),
        lambda w: (-min(w.width, w.height), -max(w.width, w.height)),
    ]
    indices = range(len(boxes))
    in_order = [tuple(sorted(indices, key=lambda n: key(boxes[n].ways[0]))) for key in keys]
    orders = [
        tuple(n for n in order for _ in range(boxes[n].count)) for order in dict.fromkeys(in_order)
    ]
    yield from product(orders, Rule)
    lot = random.Random(_SEED)  # noqa: S311 - no secret; the same lot each time
    while len(boxes) > 1:
        yield _shuffled(lot.choice(orders), lot), lot.choice(list(Rule))


def _shuffled(order: Order, lot: random.Random) -> Order:
    """An order with some boxes moved."""
    moved = list(order)
    for _ in range(max(1, len(moved) // 10)):
        moved.insert(lot.randrange(len(moved)), moved.pop(lot.randrange(len(moved))))
    return tuple(moved)


def _filled(
    boxes: Sequence[Boxes], order: Order, rule: Rule, room: tuple[float, float], gap: float
) -> tuple[tuple[Laid, ...], ...]:
    """Lays each box on the first bed that has a place for it."""
    spaces: list[FreeSpace] = []
    beds: list[list[Laid]] = []
    # Where alike boxes have found no place before, none is free now.
    first = [0] * len(boxes)
    for n in order:
        while True:
            if first[n] == len(spaces):
                spaces.append(FreeSpace(*room))
                beds.append([])
            laid = _take(spaces[first[n]], boxes[n], rule, gap)
            if laid:
                beds[first[n]] += laid
                break
            first[n] += 1
    return tuple(map(tuple, beds))


def _take(space: FreeSpace, boxes: Boxes, rule: Rule, gap: float) -> tuple[Laid, ...]:
    """Lays one box at its best place on a bed; nothing where there is none."""
    found = []
    for number, way in enumerate(boxes.ways):
        best = space.best(way.width + gap, way.height + gap, rule)
        if best is not None:
            found.append((best[0], number, best[1], best[2]))
    if not found:
        return ()
    _, number, left, bottom = min(found)
    way = boxes.ways[number]
    space.take(left, bottom, way.width + gap, way.height + gap)
    return tuple(Laid(each.part, each.motion.then(shift(left, bottom))) for each in way.laid)
