"""Strips as they are taught: each of one kind of piece, and the rest together, the tallest first.

A strip runs across the cloth and is crosscut; a piece lower than its strip is trimmed. Its length
is never more than 1.7 times the best plus the tallest piece for the pieces that share strips
(first fit, decreasing height; Coffman, Garey, Johnson, Tarjan 1980).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way
from cutpaths.cloth.packing.items import Item, Length, require_fit
from cutpaths.values import State, field


def plain_strips(items: Sequence[Item], width: Length) -> tuple[Node, ...]:
    """Strips that hold all the pieces, from the cut end up.

    Raises:
        InputError: there is nothing to cut, or a piece is too wide.
    """
    require_fit(items, width)
    strips: list[Node] = []
    rest: list[Taken] = []
    for index, item in enumerate(items):
        piece = _best_way(index, item, width)
        in_row = int(width // piece.width)
        full, left = divmod(item.count, in_row)
        strips += [_strip([piece] * in_row, width)] * full
        rest += [piece] * left
    return (*strips, *_shared(rest, width))


def _best_way(index: int, item: Item, width: Length) -> Taken:
    """The way to lie that takes the least length of cloth for each piece."""
    ways = [(item.width, item.height, False)]
    if item.turn:
        ways.append((item.height, item.width, True))
    fitting = [way for way in ways if way[0] <= width]

    def length_each(way: tuple[Length, Length, bool]) -> tuple[Fraction, Length]:
        in_row = min(int(width // way[0]), item.count)
        return Fraction(way[1], in_row), way[1]

    wide, high, turned = min(fitting, key=length_each)
    return Taken(item=index, width=wide, height=high, turned=turned)


class _Open(State):
    """A strip that is being filled."""

    height: Length
    left: Length
    pieces: list[Taken] = field(default_factory=list)


def _shared(pieces: Sequence[Taken], width: Length) -> list[Node]:
    """Strips of mixed pieces: each into the first strip with room, the tallest first."""
    strips: list[_Open] = []
    for piece in sorted(pieces, key=lambda p: (-p.height, -p.width, p.item)):
        strip = next((each for each in strips if each.left >= piece.width), None)
        if strip is None:
            strip = _Open(piece.height, width)
            strips.append(strip)
        strip.pieces.append(piece)
        strip.left -= piece.width
    return [_strip(strip.pieces, width) for strip in strips]


def _strip(pieces: Sequence[Taken], width: Length) -> Node:
    """A strip as high as its tallest piece, with waste above lower ones and at its end."""
    height = max(piece.height for piece in pieces)
    parts: list[Node] = [_crosscut(piece, height) for piece in pieces]
    over = width - sum(piece.width for piece in pieces)
    if over:
        parts.append(Waste(width=over, height=height))
    if len(parts) == 1:
        return parts[0]
    return Cut(width=width, height=height, way=Way.ALONG, parts=tuple(parts))


def _crosscut(piece: Taken, height: Length) -> Node:
    if piece.height == height:
        return piece
    above = Waste(width=piece.width, height=height - piece.height)
    return Cut(width=piece.width, height=height, way=Way.ACROSS, parts=(piece, above))
