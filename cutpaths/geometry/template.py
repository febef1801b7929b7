"""The corner template: a card that lies on one corner of the backing; front view, mm.

It is bounded by the two raw edges to an inch past the dots, by the trim line as its working
corner, and by a back edge parallel to that. It carries holes for the dots, slots for the miter
stitching and a V notch for the crease. Sizes of holes and slots are our own choice.
"""

from __future__ import annotations

import math
from itertools import pairwise

from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.miter import STRAIGHT_SINE
from cutpaths.geometry.polygons import (
    Ring,
    along,
    cross,
    distance,
    dot,
    meet,
    right_of,
    sub,
    unit,
)
from cutpaths.lengths import INCH_MM
from cutpaths.shapes import Circle, Path, Point
from cutpaths.values import Value

PAST_DOTS = INCH_MM
HOLE_RADIUS = 1.5
# How far behind the stitching the back edge lies at least.
LEAST_DEPTH = 12.7
# A pencil's point still goes through this.
LEAST_RADIUS = 0.5
SLOT_WIDTH = 2.0
# No two cut-outs come nearer to one another than this, so that card is left between them.
BRIDGE = 3.0
SHORTEST_SLOT = 5.0
NOTCH_DEPTH = 3.0
NOTCH_HALF_WIDTH = 2.0

Side = tuple[Point, Point]


class Template(Value):
    """A template's outline and what is cut out of it.

    Attributes:
        outline: of the card, counter-clockwise.
        holes: what is cut out of it.
        raw_edges: its edges along the backing's raw edges, first that of the side before.
    """

    outline: Ring
    holes: tuple[Path | Circle, ...]
    raw_edges: tuple[Side, Side]


def turned_template(corner: Corner, ways: tuple[Point, Point]) -> Template:
    """The template of a miter; `ways` run away from the backing's corner along its raw edges."""
    into = unit(sub(corner.fold_point, corner.miter[0]))
    out = unit(sub(corner.miter[1], corner.fold_point))
    inner = _angle_between((-into[0], -into[1]), out)
    stop = max(BRIDGE, _clear_of_one_another(inner))
    trim = _trim_of(corner)
    slots = [
        _slot((place, corner.fold_point), BRIDGE + HOLE_RADIUS, stop, trim)
        for place in corner.miter
    ]
    # At a flat corner the two dots lie near one another; narrow allowances leave little card.
    beside = [
        abs(cross(way, sub(place, corner.backing_point)))
        for way, place in zip(ways, corner.miter, strict=True)
    ]
    apart = max(LEAST_RADIUS, (distance(*corner.miter) - BRIDGE) / 2)
    radius = min(HOLE_RADIUS, apart, trim / 2, *(room / 2 for room in beside))
    outline, raw_edges = _outline(corner, ways, notched=True)
    return Template(
        outline,
        (
            *(Circle(place, radius) for place in corner.miter),
            *(slot for slot in slots if slot is not None),
        ),
        raw_edges,
    )


def folded_template(corner: Corner, ways: tuple[Point, Point]) -> Template:
    """The template of a folded-over corner: a hole at the top's corner, slots along the fold."""
    first, second = corner.miter
    fold = unit(sub(second, first))
    trim = _trim_of(corner)
    slots = [
        _slot((place, corner.fold_point), _clear_of_edge(way, fold), BRIDGE + HOLE_RADIUS, trim)
        for place, way in zip(corner.miter, ways, strict=True)
    ]
    outline, raw_edges = _outline(corner, ways, notched=False)
    return Template(
        outline,
        (
            Circle(corner.fold_point, min(HOLE_RADIUS, trim / 2)),
            *(slot for slot in slots if slot is not None),
        ),
        raw_edges,
    )


def _clear_of_edge(edge: Point, line: Point) -> float:
    """How far along a line from a raw edge a slot must start to leave a bridge beside the edge."""
    sine, cosine = abs(cross(edge, line)), abs(dot(edge, line))
    return (BRIDGE + SLOT_WIDTH / 2 * cosine) / sine


def _angle_between(u: Point, v: Point) -> float:
    """The angle between two unit vectors, 0 to pi."""
    return abs(math.atan2(cross(u, v), dot(u, v)))


def _clear_of_one_another(angle: float) -> float:
    """How far from the fold point two slots must stop to leave a bridge between them."""
    half = angle / 2
    return (BRIDGE / 2 + SLOT_WIDTH / 2 * math.cos(half)) / math.sin(half)


def _trim_of(corner: Corner) -> float:
    """How far the trim line lies outside the line that is marked; infinite without one."""
    if not corner.trim:
        return math.inf
    first = corner.miter[0]
    return abs(cross(unit(sub(corner.fold_point, first)), sub(corner.trim[0], first)))


def _slot(line: tuple[Point, Point], after: float, before: float, trim: float) -> Path | None:
    """A slot along a line, kept off both its ends; None where it would be too short.

    It is narrower where a trim line runs close beside it.
    """
    start, end = line
    length = distance(start, end)
    if length - after - before < SHORTEST_SLOT:
        return None
    way = unit(sub(end, start))
    side = right_of(way)
    near, far = along(start, way, after), along(start, way, length - before)
    half = min(SLOT_WIDTH, trim) / 2
    ring = (
        along(near, side, half),
        along(far, side, half),
        along(far, side, -half),
        along(near, side, -half),
    )
    return Path(ring, closed=True)


def _outline(
    corner: Corner, ways: tuple[Point, Point], *, notched: bool
) -> tuple[Ring, tuple[Side, Side]]:
    """The working corner closed by the back edge, counter-clockwise, and its raw edges."""
    first, second = corner.miter
    into = unit(sub(corner.fold_point, first))
    out = unit(sub(second, corner.fold_point))
    backing = corner.backing_point
    depth = max(
        LEAST_DEPTH,
        _depth(first, into, backing, ways[0]),
        _depth(second, (-out[0], -out[1]), backing, ways[1]),
    )
    starts = along(first, right_of(into), -depth), along(second, right_of(out), -depth)
    far_first = meet(starts[0], into, backing, ways[0])
    far_second = meet(starts[1], out, backing, ways[1])
    working = far_first, *corner.outline, far_second
    raw_edges = (far_first, corner.outline[0]), (corner.outline[-1], far_second)
    if notched:
        working = _notched(corner, working)
    if abs(cross(into, out)) < STRAIGHT_SINE:
        return working, raw_edges
    return (*working, meet(starts[0], into, starts[1], out)), raw_edges


def _depth(place: Point, miter: Point, backing: Point, way: Point) -> float:
    """How far behind the stitching line the back edge lies to pass an inch beyond one dot."""
    foot = along(backing, way, dot(sub(place, backing), way))
    return abs(cross(miter, sub(along(foot, way, PAST_DOTS), place)))


def _notched(corner: Corner, working: Ring) -> Ring:
    """The working edge with a V cut into it where the crease leaves the cloth."""
    crease = unit(sub(corner.fold_end, corner.fold_point))
    crossings = []
    for i, (start, end) in enumerate(pairwise(working)):
        way = sub(end, start)
        if abs(cross(unit(way), crease)) < STRAIGHT_SINE:
            continue
        place = meet(start, way, corner.fold_point, crease)
        part = dot(sub(place, start), way) / dot(way, way)
        ahead = dot(sub(place, corner.fold_point), crease)
        if ahead > 0 and -STRAIGHT_SINE <= part <= 1 + STRAIGHT_SINE:
            crossings.append((ahead, i, place))
    _, i, place = min(crossings)
    before = _from_along(place, working[i::-1], NOTCH_HALF_WIDTH)
    after = _from_along(place, working[i + 1 :], NOTCH_HALF_WIDTH)
    depth = min(NOTCH_DEPTH, distance(place, corner.fold_point) / 2)
    return *before[::-1], along(place, crease, -depth), *after


def _from_along(place: Point, points: Ring, amount: float) -> Ring:
    """What is left of a line from a place through points, without its first stretch."""
    for n, point in enumerate(points):
        length = distance(place, point)
        if length > amount:
            return along(place, unit(sub(point, place)), amount), *points[n:]
        place, amount = point, amount - length
    return points[-1:]
