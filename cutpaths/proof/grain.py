"""How the cloth's lengthwise threads run in the front view, against what each layout promises.

What is promised is read off the patch as it lies, not asked of the layout: threads run along a
side that lies straight in the top, and a print with an up has it at the head. A patch that has no
straight side stands on point: its threads run along a side too, and its up lies half way between
head and left.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from fractions import Fraction

from cutpaths.geometry.assembly import Grain, Piece
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring, edges, sub, unit
from cutpaths.lengths import decimals
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import angle_between
from cutpaths.proof.reading import Fault, Reading, angle, faultless, judge
from cutpaths.proof.tolerances import ANGLE_DEGREES
from cutpaths.shapes import Motion, Point
from cutpaths.values import replace

_NAME = "grain-kept"
_CLAIM = (
    "Seen from the front the lengthwise threads run along a straight side of each patch, along "
    "the outer long edge of triangles at the side, and from foot to head in backing and in a top "
    "of one cloth; a print that has an up has it at the head, or on point half way to the left."
)
_HEAD: Point = (0.0, 1.0)
_HALF_WAY_LEFT: Point = (-math.sqrt(0.5), math.sqrt(0.5))


def grain_kept(paper: Paper) -> tuple[Check, ...]:
    """The threads of every piece of cloth against what its place in the blanket asks for."""
    faults = [fault for piece in _cloth(paper) for fault in _faults(paper, piece)]
    if faults:
        return faultless(_NAME, _CLAIM, faults)
    return judge(_NAME, _CLAIM, _readings(paper))


def _cloth(paper: Paper) -> Iterator[Piece]:
    """Every piece that is cut from one cloth."""
    kit = paper.kit
    yield kit.backing
    if kit.panels is not None:
        yield from kit.panels.pieces()
    if kit.pieced:
        yield from kit.patchwork.pieces()
    else:
        yield kit.top
    for pair in kit.pairs:
        yield from (pair.marked, pair.plain)


def _faults(paper: Paper, piece: Piece) -> Iterator[Fault]:
    """Whether a piece says how its threads run, and has an up where its fabric has one."""
    if piece.grain is None:
        yield Fault(piece.key, "it does not say how its threads run")
        return
    headed = any(f.directional for f in paper.kit.project.fabrics if f.name == piece.fabric)
    if piece.grain.headed is not headed:
        yield Fault(piece.key, f"it has {'no' if headed else 'an'} up, unlike its fabric")


def _readings(paper: Paper) -> Iterator[Reading]:
    kit = paper.kit
    down = kit.backing.places[0]
    yield from _stands(kit.backing, [down])
    if kit.panels is not None:
        for panel in kit.panels.pieces():
            yield from _stands(panel, [place.then(down) for place in panel.places])
    if kit.pieced:
        for patch in kit.patchwork.pieces():
            yield from _patch(patch)
    else:
        yield from _stands(kit.top, [paper.found])
    for pair in kit.pairs:
        for square in (pair.marked, pair.plain):
            yield from _along_a_side(square, square.outline, Motion(), on_straight=False)
    for piece in _cloth(paper):
        yield from _marked(piece)


def _grain(piece: Piece) -> Grain:
    if piece.grain is None:
        raise TypeError("the grain of every piece is there before it is measured")
    return piece.grain


def _stands(piece: Piece, places: Iterable[Motion]) -> Iterator[Reading]:
    """A piece whose threads run from foot to head."""
    for place in _turns(places):
        yield _off(piece, angle_between(place.point(_grain(piece).way), _HEAD))


def _patch(piece: Piece) -> Iterator[Reading]:
    """A patch at each way round that it is set down."""
    ring = select(piece.marks, MarkKind.SEAM_RING)[0].points
    for place in _turns(piece.places):
        yield from _along_a_side(piece, ring, place, on_straight=True)
        if _grain(piece).headed:
            on_point = not any(_is_straight(way) for way in _ways(ring, place))
            up = _HALF_WAY_LEFT if on_point else _HEAD
            yield _off(piece, angle_between(place.point(_grain(piece).way), up))


def _along_a_side(
    piece: Piece, ring: Ring, place: Motion, *, on_straight: bool
) -> Iterator[Reading]:
    """Threads along a side: one that lies straight in the top, where there is one.

    A print with an up may run across the side of a triangle, as its head decides.
    """
    if on_straight and _grain(piece).headed:
        return
    ways = _ways(ring, place)
    straight = [way for way in ways if _is_straight(way)]
    threads = place.point(_grain(piece).way)
    yield _off(piece, min(_between_lines(threads, way) for way in straight or ways))


def _ways(ring: Ring, place: Motion) -> list[Point]:
    """The ways in which the sides of a ring run once it is turned."""
    return [place.point(unit(sub(q, p))) for p, q in edges(ring)]


def _is_straight(way: Point) -> bool:
    """Whether something runs along the head or along a side of the blanket."""
    least = min(_between_lines(way, _HEAD), _between_lines(way, (1.0, 0.0)))
    return least <= ANGLE_DEGREES


def _between_lines(u: Point, v: Point) -> float:
    """The angle between two lines whichever way they run, 0 to 90 degrees."""
    between = angle_between(u, v)
    return min(between, 180.0 - between)


def _turns(places: Iterable[Motion]) -> Iterator[Motion]:
    """Each way round once, without where it lies: alike patches lie alike by the thousand."""
    yield from dict.fromkeys(replace(place, dx=0.0, dy=0.0) for place in places)


def _marked(piece: Piece) -> Iterator[Reading]:
    """The grain line that is marked on a piece, if there is one."""
    grain = _grain(piece)
    for mark in select(piece.marks, MarkKind.GRAIN):
        way = unit(sub(mark.points[1], mark.points[0]))
        between = angle_between if grain.headed else _between_lines
        yield _off(piece, between(way, grain.way))


def _off(piece: Piece, degrees: float) -> Reading:
    return replace(angle(piece.key, 0.0, degrees), text=_off_text)


def _off_text(degrees: float) -> str:
    return f"{decimals(Fraction(degrees), 4)} degrees off" if math.isfinite(degrees) else "no way"
