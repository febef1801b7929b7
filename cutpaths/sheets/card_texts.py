"""What stands on a corner template's card, so that it is known once it is cut out; mm.

Texts lie inside the outline, off its edges, its holes and its slots: at each raw edge whose end it
is where that matters, and along the card its name, the face that is up and its corners.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from cutpaths.drawing import Item
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.polygons import (
    SAME_PLACE_MM,
    Ring,
    along,
    between,
    box,
    distance,
    edges,
    encloses,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Motion, Point, Text
from cutpaths.sheets.clear_places import Segment, segments
from cutpaths.sheets.faces import end_words, face_lines, template_of
from cutpaths.sheets.pages.text_places import is_clear, text_room
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width

# Capitals of texts, the best first.
HEIGHTS = (4.0, 3.5, 3.0, 2.5)
CLEAR = 1.0  # from a text to an edge, a hole or another text
_NEAR_PARTS = (0.12, 0.16, 0.2, 0.24, 0.28, 0.32)
_LEADING = 1.7
_LONG_EDGES = 3  # along how many of the longest edges the name is tried
# How much farther from an edge than need be, the best first.
_DEEPER = (2.0, 3.0, 4.0, 1.0, 0.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0)
_PARTS = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8)


def card_items(kit: Kit, piece: Piece) -> tuple[Item, ...]:
    """The texts of a card, in its frame; what has no room is left out. Cloth has none."""
    key = piece.key.lower()
    return tuple(Item(Role.LABEL, key, text) for text in card_texts(kit, piece))


def card_texts(kit: Kit, piece: Piece) -> tuple[Text, ...]:
    """The ends' names, then the card's own and how it lies."""
    template = template_of(kit, piece)
    if template is None:
        return ()
    lines = [*edges(piece.outline), *(line for hole in piece.holes for line in segments(hole))]
    found: list[Text] = []
    for edge in template.raw_edges:
        ends = _ends(piece.outline, (edge.start, edge.end), end_words(edge.sides))
        found += _first_free(piece.outline, ends, lines)
    found += _first_free(piece.outline, _names(piece, face_lines(kit, piece)), lines)
    return tuple(found)


def _first_free(
    outline: Ring, choices: Iterator[tuple[Text, ...]], lines: list[Segment]
) -> tuple[Text, ...]:
    """The first of several groups of texts that lies inside and clear; it joins the lines."""
    for texts in choices:
        rooms = [text_room(text, CLEAR) for text in texts]
        if all(encloses(outline, p) for room in rooms for p in room) and all(
            is_clear(room, lines) for room in rooms
        ):
            lines += [line for text in texts for line in edges(text_room(text, 0.0))]
            return texts
    return ()


def _ends(outline: Ring, edge: Segment, words: str) -> Iterator[tuple[Text, ...]]:
    """Places of an end's name inside its edge, else along a long edge beside it."""
    lines = (words,)
    for height, deeper, part in product(HEIGHTS, sorted(_DEEPER), _PARTS):
        yield _along(edge, part, CLEAR + _high(height, lines) / 2 + deeper, lines, height)
    for height, beside, deeper in product(HEIGHTS, _long(outline), _DEEPER):
        from_start, from_end = (min(distance(p, end) for end in edge) for p in beside)
        for part in _NEAR_PARTS if min(from_start, from_end) < SAME_PLACE_MM else ():
            at = part if from_start < from_end else 1.0 - part
            yield _along(beside, at, CLEAR + _high(height, lines) / 2 + deeper, lines, height)


def _long(outline: Ring) -> list[Segment]:
    """The longest edges, the longest first."""
    return sorted(edges(outline), key=lambda edge: -distance(*edge))[:_LONG_EDGES]


def _names(piece: Piece, said: Sequence[str]) -> Iterator[tuple[Text, ...]]:
    """Places of the card's name and how it lies along its long edges."""
    rest = "; ".join(said)
    short = [line for each in said for line in wrapped(each, 1.0, text_width(piece.key, 1.0))]
    layouts = (
        (f"{piece.key}: {rest}",),
        (piece.key, rest),
        (piece.key, *said),
        (piece.key, *short),
        (piece.key,),
    )
    for lines, height, edge in _sizes(layouts, _long(piece.outline)):
        for deeper, part in product(_DEEPER, _PARTS):
            depth = CLEAR + _high(height, lines) / 2 + deeper
            yield _along(edge, part, depth, lines, height)


def _sizes(
    layouts: Sequence[tuple[str, ...]], longest: Sequence[Segment]
) -> Iterator[tuple[tuple[str, ...], float, Segment]]:
    """All that is said as large as it goes; the name alone comes last."""
    *whole, alone = layouts
    for height, lines, edge in product(HEIGHTS, whole, longest):
        yield lines, height, edge
    for height, edge in product(HEIGHTS, longest):
        yield alone, height, edge


def _high(height: float, lines: Sequence[str]) -> float:
    """How high lines of text are, from the tails of the last to the accents of the first."""
    left, bottom, right, top = box(text_room(Text(string=lines[0], at=(0, 0), height=height), 0.0))
    del left, right
    return top - bottom + (len(lines) - 1) * height * _LEADING


def _along(
    edge: Segment, part: float, depth: float, lines: Sequence[str], height: float
) -> tuple[Text, ...]:
    """Lines along an edge, never upside down, about a place so far inside of it."""
    way = unit(sub(edge[1], edge[0]))
    center = along(between(*edge, part), right_of(way), -depth)
    degrees = math.degrees(math.atan2(way[1], way[0]))
    if not -90.0 + 1e-6 < degrees <= 90.0 + 1e-6:
        degrees += 180.0 if degrees < 0 else -180.0
    turn = math.radians(degrees)
    frame = Motion(math.cos(turn), math.sin(turn), *center)
    first = height * (_LEADING * (len(lines) - 1) - 1) / 2
    places: list[Point] = [(0.0, first - n * height * _LEADING) for n in range(len(lines))]
    return tuple(
        Text(string=line, at=frame.point(at), height=height, angle=degrees, anchor=Anchor.MIDDLE)
        for line, at in zip(lines, places, strict=True)
    )
