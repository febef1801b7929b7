"""Boxes to be laid on beds: a part alone, or alike parts nested in a row; float mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.geometry.polygons import Ring, box, signed_area
from cutpaths.machine.free_space import SLACK
from cutpaths.machine.nesting import hull, row, starts_turned
from cutpaths.machine.parts import Part
from cutpaths.shapes import Motion, shift
from cutpaths.values import Value

# A part that fills less of its box than this is worth nesting; a triangle fills half.
_NESTED_BELOW = 0.9


class Laid(Value):
    """A part set down: its index and the motion from its piece's frame."""

    part: int
    motion: Motion


class Way(Value):
    """One way a box may lie: its size and the parts in it, from its lower left corner."""

    width: float
    height: float
    laid: tuple[Laid, ...]


class Boxes(Value):
    """Alike boxes and the ways in which each may lie."""

    ways: tuple[Way, ...]
    count: int


def boxes_of(
    parts: Sequence[Part], room: tuple[float, float], gap: float, nested: int
) -> tuple[Boxes, ...]:
    """The boxes of some parts, `nested` alike parts of those that fill their box badly in a row."""
    return tuple(
        made for index, part in enumerate(parts) for made in _boxes(index, part, room, gap, nested)
    )


def fits(way: Way, room: tuple[float, float]) -> bool:
    """Whether a box has room on an empty bed."""
    return way.width <= room[0] + SLACK and way.height <= room[1] + SLACK


def can_nest(part: Part) -> bool:
    """Whether a part fills its box badly and may be turned by half."""
    left, bottom, right, top = box(part.outline)
    filled = signed_area(part.outline) / ((right - left) * (top - bottom))
    return filled < _NESTED_BELOW and _half_turn(part) is not None


def _half_turn(part: Part) -> Motion | None:
    """The way to lie that is half a turn from the first."""
    first = part.turns[0]
    for turn in part.turns[1:]:
        if turn.cos == -first.cos and turn.sin == -first.sin:
            return turn
    return None


def _boxes(
    index: int, part: Part, room: tuple[float, float], gap: float, nested: int
) -> Iterator[Boxes]:
    half = _half_turn(part)
    most = min(nested, part.count)
    if most < 2 or half is None or not can_nest(part):
        yield Boxes(tuple(_alone(index, part, turn) for turn in part.turns), part.count)
        return
    turns = part.turns[0], half
    nests = [_nest(index, part, turns, room[axis], gap, axis, most) for axis in (0, 1)]
    if not all(fits(way, room) for way in nests):  # it fits another way round, but not so
        yield Boxes(tuple(_alone(index, part, turn) for turn in part.turns), part.count)
        return
    # The way that takes least of the bed for each part.
    best = min(nests, key=lambda way: (way.width + gap) * (way.height + gap) / len(way.laid))
    whole, rest = divmod(part.count, len(best.laid))
    yield Boxes((best,), whole)
    if rest:
        axis = nests.index(best)
        yield Boxes((_nest(index, part, turns, room[axis], gap, axis, rest),), 1)


def _alone(index: int, part: Part, turn: Motion) -> Way:
    _, _, right, top = box(turn.ring(part.outline))
    return Way(right, top, (Laid(index, turn),))


def _nest(
    index: int,
    part: Part,
    turns: tuple[Motion, Motion],
    room: float,
    gap: float,
    axis: int,
    most: int,
) -> Way:
    """Alike parts in a row, or in a column where the axis is 1."""
    shapes = _seen(part, turns[0], axis), _seen(part, turns[1], axis)
    if starts_turned(shapes, room, gap, most):
        turns, shapes = turns[::-1], shapes[::-1]
    places = row(shapes, room, gap, most) or (0.0,)
    moves = (shift(0.0, place) if axis else shift(place, 0.0) for place in places)
    laid = tuple(Laid(index, turns[n % 2].then(move)) for n, move in enumerate(moves))
    reach = [box(each.motion.ring(part.outline)) for each in laid]
    return Way(max(r[2] for r in reach), max(r[3] for r in reach), laid)


def _seen(part: Part, turn: Motion, axis: int) -> Ring:
    """The hull of a part as it lies; for a column, with x and y exchanged."""
    ring = turn.ring(part.outline)
    return hull(tuple((y, x) for x, y in ring) if axis else ring)
