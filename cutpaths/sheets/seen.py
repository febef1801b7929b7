"""What is seen of the finished blanket from its front, part by part; mm, front view.

Each part says how its cloth lies: the motion from cloth seen right side up, its lengthwise threads
upright, to the front view. The backing lies wrong side up in this view, so seen from the front its
cloth is mirrored; the border is folded about the blanket's edge, which mirrors it back: its right
side shows, reflected in the fold.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from cutpaths.geometry.assembly import Face, Piece
from cutpaths.geometry.clip import clipped
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import Ring, along, between, box, edges, offset, sub, unit
from cutpaths.pieces import Kit
from cutpaths.shapes import IDENTITY, Motion, Point
from cutpaths.values import Value


class Part(Value, kw_only=True):
    """A part of the blanket as it is seen.

    Attributes:
        key: key of its piece, lower case; a border's has its side.
        fabric: name of its fabric.
        outline: what is seen of it, counter-clockwise.
        lie: how its cloth lies.
    """

    key: str
    fabric: str
    outline: Ring
    lie: Motion


def edge(kit: Kit) -> Ring:
    """The edge of the finished blanket: where the border's width ends that is asked for.

    What the cloth's thickness eats at the fold is not seen.
    """
    eaten = -float(kit.project.turn_of_cloth) / 2
    return offset(kit.blanket.finished, [eaten] * len(kit.blanket.finished))


def inner_edge(kit: Kit) -> Ring:
    """Where the border ends on the front: at its seam, or folded over on the outer patches."""
    return offset(edge(kit), [-float(border) for border in kit.project.borders])


def front(kit: Kit) -> tuple[Part, ...]:
    """What is seen of top and border."""
    return (*_top(kit), *border(kit))


def border(kit: Kit) -> tuple[Part, ...]:
    """The border's sides, from miter to miter."""
    return tuple(_border(kit))


def back(kit: Kit) -> Part:
    """The backing, still in the front view: as if seen through the blanket."""
    backing = kit.backing
    lie = _lie(backing).then(backing.places[0])
    return Part(key="backing", fabric=backing.fabric, outline=edge(kit), lie=lie)


def _border(kit: Kit) -> Iterator[Part]:
    """The border's sides, from miter to miter."""
    outer, inner = edge(kit), inner_edge(kit)
    behind = back(kit)
    sides = zip(edges(outer), edges(inner), edges(kit.blanket.finished), strict=True)
    for i, ((first, last), (start, end), fold) in enumerate(sides):
        yield Part(
            key=f"border-{letter(i).lower()}",
            fabric=behind.fabric,
            outline=(first, last, end, start),
            lie=behind.lie.then(_reflection(*fold)),
        )


def _top(kit: Kit) -> Iterator[Part]:
    """The patches, or the one cloth of the top, as far as no border lies on them."""
    window = inner_edge(kit)
    if not kit.pieced:
        lie = _lie(kit.top).then(kit.top.places[0])
        yield Part(key="top", fabric=kit.top.fabric, outline=window, lie=lie)
        return
    to_sewn = as_sewn(kit)
    for piece in kit.patchwork.pieces():
        ring = select(piece.marks, MarkKind.SEAM_RING)[0].points
        lie = _lie(piece)
        for place in piece.places:
            sewn = tuple(to_sewn(p) for p in place.ring(ring))
            outline = clipped(sewn, window)
            if outline:
                key = piece.key.lower()
                yield Part(key=key, fabric=piece.fabric, outline=outline, lie=lie.then(place))


def as_sewn(kit: Kit) -> Callable[[Point], Point]:
    """From a place of the top as designed to the same place of the top as it was sewn.

    Each place keeps its share of both ways between opposite sides.
    """
    seam = kit.blanket.seam
    if kit.patchwork.outline == seam:
        return lambda p: p
    left, foot, right, head = box(kit.patchwork.outline)
    first, second, third, fourth = seam

    def sewn(p: Point) -> Point:
        across, up = (p[0] - left) / (right - left), (p[1] - foot) / (head - foot)
        return between(between(first, second, across), between(fourth, third, across), up)

    return sewn


def _lie(piece: Piece) -> Motion:
    """How a piece's cloth lies in the piece's own frame."""
    way = (0.0, 1.0) if piece.grain is None else piece.grain.way
    turned = Motion(way[1], -way[0])
    face = Motion(mirrored=True) if piece.face is Face.WRONG else IDENTITY
    return face.then(turned)


def _reflection(start: Point, end: Point) -> Motion:
    """The reflection in a line."""
    x, y = unit(sub(end, start))
    # Doubling the line's angle, and another half turn because a motion mirrors x and not y.
    turn = Motion(y * y - x * x, -2 * x * y, mirrored=True)
    return Motion(turn.cos, turn.sin, *along(start, turn.point(start), -1.0), mirrored=True)
