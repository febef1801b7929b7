"""Words of several lines on a page, as wide as they have room; mm.

A line is a text, or a sample of a role's line with its meaning.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cutpaths.drawing import Item
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Path
from cutpaths.sheets.pages.page import KEY
from cutpaths.sheets.sheet import label
from cutpaths.sheets.wrap import wrapped

LEADING = 1.75  # from line to line, as a multiple of the height
APART = 0.6  # more between paragraphs
_SAMPLE = 24.0
_BESIDE = 4.0


def paragraphs(
    texts: Iterable[str], height: float, width: float, hang: float = 0.0
) -> tuple[Item, ...]:
    """Texts below one another, from the origin down; lines after the first stand in by `hang`."""
    items: list[Item] = []
    y = 0.0
    for text in texts:
        for number, line in enumerate(_lines(text, height, width, hang)):
            y -= height if not items else height * LEADING
            items.append(label(KEY, line, (hang if number else 0.0, y), height))
        y -= height * APART
    return tuple(items)


def _lines(text: str, height: float, width: float, hang: float) -> tuple[str, ...]:
    return wrapped(text, height, width - hang)


def line_key(roles: Iterable[Role], height: float) -> tuple[Item, ...]:
    """A sample of each role's line and what it is, from the origin down."""
    return tuple(item for n, role in enumerate(roles) for item in _sample(role, n, height))


def _sample(role: Role, number: int, height: float) -> Iterator[Item]:
    y = -height * (1 + LEADING * number)
    yield Item(role, KEY, Path(((0.0, y + height / 2), (_SAMPLE, y + height / 2))))
    yield label(KEY, STYLES[role].meaning, (_SAMPLE + _BESIDE, y), height)
