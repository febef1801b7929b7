"""What every page has: its room, the words at its foot, and the scale square; mm.

The origin of a page is its lower left corner. What a printer cannot reach stays empty; the words
stand in a strip above that, and what the page is for in the room over them.
"""

from __future__ import annotations

from collections.abc import Iterable

from cutpaths.drawing import Drawing, Item, Pen
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Point, Text
from cutpaths.sheets.pages.paper import Paper
from cutpaths.sheets.pages.square import square_place
from cutpaths.sheets.pages.text_places import placed_texts, text_room
from cutpaths.sheets.sheet import about, label, scale_square
from cutpaths.strokes import text_width
from cutpaths.values import Value

# What is not of the piece (scale square, marks to join pages by) is grey: 5.3:1 on white.
GREY = (0x6B, 0x6B, 0x6B)
PEN = Pen(text_as_strokes=False, inks=((Role.SCALE, GREY),))
KEY = "page"

WORDS = "Print at 100 %, actual size. Measure the square before you cut."
TEXT = 2.6  # height of capitals
SMALLEST = 1.6
_LEADING = 4.4
FOOT = 3 * _LEADING + 1.0


# A text's role, and the places that it may have, the best first.
Wanted = tuple[Role, Iterable[Text]]


class Room(Value, kw_only=True):
    """A page and the part of it for what it shows.

    Attributes:
        size: width and height of the page.
        left, bottom, right, top: of the room.
    """

    size: tuple[float, float]
    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Of the room."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Of the room."""
        return self.top - self.bottom

    def holds(self, points: Iterable[Point]) -> bool:
        """Whether all points lie in the room."""
        return all(self.left <= x <= self.right and self.bottom <= y <= self.top for x, y in points)


def room_of(paper: Paper, *, across: bool = False, long: float | None = None) -> Room:
    """The room of a page.

    Args:
        paper: what it is printed on.
        across: the paper lies on its side, or the roll runs to the right.
        long: of a roll's page, its length; its longest when not said.
    """
    width, height = float(paper.width), float(paper.height)
    if paper.roll and long is not None:
        height = long
    if across:
        width, height = height, width
    margin = float(paper.margin)
    return Room(
        size=(width, height),
        left=margin,
        bottom=margin + FOOT,
        right=width - margin,
        top=height - margin,
    )


def page(
    kit: Kit,
    room: Room,
    items: Iterable[Item],
    *,
    name: str,
    what: str,
    number: tuple[int, int],
    face: str = "",
    wanted: Iterable[Wanted] = (),
) -> Drawing:
    """One page.

    Args:
        kit: whose it is.
        room: of the page.
        items: what it shows.
        name: of the sheet.
        what: what it shows, in words.
        number: which page of how many.
        face: which face of the cloth is up; empty where that is said of each piece.
        wanted: texts for which there is a choice of places; they keep off the scale square too.
    """
    said = f"{what}, {face}" if face else what
    shown = (*items, *_foot(kit, room, said, number))
    shown += scale_square(square_place(shown, room))
    for role, places in wanted:
        inside = (text for text in places if room.holds(text_room(text, 0.0)))
        shown += placed_texts([inside], shown, role, KEY)
    return Drawing(
        name=name,
        size=room.size,
        about=about(kit, f"page {number[0]}: {what}", face),
        items=shown,
        pen=PEN,
    )


def _foot(kit: Kit, room: Room, what: str, number: tuple[int, int]) -> tuple[Item, ...]:
    """Whose page it is and which, what it shows, and how to print it."""
    version = kit.project.pattern.version
    title = f"{kit.project.title}, version {version}" if version else kit.project.title
    count = f"page {number[0]} of {number[1]}"
    y = room.bottom - _LEADING
    beside = room.width - text_width(count, TEXT) - 2 * TEXT
    return (
        fitted(title, (room.left, y), beside),
        label(KEY, count, (room.right, y), TEXT, Anchor.END),
        fitted(what, (room.left, y - _LEADING), room.width),
        fitted(WORDS, (room.left, y - 2 * _LEADING), room.width),
    )


def fitted(text: str, at: tuple[float, float], room: float, height: float = TEXT) -> Item:
    """A line of text as large as `height` or its room allows; cut short where it is too long."""
    height = max(SMALLEST, min(height, room / text_width(text, 1.0)))
    while text_width(text, height) > room and len(text) > 1:
        text = text.rstrip("…")[:-1].rstrip() + "…"
    return Item(Role.LABEL, KEY, Text(string=text, at=at, height=height))
