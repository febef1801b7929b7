"""The plan of the pages of a large piece: a small picture of which page goes where; mm.

The picture is no pattern: it is drawn smaller than the piece, and says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Item, move
from cutpaths.geometry.outlines import rectangle
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text, shift
from cutpaths.sheets.clear_places import Segment
from cutpaths.sheets.pages.page import KEY
from cutpaths.sheets.pages.text_places import bounds, placed_texts
from cutpaths.sheets.pages.tiling import OVERLAP, Tiling
from cutpaths.sheets.pages.words import paragraphs
from cutpaths.sheets.sheet import SCALE_MM
from cutpaths.strokes import text_width

_TITLE, _TEXT = 4.0, 2.6
_GAP = 6.0
_OFF = 0.4  # from a number to a line
_LARGEST = 0.5  # the picture must not be taken for the piece
_HEADS = (14.0, 5.0)  # room for the names of rows and columns


def plan_items(
    words: Sequence[str],
    outlines: Sequence[Segment],
    tiling: Tiling,
    number: int,
    checks: Sequence[str],
) -> tuple[Item, ...]:
    """The plan page's words and picture.

    Args:
        words: the heading, and what else is said of the piece.
        outlines: what is cut.
        tiling: how it is parted.
        number: of this page; the tiles follow it.
        checks: what to measure once the pages are joined.
    """
    room = tiling.room
    heading = paragraphs(words[:1], _TITLE, room.width)
    steps = paragraphs((*words[1:], *_steps(tiling, checks)), _TEXT, room.width, hang=4.0)
    under = bounds(heading)[1] - _GAP / 2
    texts = (*heading, *(move(shift(0.0, under), item) for item in steps))
    home = shift(room.left, room.top - bounds(texts)[3])
    hung = tuple(move(home, item) for item in texts)
    # Below the words the picture, and beside or under it room for the scale square.
    top = bounds(hung)[1] - _GAP
    high, wide = top - room.bottom, room.width
    beside = wide - SCALE_MM - _GAP, high
    under_it = wide, high - SCALE_MM - _GAP
    space = max((beside, under_it), key=lambda each: _scale(tiling, each))
    return (*hung, *_picture(outlines, tiling, number, (room.left, top), space))


def _steps(tiling: Tiling, checks: Sequence[str]) -> Iterator[str]:
    blank = tiling.rows * tiling.columns - len(tiling.filled)
    yield "1. Print all pages at 100 %, actual size, on one side. Measure the square on each."
    yield (
        "2. Rows count from the head, columns from the left; the plan has the number of each page. "
        "Where a page says so, cut it along its left and its lower edge."
    )
    yield (
        f"3. Glue or tape row by row: each page goes on the {OVERLAP:g} mm strip of the page "
        "before it, up to the line, ring on ring; then each row on the row below."
    )
    if blank:
        yield "4. Places marked - have no page, because nothing is drawn there: the frame is open."
    if checks:
        yield f"{5 if blank else 4}. Measure what is joined: {'; '.join(checks)}."


def _scale(tiling: Tiling, space: tuple[float, float]) -> float:
    wide, high = _extent(tiling)
    return min((space[0] - _HEADS[0]) / wide, (space[1] - _HEADS[1]) / high)


def _extent(tiling: Tiling) -> tuple[float, float]:
    across, up = tiling.step
    return tiling.columns * across + OVERLAP, tiling.rows * up + OVERLAP


def _picture(
    outlines: Sequence[Segment],
    tiling: Tiling,
    number: int,
    corner: Point,
    space: tuple[float, float],
) -> Iterator[Item]:
    """The piece and the tiles on it, hung from an upper left corner, as large as the space."""
    scale = min(_LARGEST, _scale(tiling, space))
    left, bottom = corner[0] + _HEADS[0], corner[1] - _HEADS[1] - _extent(tiling)[1] * scale
    across, up = (step * scale for step in tiling.step)
    x, y = tiling.origin
    lines = [
        Item(
            Role.CUT,
            KEY,
            Path(tuple((left + (px - x) * scale, bottom + (py - y) * scale) for px, py in segment)),
        )
        for segment in outlines
    ]
    pages = {cell: number + n for n, cell in enumerate(tiling.filled, start=1)}
    for row in range(1, tiling.rows + 1):
        for column in range(1, tiling.columns + 1):
            low = left + (column - 1) * across, bottom + (tiling.rows - row) * up
            page = pages.get((row, column))
            if page:
                ring = shift(*low).ring(rectangle(across, up))
                lines.append(Item(Role.SCALE, KEY, Path(ring, closed=True)))
            said = _in_cell(str(page or "-"), low, (across, up))
            lines += placed_texts([said], lines, Role.LABEL, KEY, always=True, gap=_OFF)
    head = corner[1] - _HEADS[1] + _GAP / 3
    lines += (
        _small(f"column {n + 1}", (left + (n + 0.5) * across, head), across)
        for n in range(tiling.columns)
    )
    lines += (
        _small(
            f"row {n + 1}", (corner[0] + _HEADS[0] / 2 - 1, bottom + (rows - 0.5) * up), _HEADS[0]
        )
        for n, rows in enumerate(range(tiling.rows, 0, -1))
    )
    return iter(lines)


def _in_cell(text: str, low: Point, size: Point) -> Iterator[Text]:
    """Places of a text in a tile of the plan."""
    height = min(4.0, size[1] / 3, 0.6 * size[0] / text_width(text, 1.0))
    for tall in (height, height * 0.75, height * 0.55):
        room = size[0] - text_width(text, tall)
        for up in (0.5, 0.3, 0.7, 0.15, 0.85):
            for over in (0.5, 0.93, 0.07):
                at = low[0] + room * over, low[1] + size[1] * up - tall / 2
                yield Text(string=text, at=at, height=tall)


def _small(text: str, at: Point, room: float) -> Item:
    height = min(_TEXT, 0.9 * room / text_width(text, 1.0))
    return Item(Role.LABEL, KEY, Text(string=text, at=at, height=height, anchor=Anchor.MIDDLE))
