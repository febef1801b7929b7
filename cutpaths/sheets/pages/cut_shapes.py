"""Templates and patches at true scale, each with its label, as blocks for pages; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Item
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.polygons import Ring, box, edges, encloses, middle
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Point, Text
from cutpaths.sheets.cad import label_lines
from cutpaths.sheets.faces import end_words, template_of
from cutpaths.sheets.pages.blocks import Block
from cutpaths.sheets.pages.text_places import (
    beside_edge,
    ink,
    is_clear,
    placed_texts,
    text_room,
)
from cutpaths.sheets.signs import piece_items
from cutpaths.strokes import text_width

TEXT, SMALLEST = 4.0, 2.2
LEADING = 1.8
_GAP = 2.0
_STEPS = 7  # places along the width and the height of a piece where its label may stand
_END = 3.0  # height of what stands beside an edge


def template_blocks(kit: Kit) -> tuple[Block, ...]:
    """A block for each corner template."""
    return tuple(_block(kit, template.piece) for template in kit.templates)


def patch_blocks(kit: Kit) -> tuple[Block, ...]:
    """A block for each different patch, and each square that is sewn before it is cut.

    The largest come first, so that the small ones fill what is left.
    """
    patches = [piece for piece in kit.cloth if piece.kind is PieceKind.PATCH]
    patches.sort(key=lambda piece: max(piece.size), reverse=True)
    return tuple(_block(kit, piece) for piece in patches) if kit.pieced else ()


def _block(kit: Kit, piece: Piece) -> Block:
    items = piece_items(piece)
    key = piece.key.lower()
    lines = label_lines(kit, piece)
    ends = placed_texts(_ends(kit, piece), items, Role.LABEL, key)
    inner = _inside(key, lines, piece.outline, (*items, *ends))
    label = inner or _above(key, lines, piece)
    needed = piece.kind is PieceKind.TEMPLATE
    return Block(name=piece.key, items=(*items, *ends, *label), needed=needed)


def _inside(
    key: str, lines: tuple[str, ...], outline: Ring, items: tuple[Item, ...]
) -> tuple[Item, ...]:
    """The label inside a piece, as large as it finds room clear of all lines; else nothing."""
    lines_drawn = ink(items)
    left, bottom, right, top = box(outline)
    parts = sorted((n / _STEPS for n in range(1, _STEPS)), key=lambda part: abs(part - 0.5))
    for height in (TEXT, 3.0, SMALLEST):
        for up in parts:
            for over in parts:
                at = left + (right - left) * over, bottom + (top - bottom) * up
                texts = _column(lines, at, height)
                boxes = [text_room(text, _GAP) for text in texts]
                if all(encloses(outline, p) for ring in boxes for p in ring) and all(
                    is_clear(ring, lines_drawn) for ring in boxes
                ):
                    return tuple(Item(Role.LABEL, key, text) for text in texts)
    return ()


def _column(lines: tuple[str, ...], center: Point, height: float) -> list[Text]:
    """Lines about a place."""
    x, y = center
    top = y + height * LEADING * (len(lines) - 1) / 2 - height / 2
    return [
        Text(string=line, at=(x, top - n * height * LEADING), height=height, anchor=Anchor.MIDDLE)
        for n, line in enumerate(lines)
    ]


def _above(key: str, lines: tuple[str, ...], piece: Piece) -> tuple[Item, ...]:
    """The label over a piece that has no room for it inside; in a free corner of its box."""
    width = max(text_width(line, SMALLEST) for line in lines)
    left, bottom, right, top = box(piece.outline)
    high = SMALLEST * LEADING * len(lines)
    outline = edges(piece.outline)
    for x, y in ((right - width, top - high), (left, bottom), (left, top - high)):
        ring = (x, y), (x + width, y), (x + width, y + high), (x, y + high)
        free = x >= left and is_clear(ring, outline)
        if free and not encloses(piece.outline, middle(ring[0], ring[2])):
            return _down(key, lines, (x, y + high))
    return _down(key, lines, (left, top + _GAP + high))


def _down(key: str, lines: tuple[str, ...], corner: Point) -> tuple[Item, ...]:
    """Lines from an upper left corner."""
    x, y = corner
    return tuple(
        Item(
            Role.LABEL,
            key,
            Text(string=line, at=(x, y - SMALLEST - n * SMALLEST * LEADING), height=SMALLEST),
        )
        for n, line in enumerate(lines)
    )


def _ends(kit: Kit, piece: Piece) -> Iterator[Iterator[Text]]:
    """Beside each raw edge of a card that fits one way only, which side's end it is."""
    template = template_of(kit, piece)
    for edge in () if template is None else template.raw_edges:
        yield beside_edge((edge.start, edge.end), (end_words(edge.sides),), (-1.0,), _END)
