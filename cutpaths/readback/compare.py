"""Compares what a file holds with what it must hold, and says each difference in words.

Millimetres. An item is judged by its points, each coordinate for itself; lengths and signed areas
then say what was done to it. Items are taken role by role in the order of the file.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise
from operator import attrgetter

from cutpaths.readback.found import Found, Kind, Point, Tile
from cutpaths.values import Value


class Slack(Value, kw_only=True):
    """How much a file may be off.

    Attributes:
        coordinate: of each coordinate, in mm.
        length: of a segment whose ends are each off by that both ways, in mm.
        area: times the perimeter, of an outline whose points are each off by that, in mm.
    """

    coordinate: float
    length: float
    area: float


# The step to which a drawing is rounded: what a format with decimals keeps.
EXACT = Slack(coordinate=1e-6, length=3e-6, area=1e-6)
ANGLE_DEGREES = 1e-6
SHOWN = 20

# Dimensions in a row share the extension line between them; nobody cuts or marks along it.
_MAY_DOUBLE = "DIMENSION"
_DOUBLE_STEPS = 1e5  # in a mm; what rounds to the same step is the same
# A float that large has no bits left for decimals: added, it rounds to whole steps. It does so for
# what is no number too, and for a twentieth of the time of `round`.
_TO_WHOLE = 1.5 * 2**52

# What an item is called and says, each to be equal.
_WORDS = ("key", "string", "anchor", "fill", "edge")
_words = attrgetter(*_WORDS)


def differences(
    expected: Iterable[Found],
    found: Iterable[Found],
    slack: Slack = EXACT,
    *,
    may_double: bool = False,
) -> tuple[str, ...]:
    """Each difference in one line, the first `SHOWN` of them; empty where there is none.

    Args:
        expected: what must be there.
        found: what is there.
        slack: how much it may be off.
        may_double: whether a line may lie on another, as on paper; a machine would cut it twice.
    """
    must, has = _by_role(expected), _by_role(found)
    lines: list[str] = []
    for role in must | has:
        lines += _role(role, must.get(role, []), has.get(role, []), slack)
        if role != _MAY_DOUBLE and not may_double:
            lines += _doubles(role, has.get(role, []))
    more = len(lines) - SHOWN
    return (*lines[:SHOWN], *((f"... and {more} more",) if more > 0 else ()))


def order_difference(expected: Iterable[Found], found: Iterable[Found]) -> tuple[str, ...]:
    """Says where the work of a machine comes in another order of roles."""
    roles = [item.role for item in expected], [item.role for item in found]
    for number, (must, has) in enumerate(zip(*roles, strict=False), start=1):
        if must != has:
            return (f"line {number} must be of {must}, found {has}",)
    return ()


def place_difference(name: str, must: Point, found: Point, slack: Slack = EXACT) -> tuple[str, ...]:
    """Says where a corner or a size is another than it must be."""
    same = _same_point(must, found, slack)
    return () if same else (f"{name} must be {_numbers(must)} mm, found {_numbers(found)}",)


def _by_role(items: Iterable[Found]) -> dict[str, list[Found]]:
    roles: dict[str, list[Found]] = {}
    for item in items:
        roles.setdefault(item.role, []).append(item)
    return roles


def _role(role: str, must: list[Found], has: list[Found], slack: Slack) -> Iterator[str]:
    """The differences of one role; where items lack, pairing the others would mislead."""
    wanted, counted = Counter(i.kind for i in must), Counter(i.kind for i in has)
    for kind in Kind:
        if wanted[kind] != counted[kind]:
            yield f"{role}: {wanted[kind]} of kind {kind} expected, {counted[kind]} found"
    if wanted == counted:
        for number, (one, other) in enumerate(zip(must, has, strict=True), start=1):
            for words in _item(one, other, slack):
                yield f"{role} {one.kind} {number}: {words}"


def _item(must: Found, has: Found, slack: Slack) -> Iterator[str]:
    if must.kind != has.kind:
        yield f"must come before the {has.kind} that is found here"
        return
    if _words(must) != _words(has):
        yield from _other_words(must, has)
    if must.tile is not has.tile:
        yield from _tile(must.tile, has.tile, slack)
    if must.closed != has.closed:
        yield "must be closed, found open" if must.closed else "must be open, found closed"
    if len(must.points) != len(has.points):
        yield f"must have {len(must.points)} points, found {len(has.points)}"
    elif not _same_points(must.points, has.points, slack.coordinate):
        yield _misplaced(must, has, slack)
    if not abs(must.size - has.size) <= slack.coordinate:
        yield f"size must be {must.size:.6f} mm, found {has.size:.6f}"
    if not abs((has.angle - must.angle + 180.0) % 360.0 - 180.0) <= ANGLE_DEGREES:
        yield f"angle must be {must.angle:.6f} degrees, found {has.angle:.6f}"


def _other_words(must: Found, has: Found) -> Iterator[str]:
    for name, one, other in zip(_WORDS, _words(must), _words(has), strict=True):
        if one != other:
            yield f"{name} must be {one!r}, found {other!r}"


def _same_point(a: Point, b: Point, slack: Slack) -> bool:
    return _same_points((a,), (b,), slack.coordinate)


def _same_points(must: tuple[Point, ...], has: tuple[Point, ...], slack: float) -> bool:
    for (x, y), (u, v) in zip(must, has, strict=True):
        # A number that is not one fails every comparison.
        if not (abs(x - u) <= slack and abs(y - v) <= slack):
            return False
    return True


def _tile(must: Tile | None, has: Tile | None, slack: Slack) -> Iterator[str]:
    """The differences of a print; the rest says nothing where its image is another one."""
    if must is None or has is None or must.image != has.image:
        if must != has:
            yield "must show another print"
        return
    if not _same_point(must.size, has.size, slack):
        yield f"its print must be {_numbers(must.size)} mm large, found {_numbers(has.size)}"
    if not all(abs(a - b) <= slack.coordinate for a, b in zip(must.place, has.place, strict=True)):
        yield f"its print must lie at {must.place}, found {has.place}"


def _misplaced(must: Found, has: Found, slack: Slack) -> str:
    """What was done to an item whose points are not where they must be."""
    gaps = [math.dist(a, b) for a, b in zip(must.points, has.points, strict=True)]
    # NaN is never the greatest: a point that has one is named before all others.
    worst = max(range(len(gaps)), key=lambda n: math.inf if math.isnan(gaps[n]) else gaps[n])
    one, other = must.points[worst], has.points[worst]
    at = f"point {worst + 1} must be at {_numbers(one)} mm, found {_numbers(other)}"
    return f"{_done(must, has, slack)}, {at}"


def _done(must: Found, has: Found, slack: Slack) -> str:
    before, after = _lengths(must), _lengths(has)
    area, other = _area(must.points), _area(has.points)
    least = slack.area * sum(before)
    if all(abs(a - b) <= slack.length for a, b in zip(before, after, strict=True)):
        turned_over = abs(area) > least and abs(area + other) <= least
        return "is mirrored" if turned_over else "is moved"
    if sum(before) and all(math.isfinite(length) for length in after):
        ratio = sum(after) / sum(before)
        if all(abs(a * ratio - b) <= slack.length for a, b in zip(before, after, strict=True)):
            return f"is scaled by {ratio:.6f}"
    return "has another shape"


def _lengths(item: Found) -> list[float]:
    """The lengths of the segments, as if the line were closed."""
    ring = (*item.points, item.points[0])
    return [math.dist(a, b) for a, b in pairwise(ring)]


def _area(points: tuple[Point, ...]) -> float:
    """The signed area of a ring, positive when it runs counter-clockwise."""
    x0, y0 = points[0]
    ring = [(x - x0, y - y0) for x, y in points]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*ring, ring[0]))) / 2


def _doubles(role: str, items: list[Found]) -> Iterator[str]:
    """Names the lines and circles that lie on an earlier one."""
    seen: dict[tuple[object, ...], int] = {}
    for number, item in enumerate(items, start=1):
        if item.kind in (Kind.LINE, Kind.CIRCLE):
            first = seen.setdefault(_course(item), number)
            if first != number:
                yield f"{role} {item.kind} {number}: lies on {item.kind} {first}"


def _course(item: Found) -> tuple[object, ...]:
    """The same for all lines that cover the same way, wherever and whichever way they start."""
    steps, whole = _DOUBLE_STEPS, _TO_WHOLE
    points = [(x * steps + whole, y * steps + whole) for x, y in item.points]
    if item.closed:
        start = points.index(min(points))
        forth = (*points[start:], *points[:start])
        back = (forth[0], *forth[:0:-1])
    else:
        forth, back = tuple(points), tuple(reversed(points))
    return (item.kind, item.closed, item.size * steps + whole, min(forth, back))


def _numbers(point: Point) -> str:
    return f"({point[0]:.6f}, {point[1]:.6f})"
