"""Small things laid on as few pages as found, each page with room for its scale square; mm.

Blocks that belong together lie on one page where they all fit, also beside others; else they have
pages of their own, the largest first, so that nobody looks for them among other things.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.drawing import Item, move
from cutpaths.machine.free_space import FreeSpace, Rule
from cutpaths.shapes import Motion, Text, shift
from cutpaths.sheets.pages.page import Room
from cutpaths.sheets.pages.square import clear_place
from cutpaths.sheets.pages.text_places import bounds, upright
from cutpaths.values import State, Value, field, replace

GAP = 6.0


class Block(Value, kw_only=True):
    """Something that lies on one page in one piece.

    Attributes:
        name: what it is, for the words of its page: its kind, a colon and which of it.
        items: what is drawn, wherever it lies.
        turns: quarter turns by which it may lie.
        needed: whether it is parted into several pages where it is larger than one.
    """

    name: str
    items: tuple[Item, ...]
    turns: tuple[int, ...] = (0, 1)
    needed: bool = False


class _Open(State):
    """A page that is being filled."""

    space: FreeSpace
    names: list[str] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)


class Filled(Value):
    """What lies on one page, and what it is called."""

    names: tuple[str, ...]
    items: tuple[Item, ...]


def filled(
    groups: Sequence[Sequence[Block]], room: Room
) -> tuple[tuple[Filled, ...], tuple[Block, ...]]:
    """The pages, and the blocks that are too large for one.

    Args:
        groups: blocks that belong together.
        room: of each page.
    """
    pages: list[_Open] = []
    large: list[Block] = []
    for group in groups:
        blocks = sorted(group, key=_size, reverse=True)
        if any(_put_all(page, blocks, room) for page in pages):
            continue
        first = len(pages)
        for block in blocks:
            if not any(_put(page, block, room) for page in pages[first:]):
                new = _empty(room)
                if _put(new, block, room, alone=True):
                    pages.append(new)
                else:
                    large.append(block)
    done = (Filled(tuple(page.names), tuple(page.items)) for page in pages)
    return tuple(done), tuple(large)


def is_roomy(block: Block, room: Room, *, alone: bool = False) -> bool:
    """Whether a block fits a page, beside or around the scale square unless it is alone."""
    return _put(_empty(room), block, room, alone=alone)


def names_said(names: Sequence[str]) -> str:
    """Names in one line; what several have in common before the colon is said once.

    >>> names_said(("practice corner AB: top", "practice corner AB: backing", "PATCH-1"))
    'practice corner AB: top, backing; PATCH-1'
    """
    kinds: dict[str, list[str]] = {}
    for name in names:
        kind, _, which = name.partition(": ")
        kinds.setdefault(kind, []).append(which)
    return "; ".join(f"{kind}: {', '.join(w)}" if any(w) else kind for kind, w in kinds.items())


def _empty(room: Room) -> _Open:
    return _Open(FreeSpace(room.width + GAP, room.height + GAP))


def _size(block: Block) -> tuple[float, float]:
    left, bottom, right, top = bounds(block.items)
    return max(right - left, top - bottom), (right - left) * (top - bottom)


def _put_all(page: _Open, blocks: Sequence[Block], room: Room) -> bool:
    """Lays all blocks on a page, or none; whether they have places there."""
    trial = _Open(FreeSpace(0.0, 0.0), [*page.names], [*page.items])
    trial.space.free = [*page.space.free]
    if not all(_put(trial, block, room) for block in blocks):
        return False
    page.space, page.names, page.items = trial.space, trial.names, trial.items
    return True


def _put(page: _Open, block: Block, room: Room, *, alone: bool = False) -> bool:
    """Lays a block at its best place on a page; whether it has one beside the scale square.

    A block that is alone on its page stays even where the square must lie upon it.
    """
    found = []
    for turns in block.turns:
        turned = tuple(_upright(move(Motion.quarters(turns), item)) for item in block.items)
        left, bottom, right, top = bounds(turned)
        wide, high = right - left, top - bottom
        best = page.space.best(wide + GAP, high + GAP, Rule.LOW)
        if best is not None:
            home = shift(room.left + best[1] - left, room.bottom + best[2] - bottom)
            found.append((best, wide, high, tuple(move(home, item) for item in turned)))
    for best, wide, high, items in sorted(found, key=lambda each: each[0]):
        shown = [*page.items, *items]
        if alone or clear_place(shown, room) is not None:
            page.space.take(best[1], best[2], wide + GAP, high + GAP)
            page.items = shown
            page.names.append(block.name)
            return True
    return False


def _upright(item: Item) -> Item:
    return replace(item, shape=upright(item.shape)) if isinstance(item.shape, Text) else item
