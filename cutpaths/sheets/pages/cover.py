"""The first page of the small things: how to print, what is where, and the usual cautions; mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Item, move
from cutpaths.pieces import Kit
from cutpaths.shapes import shift
from cutpaths.sheets.pages.page import Room
from cutpaths.sheets.pages.text_places import bounds
from cutpaths.sheets.pages.words import paragraphs
from cutpaths.sheets.sheet import SCALE_MM

_TITLE, _TEXT = 5.0, 2.8
_GAP = 4.0
# Beside or below the words the scale square needs this much.
_SQUARE = SCALE_MM + 8.0
_SMALLEST = 1.8

# North Dakota State University Extension CB111, Kentucky 4-H 4JF-12PB (rotary cutter); the rest is
# common practice, no source.
CAUTIONS = (
    "Take care: close a rotary cutter whenever you put it down, cut away from yourself, and keep "
    "blades, scissors and pins away from children.",
    "Cut paper and cloth with separate blades. Local rules and a qualified person come first.",
)


def cover_items(kit: Kit, room: Room, contents: Sequence[str]) -> tuple[Item, ...]:
    """The words, as large as leaves room for the scale square.

    Args:
        kit: whose pages they are.
        room: of the page.
        contents: what is on each page, and what is on none.
    """
    title = (f"{kit.project.title}: pages at true scale",)
    height, title_height = _TEXT, _TITLE
    while True:
        items = _column(title, [*_how(), *contents, *CAUTIONS], title_height, height, room.width)
        _, bottom, _, top = bounds(items)
        if top - bottom <= room.height - _SQUARE or height <= _SMALLEST:
            return tuple(move(shift(room.left, room.top - top), item) for item in items)
        height, title_height = height * 0.95, title_height * 0.95


def _how() -> Iterator[str]:
    yield "1. Print this page first, at 100 %, actual size, on one side. Nothing may be fitted."
    yield (
        "2. Measure the square with a ruler, across and down: the outer one is 100 mm, the one "
        "inside it 3 in. Is it off? Change the printer's settings, not the pages."
    )
    yield "3. Print the rest the same way. Each page has a square: measure it before you cut."
    yield "On these pages:"


def _column(
    title: Sequence[str], texts: Sequence[str], title_height: float, height: float, width: float
) -> tuple[Item, ...]:
    heading = paragraphs(title, title_height, width)
    body = paragraphs(texts, height, width, hang=4.0)
    under = shift(0.0, bounds(heading)[1] - _GAP)
    return (*heading, *(move(under, item) for item in body))
