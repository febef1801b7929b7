"""The packing list: everything in the kit, with a box to tick for each; mm.

Rows have a height of their own; what a page cannot hold goes on the next one under the same heads.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Drawing, Item, Pen
from cutpaths.pieces import Kit
from cutpaths.shapes import Anchor
from cutpaths.sheets.labels.contents import Contents, Part
from cutpaths.sheets.labels.lettering import block, box, field, fitted, rule, size_lines, tall, text
from cutpaths.sheets.pages.paper import Paper
from cutpaths.sheets.sheet import about
from cutpaths.sheets.wrap import wrapped
from cutpaths.values import Value

TITLE = (6.0, 5.0, 4.2)
HEADING, BODY, SMALL = 3.4, 2.5, 2.1
EDGE = 14.0
BOX = 3.6
PAD = 1.6
HEADS = ("", "No.", "Piece", "What it is", "Fabric", "Count", "Cut size")
# Widths of the columns as parts of the whole.
SHARES = (0.035, 0.045, 0.235, 0.155, 0.155, 0.07, 0.305)
GAP = 2.5
PEN = Pen(text_as_strokes=False)
CAUTION = (
    "Blades, needles and pins are counted before a kit is closed. Keep rotary cutters closed and "
    "away from children, and never leave a hot iron or a running machine alone. No blankets or "
    "other soft bedding in the sleep space of a child under 1. Local rules and qualified people "
    "come first."
)


class _Row(Value):
    """Lines of each column, and whether it has a box to tick."""

    cells: tuple[tuple[str, ...], ...]
    ticked: bool = True

    @property
    def tall(self) -> float:
        return max(tall(cell, BODY) for cell in self.cells) + PAD


class _Frame(Value):
    """Where columns start on a paper, and how wide they are."""

    paper: Paper

    @property
    def size(self) -> tuple[float, float]:
        return float(self.paper.width), float(self.paper.height)

    @property
    def edge(self) -> float:
        return max(EDGE, float(self.paper.margin))

    @property
    def width(self) -> float:
        return self.size[0] - 2 * self.edge

    def column(self, number: int) -> tuple[float, float]:
        start = self.edge + self.width * sum(SHARES[:number])
        return start, self.width * SHARES[number] - GAP


def kit_list(kit: Kit, contents: Contents, paper: Paper) -> tuple[Drawing, ...]:
    """The pages of the packing list."""
    frame = _Frame(paper)
    rows = [_row(part, frame) for part in contents.parts]
    pages = _pages(rows, frame, _head_height(contents, frame))
    return tuple(
        Drawing(
            name=f"kit-list-{number}",
            size=frame.size,
            about=about(kit, "packing list of one kit", ""),
            items=tuple(_page(contents, page, frame, number, len(pages))),
            pen=PEN,
        )
        for number, page in enumerate(pages, 1)
    )


def _row(part: Part, frame: _Frame) -> _Row:
    number = str(part.bundle) if part.bundle else ""
    said = (number, part.key, part.what, part.fabric, str(part.count))
    cells = [
        wrapped(cell, BODY, frame.column(place)[1]) or ("",) for place, cell in enumerate(said, 1)
    ]
    wide = frame.column(len(SHARES) - 1)[1]
    size = (*size_lines(part.size, BODY, wide), *wrapped(part.more, BODY, wide)) or ("",)
    return _Row(((), *cells, size))


def _pages(rows: Sequence[_Row], frame: _Frame, head: float) -> list[list[_Row]]:
    """The rows of each page; the last page has room for the caution."""
    caution = _caution_height(frame)
    room = frame.size[1] - 2 * frame.edge - head - _heads_height() - 2 * SMALL
    pages: list[list[_Row]] = [[]]
    used = 0.0
    for number, row in enumerate(rows):
        last = caution if number == len(rows) - 1 else 0.0
        if pages[-1] and used + row.tall + last > room:
            pages.append([])
            used = 0.0
        pages[-1].append(row)
        used += row.tall
    return pages


def _page(
    contents: Contents, rows: Sequence[_Row], frame: _Frame, number: int, of: int
) -> Iterator[Item]:
    yield from _head(contents, frame)
    y = frame.size[1] - frame.edge - _head_height(contents, frame)
    yield from _heads(frame, y)
    y -= _heads_height()
    for row in rows:
        yield from _cells(row, frame, y)
        y -= row.tall
        yield rule((frame.edge, y + PAD / 2), (frame.edge + frame.width, y + PAD / 2))
    foot = frame.edge - 1.0
    if number == of:
        lines = wrapped(CAUTION, SMALL, frame.width)
        yield from block(lines, frame.edge, y - 2 * PAD, SMALL)
    yield text(f"project file {contents.file}", (frame.edge, foot), SMALL)
    yield text(f"page {number} of {of}", (frame.edge + frame.width, foot), SMALL, anchor=Anchor.END)


def _title(contents: Contents, frame: _Frame) -> tuple[float, tuple[str, ...]]:
    return fitted(contents.title, TITLE, frame.width, 3)


def _told(contents: Contents, frame: _Frame) -> tuple[str, ...]:
    """What the head says under the title."""
    pieces = sum(part.count for part in contents.bundles)
    said = (
        f"Packing list of the kit for one blanket, {contents.finished} finished",
        f"{len(contents.bundles)} bundles with {pieces} pieces of cloth, project file "
        f"{contents.file}",
        contents.variant,
    )
    return tuple(line for each in said if each for line in wrapped(each, BODY, frame.width))


def _head_height(contents: Contents, frame: _Frame) -> float:
    height, lines = _title(contents, frame)
    return tall(lines, height) + tall(_told(contents, frame), BODY) + 5.5 * HEADING


def _head(contents: Contents, frame: _Frame) -> Iterator[Item]:
    """Title, what it is a list of, and the fields to fill in."""
    top = frame.size[1] - frame.edge
    height, lines = _title(contents, frame)
    yield from block(lines, frame.edge, top, height)
    top -= tall(lines, height)
    told = _told(contents, frame)
    yield from block(told, frame.edge, top, BODY)
    top -= tall(told, BODY) + 2.4 * HEADING
    third = frame.width / 3
    fields = (("Batch", contents.batch), ("Date", ""), ("Packed by", ""))
    for number, (name, filled) in enumerate(fields):
        yield from field(name, filled, (frame.edge + number * third, top), third - 6.0, HEADING)


def _heads_height() -> float:
    return tall(("",), BODY) + PAD


def _heads(frame: _Frame, top: float) -> Iterator[Item]:
    for number, name in enumerate(HEADS):
        if name:
            yield text(name, (frame.column(number)[0], top - BODY), BODY)
    y = top - _heads_height() + PAD / 2
    yield rule((frame.edge, y), (frame.edge + frame.width, y))


def _cells(row: _Row, frame: _Frame, top: float) -> Iterator[Item]:
    yield box((frame.edge + 0.5, top - BOX - PAD / 4), BOX, BOX)
    for number, cell in enumerate(row.cells):
        yield from block(cell, frame.column(number)[0], top - PAD / 4, BODY)


def _caution_height(frame: _Frame) -> float:
    return tall(wrapped(CAUTION, SMALL, frame.width), SMALL) + 3 * PAD
