"""Plates: a picture with its heading above and the key of its cloths below; mm, front view.

A plate is laid out to be read at 800 pixels across, whatever the true size of what it shows: line
widths and text heights are given in those pixels; one that is shown smaller is laid out for fewer.
What is shown is at true scale all the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import About, Drawing, Item, Pen, move
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, box
from cutpaths.paint import EDGE_MM, Colour, Paint
from cutpaths.roles import Role
from cutpaths.shapes import Path, shift
from cutpaths.sheets.fabric_paint import WHITE
from cutpaths.sheets.sheet import label
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width
from cutpaths.values import State, Value, field

WIDTH = 800  # pixels
HEIGHT_MOST = 1200  # pixels of what is shown
MARGIN = 16
# Heights of capitals, in pixels.
TITLE, TEXT = 15.0, 8.5
KEY = "plate"

_LINE = 1.1  # width of lines
_DASH = 6.0  # length of a stitch
_ROLE_DASH_MM = 3.0
_LEADING = 2.0  # from line to line, as a multiple of the height
_BLOCKS_APART = 14.0  # between heading, picture, key and notes
_CHIP = 14.0
_BESIDE_CHIP = 8.0
_COLUMNS_APART = 24.0
_COLUMNS_MOST = 3


class Entry(Value):
    """A line of the key: a chip of cloth and what it is."""

    paint: Paint
    text: str


class Plate(Value, kw_only=True):
    """What a plate shows; texts are broken into lines that fit.

    Attributes:
        name: names the sheet.
        says: what the file says of itself.
        outline: what the plate is laid out for.
        room: pixels that are kept free round it, for letters and names.
        items: the picture, at true scale.
        heading: the title, then smaller lines.
        key: groups of entries, each under a title, which may be empty.
        notes: lines below the key.
        thread: colour of stitches; None for that of their role.
        across: pixels that the plate is laid out for.
    """

    name: str
    says: About
    outline: Ring
    room: float
    items: tuple[Item, ...]
    heading: tuple[str, ...]
    key: tuple[tuple[str, tuple[Entry, ...]], ...] = ()
    notes: tuple[str, ...] = ()
    thread: Colour | None = None
    across: float = WIDTH

    @property
    def pixel(self) -> float:
        """Millimetres in one of the pixels that the plate is laid out for."""
        return pixel_of(self.outline, self.room, self.across)


def pixel_of(outline: Ring, room: float, across: float = WIDTH) -> float:
    """Millimetres in one pixel of a plate that shows an outline."""
    left, foot, right, head = box(outline)
    high = HEIGHT_MOST * across / WIDTH
    return max((right - left) / (across - 2 * room), (head - foot) / high)


def drawing_of(plate: Plate) -> Drawing:
    """The plate as a sheet."""
    pixel, across = plate.pixel, plate.across
    left, foot, right, head = box(plate.outline)
    start = (left + right) / 2 - across / 2 * pixel
    heading = _Column(pixel, across, start + MARGIN * pixel, 0.0)
    heading.add_lines(plate.heading[:1], TITLE)
    heading.add_lines(plate.heading[1:], TEXT)
    top = head + (plate.room + MARGIN) * pixel - heading.y
    below = _Column(pixel, across, start + MARGIN * pixel, foot - plate.room * pixel)
    for title, entries in plate.key:
        below.add_key(title, entries)
    below.add_lines(plate.notes, TEXT)
    bottom = below.y - MARGIN * pixel
    size = across * pixel, top - bottom
    paper = Item(Role.LABEL, KEY, Path(rectangle(*size), closed=True), Paint(colour=WHITE))
    raised = shift(0.0, top - MARGIN * pixel)
    laid = [*plate.items, *(move(raised, item) for item in heading.items), *below.items]
    home = shift(-start, -bottom)
    items = (paper, *(move(home, item) for item in laid))
    return Drawing(name=plate.name, size=size, about=plate.says, items=items, pen=_pen(plate))


def _pen(plate: Plate) -> Pen:
    return Pen(
        scale=_LINE * plate.pixel / EDGE_MM,
        stretch=_DASH * plate.pixel / _ROLE_DASH_MM,
        inks=() if plate.thread is None else ((Role.TOPSTITCH, plate.thread),),
    )


class _Column(State):
    """Lines and keys one below the other, as wide as the sheet without its margins.

    Attributes:
        pixel: mm in a pixel.
        across: pixels of the whole sheet.
        x, y: where the next line's upper left corner is.
        items: what is there so far.
    """

    pixel: float
    across: float
    x: float
    y: float
    items: list[Item] = field(default_factory=list)

    def add_lines(self, lines: Sequence[str], height: float) -> None:
        """Adds lines of text, each broken where it is too long."""
        for text in lines:
            for line in wrapped(text, height, self.across - 2 * MARGIN):
                self._add_text(line, self.x, self.y, height)
                self.y -= height * _LEADING * self.pixel

    def add_key(self, title: str, entries: Sequence[Entry]) -> None:
        """Adds a key in as many columns as its entries leave room for, filled one by one."""
        if title:
            self.add_lines([title], TEXT)
        rows = _rows(entries, self.across - 2 * MARGIN)
        for row in rows:
            lines = max(len(words) for _, _, words in row)
            for across, entry, words in row:
                self._add_entry(entry, words, self.x + across * self.pixel)
            self.y -= max(_CHIP + 4.0, lines * TEXT * _LEADING) * self.pixel
        self.y -= _BLOCKS_APART * self.pixel if rows else 0.0

    def _add_entry(self, entry: Entry, words: tuple[str, ...], x: float) -> None:
        side = _CHIP * self.pixel
        chip = shift(x, self.y - side).ring(rectangle(side, side))
        self.items.append(Item(Role.LABEL, KEY, Path(chip, closed=True), entry.paint))
        y = self.y - (_CHIP - TEXT) / 2 * self.pixel
        for line in words:
            self._add_text(line, x + (_CHIP + _BESIDE_CHIP) * self.pixel, y, TEXT)
            y -= TEXT * _LEADING * self.pixel

    def _add_text(self, line: str, x: float, y: float, height: float) -> None:
        """Adds a line whose capitals hang from y."""
        tall = height * self.pixel
        self.items.append(label(KEY, line, (x, y - tall), tall))


_Row = list[tuple[float, Entry, tuple[str, ...]]]  # where across, what, and in which lines


def _rows(entries: Sequence[Entry], full: float) -> list[_Row]:
    """Entries in rows as wide as what is free; they follow one another down the columns."""
    if not entries:
        return []
    beside = _CHIP + _BESIDE_CHIP
    longest = max(text_width(entry.text, TEXT) for entry in entries) + beside
    fit = int((full + _COLUMNS_APART) // (longest + _COLUMNS_APART))
    columns = min(max(fit, 1), _COLUMNS_MOST)
    down = -(-len(entries) // columns)
    wide = (full - (columns - 1) * _COLUMNS_APART) / columns
    return [
        [
            (i // down * (wide + _COLUMNS_APART), entries[i], tuple(_words(entries[i], wide)))
            for i in range(row, len(entries), down)
        ]
        for row in range(down)
    ]


def _words(entry: Entry, wide: float) -> Iterator[str]:
    yield from wrapped(entry.text, TEXT, wide - _CHIP - _BESIDE_CHIP)
