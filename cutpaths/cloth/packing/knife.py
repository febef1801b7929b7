"""Finds the cuts from edge to edge that set the pieces of a plan free.

Cutting wherever no piece is in the way loses nothing: what could be cut free before can be cut
free after. So the tree follows from the places alone, whoever placed the pieces.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way
from cutpaths.cloth.packing.items import Length, Placement

OTHER = {Way.ACROSS: Way.ALONG, Way.ALONG: Way.ACROSS}


class Cloth(NamedTuple):
    """A rectangle of cloth, by its edges."""

    left: Length
    foot: Length
    right: Length
    head: Length

    def extent(self, way: Way) -> tuple[Length, Length]:
        """From where to where cuts of one way can be made in it."""
        return (self.foot, self.head) if way is Way.ACROSS else (self.left, self.right)

    def between(self, way: Way, start: Length, end: Length) -> Cloth:
        """The part of it between two cuts of one way."""
        if way is Way.ACROSS:
            return Cloth(self.left, start, self.right, end)
        return Cloth(start, self.foot, end, self.head)


def cuts_of(pieces: Sequence[Placement], width: Length, height: Length) -> Node:
    """The tree of cuts that sets pieces free from a strip, first across it where that is possible.

    Raises:
        ValueError: no cuts from edge to edge set them free.
    """
    whole = Cloth(0, 0, width, height)
    tree = _tree(pieces, whole, Way.ACROSS) or _tree(pieces, whole, Way.ALONG)
    if tree is None:
        raise ValueError("no cuts from edge to edge set these pieces free")
    return tree


def _tree(pieces: Sequence[Placement], cloth: Cloth, way: Way) -> Node | None:
    """The tree whose first cuts run one way; None where they part nothing, or a part fails."""
    width, height = cloth.right - cloth.left, cloth.head - cloth.foot
    if not pieces:
        return Waste(width=width, height=height)
    if len(pieces) == 1 and (pieces[0].width, pieces[0].height) == (width, height):
        return Taken(item=pieces[0].item, width=width, height=height, turned=pieces[0].turned)
    lines = _cut_lines(pieces, cloth, way)
    if len(lines) == 2:
        return None
    groups: list[list[Placement]] = [[] for _ in lines[1:]]
    for piece in pieces:
        groups[bisect_right(lines, _extent(piece, way)[0]) - 1].append(piece)
    parts: list[Node] = []
    for (start, end), group in zip(pairwise(lines), groups, strict=True):
        part = _tree(group, cloth.between(way, start, end), OTHER[way])
        if part is None:
            return None
        parts.append(part)
    return Cut(width=width, height=height, way=way, parts=tuple(parts))


def _cut_lines(pieces: Sequence[Placement], cloth: Cloth, way: Way) -> list[Length]:
    """Where cuts of one way meet no piece but touch one, with both edges of the cloth."""
    reach, end = cloth.extent(way)
    lines = {reach, end}
    for low, high in sorted(_extent(piece, way) for piece in pieces):
        if low >= reach:
            lines |= {reach, low}
        reach = max(reach, high)
    return sorted(lines | {reach})


def _extent(piece: Placement, way: Way) -> tuple[Length, Length]:
    """From where to where a piece lies in the way of cuts."""
    if way is Way.ACROSS:
        return piece.y, piece.y + piece.height
    return piece.x, piece.x + piece.width
