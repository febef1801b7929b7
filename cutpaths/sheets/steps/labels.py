"""Finds a free place for each short label of a picture, with a leader to what it names; mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from cutpaths.geometry.polygons import Ring, along, box, distance, sub, unit
from cutpaths.shapes import Anchor, Point, Text
from cutpaths.sheets.clear_places import Segment, touches
from cutpaths.sheets.steps.view import frame
from cutpaths.strokes import text_width
from cutpaths.values import State, Value

HEIGHT = 2.8
PAD = 0.9  # of the tag round a text
APART = 0.8  # between a tag and another, or a sign
LEADER_LEAST = 3.0  # a shorter leader is not drawn
_DISTANCES = (5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0, 37.0, 45.0, 54.0, 64.0)
_WAYS = 24
_LETTER_DEEP = 0.34  # how far tails hang below the baseline, as a part of the height

# What a label costs for each thing that it lies on, in mm of leader.
_ON_TAG, _ON_SIGN, _ON_LINE, _ON_EDGE, _CROSSED = 900.0, 160.0, 300.0, 5.0, 130.0
_TURN = 9.0  # for standing on the side opposite to the one wished for


class Name(Value, kw_only=True):
    """A label to be placed.

    Attributes:
        string: what it says.
        at: what it names.
        toward: unit vector of the side on which it would stand best; None for any.
        bare: without a leader, as near as can be.
        within: left and right end of the part of the sheet where it may stand; None for all of it.
    """

    string: str
    at: Point
    toward: Point | None = None
    bare: bool = False
    within: tuple[float, float] | None = None


class Placed(Value):
    """A label in its place: its text, the tag behind it, and its leader where it has one."""

    text: Text
    tag: Ring
    leader: Segment | None


class Ground(State, kw_only=True):
    """What labels keep off.

    Attributes:
        bounds: where labels may lie, a rectangle.
        tags: boxes of texts and tags.
        signs: boxes of arrows, pins and tools.
        lines: lines that a label must not hide.
        edges: outlines of cloth, on which a label may lie if it must.
        leaders: leaders drawn so far.
    """

    bounds: tuple[float, float, float, float]
    tags: list[Ring]
    signs: list[Ring]
    lines: list[Segment]
    edges: list[Segment]
    leaders: list[Segment]


def placed(names: Sequence[Name], ground: Ground) -> tuple[Placed, ...]:
    """Each name in the best place that is left, in their order."""
    found = []
    for name in names:
        best = _best(name, ground)
        found.append(best)
        ground.tags.append(best.tag)
        if best.leader is not None:
            ground.leaders.append(best.leader)
    return tuple(found)


def _best(name: Name, ground: Ground) -> Placed:
    """The cheapest place; places come with rising least cost, so that most are never judged."""
    best, least = None, math.inf
    for start, candidate in sorted(_choices(name), key=lambda each: each[0]):
        if start >= least:
            break
        cost = start + _cost(candidate, ground) + _outside(candidate, name)
        if cost < least:
            best, least = candidate, cost
    if best is None:
        raise ValueError(f"there is no place for {name.string!r}")
    return best


def _outside(choice: Placed, name: Name) -> float:
    """What it costs to stand in a part of the sheet where something else is shown."""
    left, _, right, _ = box(choice.tag)
    if name.within is None or (left >= name.within[0] and right <= name.within[1]):
        return 0.0
    return _ON_TAG


def _choices(name: Name) -> Iterator[tuple[float, Placed]]:
    """Places all round what is named, with what each costs for its distance and side."""
    wide = text_width(name.string, HEIGHT)
    for reach in _DISTANCES:
        for step in range(_WAYS):
            turn = math.tau * step / _WAYS
            way = math.cos(turn), math.sin(turn)
            off = 0.0
            if name.toward is not None:
                off = _TURN * (1.0 - (way[0] * name.toward[0] + way[1] * name.toward[1]))
            # Slanting leaders read better than level ones that run along lines.
            yield reach + off, _at(name, along(name.at, way, reach), wide)


def _at(name: Name, end: Point, wide: float) -> Placed:
    """A label whose tag just touches a point, on the far side of it from what is named."""
    dx, dy = sub(end, name.at)
    reach = math.hypot(dx, dy)
    deep, half = HEIGHT * _LETTER_DEEP, wide / 2 + PAD
    high = HEIGHT + deep + 2 * PAD
    x = end[0] + half * max(-1.0, min(1.0, 1.35 * dx / reach))
    y = end[1] + high / 2 * max(-1.0, min(1.0, 1.35 * dy / reach))
    tag = frame(x - half, y - high / 2, x + half, y + high / 2)
    text = Text(
        string=name.string,
        at=(x, y - high / 2 + PAD + deep),
        height=HEIGHT,
        anchor=Anchor.MIDDLE,
    )
    leader = None
    if not name.bare and reach >= LEADER_LEAST:
        leader = (name.at, end)
    return Placed(text, tag, leader)


def _cost(choice: Placed, ground: Ground) -> float:
    left, foot, right, head = box(choice.tag)
    low_x, low_y, high_x, high_y = ground.bounds
    if left < low_x or foot < low_y or right > high_x or head > high_y:
        return 10_000.0
    cost = 0.0
    around = frame(left - APART, foot - APART, right + APART, head + APART)
    for weight, rings in ((_ON_TAG, ground.tags), (_ON_SIGN, ground.signs)):
        cost += weight * sum(_meet(around, ring) for ring in rings)
        if choice.leader is not None:
            cost += _CROSSED * sum(_crossed(choice.leader, ring) for ring in rings)
    for weight, lines in ((_ON_LINE, ground.lines), (_ON_EDGE, ground.edges)):
        cost += weight * sum(_on(choice.tag, line) for line in lines)
    cost += _ON_TAG * sum(_on(choice.tag, line) for line in ground.leaders)
    if choice.leader is not None:
        cost += _CROSSED * sum(_meeting(choice.leader, line) for line in ground.leaders)
    return cost


def _meet(ring: Ring, other: Ring) -> bool:
    """Whether the boxes of two rings meet."""
    a, b = box(ring), box(other)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _crossed(leader: Segment, ring: Ring) -> bool:
    """Whether a leader runs over a ring, other than where it starts."""
    start, end = leader
    if distance(start, end) < 2.0:
        return False
    later = along(start, unit(sub(end, start)), 1.5)
    left, foot, right, head = box(ring)
    if left - 0.1 <= start[0] <= right + 0.1 and foot - 0.1 <= start[1] <= head + 0.1:
        return False
    return touches(frame(left, foot, right, head), (later, end))


def _on(ring: Ring, line: Segment) -> bool:
    left, foot, right, head = box(ring)
    (x0, y0), (x1, y1) = line
    if (x0 < left and x1 < left) or (x0 > right and x1 > right):
        return False
    if (y0 < foot and y1 < foot) or (y0 > head and y1 > head):
        return False
    return touches(ring, line)


def _meeting(one: Segment, other: Segment) -> bool:
    """Whether two segments cross."""
    (p, q), (r, s) = one, other

    def turn(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return turn(p, q, r) * turn(p, q, s) < 0 and turn(r, s, p) * turn(r, s, q) < 0
