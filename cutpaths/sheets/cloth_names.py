"""Names of the pieces in a drawing of a cutting plan; mm.

A name stands upright. Where it would be far smaller so than along the longer side of its piece it
lies along that; on cloth with an up it is turned only where it could not be read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import Need, by
from cutpaths.lengths import Ruler
from cutpaths.shapes import Anchor, Text
from cutpaths.strokes import text_width
from cutpaths.values import Value

LEADING = 1.7
TURN_BELOW = 0.5  # part of the height it has lying, below which an upright name lies down

Box = tuple[float, float, float, float]  # x, y, width, height


class Lettering(Value, kw_only=True):
    """How a plan is lettered; heights of capitals in mm.

    Attributes:
        small: of dimensions and lines beside the cloth.
        most, least: of names in the pieces; smaller ones go without their size.
        readable: below it a piece has no name at all.
        gap: from the cloth to its dimensions.
        keys: whether pieces have their names, or their sizes alone.
        level: whether strips cut alike have one height together, which stands level beside them.
    """

    small: float = 9.0
    most: float = 14.0
    least: float = 3.0
    readable: float = 0.0
    gap: float = 30.0
    keys: bool = True
    level: bool = False


class _Lines(Value):
    """Lines of one text and the height of its capitals."""

    lines: tuple[str, ...]
    size: float


def named(
    plan: FabricPlan, item: int, ruler: Ruler, letters: Lettering, box: Box, *, turned: bool
) -> Iterator[Text]:
    """A piece's name and size in the middle of its box; nothing where they are too small to read.

    Args:
        plan: whose piece it is.
        item: which of its needs.
        ruler: for the size.
        letters: how the plan is lettered.
        box: where the piece lies.
        turned: whether it is turned by a quarter from how it stands in the blanket.
    """
    need, (x, y, width, height) = plan.needs[item], box
    texts = _texts(need, ruler, letters, turned=turned)
    standing = _fitted(texts, letters, width, height)
    lying = _fitted(texts, letters, height, width)
    least = letters.least if plan.fabric.directional else TURN_BELOW * lying.size
    whole = len(standing.lines) == len(lying.lines)
    upright = width >= height or (whole and standing.size >= max(least, letters.readable))
    chosen = standing if upright else lying
    if chosen.size < letters.readable:
        return
    size = chosen.size
    off = (len(chosen.lines) - 1) * size * LEADING / 2 - size / 2
    for count, line in enumerate(chosen.lines):
        step = off - count * size * LEADING
        at = (0.0, step) if upright else (-step, 0.0)
        yield Text(
            string=line,
            at=(x + width / 2 + at[0], y + height / 2 + at[1]),
            height=size,
            angle=0.0 if upright else 90.0,
            anchor=Anchor.MIDDLE,
        )


def _texts(
    need: Need, ruler: Ruler, letters: Lettering, *, turned: bool
) -> tuple[tuple[str, ...], ...]:
    """What may be written in a piece, the fullest first."""
    size_of = by(need.size, ruler)
    short = ruler.text(need.size[0]) if need.size[0] == need.size[1] else size_of
    full = (", ".join(need.keys), size_of) if letters.keys else (short,)
    return (*full, *(("turned",) if turned else ())), full[:1], (short,)


def _fitted(
    texts: Sequence[tuple[str, ...]], letters: Lettering, wide: float, high: float
) -> _Lines:
    """The fullest text that can be read in a room; else the last, as small as it comes."""
    full, first, short = texts
    longest = max(text_width(line, 1.0) for line in full)
    size = min(letters.most, 0.85 * wide / longest, 0.8 * high / (len(full) * LEADING))
    if size >= letters.least:
        return _Lines(full, size)
    size = min(letters.most, 0.85 * wide / text_width(first[0], 1.0), 0.5 * high)
    if size >= letters.readable:
        return _Lines(first, size)
    # Where its name is too long, its size may still be short enough.
    size = min(letters.most, 0.85 * wide / text_width(short[0], 1.0), 0.5 * high)
    return _Lines(short, size)
