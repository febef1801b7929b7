"""Where texts stand on a page: along edges, upright, and clear of lines and of one another; mm.

A text takes the box that the single-line font gives it, from its tails to its accents.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from cutpaths.drawing import Item, flatten
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, along, box, edges, right_of, sub, unit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Point, Text, shift
from cutpaths.sheets.clear_places import Segment, segments, touches
from cutpaths.strokes import text_width
from cutpaths.values import replace

GAP = 1.2
_TAIL, _TALL = 1 / 3, 1.2  # as parts of the height of capitals
_BACK = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}
_TURNED = {Anchor.START: Anchor.END, Anchor.MIDDLE: Anchor.MIDDLE, Anchor.END: Anchor.START}
_GAPS = (2.5, 5.0, 10.0, 15.0)  # from an edge to a text along it
_PARTS = (0.5, 0.35, 0.65, 0.25, 0.75)  # where along the edge its middle stands


def text_room(text: Text, gap: float = GAP) -> Ring:
    """The box of a text, grown by a gap."""
    width = text_width(text.string, text.height)
    turn = math.radians(text.angle)
    frame = Motion(math.cos(turn), math.sin(turn), *text.at)
    home = shift(-width * _BACK[text.anchor] - gap, -text.height * _TAIL - gap)
    high = text.height * (_TAIL + _TALL)
    return frame.ring(home.ring(rectangle(width + 2 * gap, high + 2 * gap)))


def ink(items: Iterable[Item]) -> list[Segment]:
    """All that is drawn, as segments; a text as the edges of its box."""
    found: list[Segment] = []
    for part in (part for item in items for part in flatten(item)):
        if isinstance(part.shape, Text):
            found += edges(text_room(part.shape, 0.0))
        elif isinstance(part.shape, Path | Circle):
            found += segments(part.shape)
    return found


def bounds(items: Iterable[Item]) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of some items, with the whole room of their texts."""
    return box([p for segment in ink(items) for p in segment])


def met(ring: Ring, lines: Iterable[Segment]) -> Iterator[Segment]:
    """The lines that have a point in a convex ring."""
    left, bottom, right, top = box(ring)
    for segment in lines:
        (x0, y0), (x1, y1) = segment
        if (
            (x0 >= left or x1 >= left)
            and (x0 <= right or x1 <= right)
            and (y0 >= bottom or y1 >= bottom)
            and (y0 <= top or y1 <= top)
            and touches(ring, segment)
        ):
            yield segment


def is_clear(ring: Ring, lines: Iterable[Segment]) -> bool:
    """Whether no line has a point in a convex ring."""
    return next(met(ring, lines), None) is None


def placed_texts(
    choices: Iterable[Iterable[Text]],
    on: Iterable[Item],
    role: Role,
    key: str,
    *,
    always: bool = False,
    gap: float = GAP,
) -> tuple[Item, ...]:
    """Of each choice the first text that is clear of all that is drawn; one without is left out.

    Args:
        choices: for each text the places it may have, the best first.
        on: what is drawn already.
        role: of the texts.
        key: of the texts.
        always: a text without a clear place has the first of its places all the same.
        gap: how far it keeps off what is drawn.
    """
    lines = ink(on)
    found = []
    for choice in choices:
        places = list(choice) if always else choice
        text = next((t for t in places if is_clear(text_room(t, gap), lines)), None)
        if text is None and isinstance(places, list):
            text = places[0]
        if text is not None:
            lines += edges(text_room(text, 0.0))
            found.append(Item(role, key, text))
    return tuple(found)


def beside_edge(
    edge: tuple[Point, Point], strings: Sequence[str], sides: Sequence[float], height: float
) -> Iterator[Text]:
    """Places of a text along an edge of a ring, never upside down, the best first.

    Args:
        edge: its ends.
        strings: what it may read, the best first.
        sides: 1 for inside of the ring, -1 for outside, in the order in which they are tried.
        height: of capitals.
    """
    way = unit(sub(edge[1], edge[0]))
    degrees = math.degrees(math.atan2(way[1], way[0]))
    for side in sides:
        for string in strings:
            for gap in _GAPS:
                for part in _PARTS:
                    depth = gap if side > 0 else gap + height
                    middle = along(edge[0], sub(edge[1], edge[0]), part)
                    at = along(middle, right_of(way), -side * depth)
                    place = Text(
                        string=string, at=at, height=height, angle=degrees, anchor=Anchor.MIDDLE
                    )
                    yield upright(place)


def upright(text: Text) -> Text:
    """A text in the same box, turned half round where it would be upside down."""
    angle = (text.angle + 180.0) % 360.0 - 180.0
    # What runs down is turned to run up: a quarter turn to the left is read as usual.
    if -90.0 + 1e-6 < angle <= 90.0 + 1e-6:
        return text
    turn = math.radians(text.angle + 90.0)
    at = along(text.at, (math.cos(turn), math.sin(turn)), text.height)
    return replace(text, at=at, angle=text.angle + 180.0, anchor=_TURNED[text.anchor])
