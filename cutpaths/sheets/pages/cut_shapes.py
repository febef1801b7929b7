"""Templates and patches at true scale, each with its label, as blocks for pages; mm."""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence

from cutpaths.drawing import Item, move
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.polygons import Ring, box, edges, encloses, middle
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Motion, Point, Text
from cutpaths.sheets.cad import label_lines
from cutpaths.sheets.card_texts import card_items
from cutpaths.sheets.pages.blocks import Block, is_roomy
from cutpaths.sheets.pages.page import Room
from cutpaths.sheets.pages.text_places import ink, is_clear, text_room
from cutpaths.sheets.signs import piece_items
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width
from cutpaths.values import replace

TEXT, SMALLEST = 4.0, 2.2
LEADING = 1.8
_GAP = 2.0
_STEPS = 8  # places along the width and the height of a piece where its label may stand
_HEADING = 34.0  # how wide the names of alike patches may be, in heights of capitals


def template_blocks(kit: Kit, room: Room) -> tuple[Block, ...]:
    """A block for each corner template, its name and how it lies on the card itself."""
    return tuple(_card(kit, template.piece, room) for template in kit.templates)


def patch_blocks(kit: Kit) -> tuple[Block, ...]:
    """A block for each different patch, and each square that is sewn before it is cut.

    Alike shapes of several fabrics share one.
    """
    patches = [piece for piece in kit.cloth if piece.kind is PieceKind.PATCH] if kit.pieced else []
    alike: dict[Hashable, list[Piece]] = {}
    for piece in patches:
        drawn = tuple((item.role, item.shape) for item in piece_items(piece))
        alike.setdefault((drawn, piece.face, _common_words(kit, piece)), []).append(piece)
    return tuple(_patch(kit, pieces) for pieces in alike.values())


def _common_words(kit: Kit, piece: Piece) -> tuple[str, ...]:
    """What is said of a patch whatever its fabric: face, allowances, what is sewn first."""
    return tuple(line for line in label_lines(kit, piece)[1:] if line not in _own_words(kit, piece))


def _own_words(kit: Kit, piece: Piece) -> tuple[str, str]:
    """What differs from fabric to fabric: its name and how many are cut."""
    labels = {fabric.name: fabric.label for fabric in kit.project.fabrics}
    return labels.get(piece.fabric, piece.fabric), f"cut {piece.count}"


def _card(kit: Kit, piece: Piece, room: Room) -> Block:
    """A card that lies straight, where that helps it onto a page."""
    texts = card_items(kit, piece)
    label = texts or _above(piece.key.lower(), label_lines(kit, piece), piece)
    items = (*piece_items(piece), *label)
    angle = label[-1].shape.angle if isinstance(label[-1].shape, Text) else 0.0
    turn = math.radians(-angle)
    straight = tuple(move(Motion(math.cos(turn), math.sin(turn), 0.0, 0.0), i) for i in items)
    block = Block(name=piece.key, items=straight, needed=True)
    if is_roomy(block, room):
        return block
    # Turned so that its lines are not upside down, and so keep their order.
    return replace(block, items=items, turns=(0, 1) if angle <= 0.0 else (0, 3))


def _patch(kit: Kit, pieces: Sequence[Piece]) -> Block:
    """A patch, or several of one shape."""
    first = pieces[0]
    items, key = piece_items(first), first.key.lower()
    name = ", ".join(piece.key for piece in pieces)
    lines = label_lines(kit, first) if len(pieces) == 1 else _alike_lines(kit, pieces, name)
    label = _inside(key, lines, first.outline, items) or _above(key, lines, first)
    return Block(name=name, items=(*items, *label))


def _alike_lines(kit: Kit, pieces: Sequence[Piece], name: str) -> tuple[str, ...]:
    """The label of several patches of one shape: how many of each, and of which fabric."""
    own = [_own_words(kit, piece) for piece in pieces]
    even = len({cut for _, cut in own}) == 1
    each = [
        f"{piece.key}: {fabric}{'' if even else f', {cut}'}"
        for piece, (fabric, cut) in zip(pieces, own, strict=True)
    ]
    heading = wrapped(f"{name}: same shape", 1.0, _HEADING)
    count = (f"{own[0][1]} of each",) if even else ()
    return (*heading, *count, *each, *_common_words(kit, pieces[0]))


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
