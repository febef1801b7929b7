"""How a large piece is parted into pages that overlap, so that the fewest are printed; mm.

Tiles lie in rows from the head and in columns from the left, numbered from 1. Each shows a window
of the piece; windows overlap by a strip on which the next page is glued. A tile that would show
nothing of its own is not printed. The paper may lie either way, and the rows and columns may be
shifted within what they have to spare: the way with the fewest pages is taken, and of those the
one that is tried first, or on a roll the shortest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, box
from cutpaths.shapes import Point, shift
from cutpaths.sheets.clear_places import Segment, touches
from cutpaths.sheets.pages.page import Room, room_of
from cutpaths.sheets.pages.paper import Paper
from cutpaths.values import Value, replace

OVERLAP = 15.0
RING = 2.0  # radius of the rings by which pages are joined
EDGE = 2.0  # from the outline of a piece to the edge of its pages
_SHIFTS = 4
_LEAST_LONG = 130.0  # of a roll's page, so that its scale square has room

Cell = tuple[int, int]


class Tiling(Value, kw_only=True):
    """How a piece is parted.

    Attributes:
        room: of each page.
        origin: lower left corner of the lowest row's first window, in the piece's frame.
        columns, rows: how many there are.
        filled: row and column of each tile that is printed, row by row.
    """

    room: Room
    origin: Point
    columns: int
    rows: int
    filled: tuple[Cell, ...]

    @property
    def step(self) -> Point:
        """From a window to the next."""
        return self.room.width - OVERLAP, self.room.height - OVERLAP

    def corner(self, cell: Cell) -> Point:
        """The lower left corner of a tile's window."""
        row, column = cell
        across, up = self.step
        return self.origin[0] + (column - 1) * across, self.origin[1] + (self.rows - row) * up

    def window(self, cell: Cell) -> Ring:
        """The window of a tile."""
        return shift(*self.corner(cell)).ring(rectangle(self.room.width, self.room.height))

    def own(self, cell: Cell) -> Ring:
        """What no page to its left and none below it shows: all tiles' own parts tile the piece."""
        row, column = cell
        left, bottom = self.corner(cell)
        over = OVERLAP if column > 1 else 0.0
        up = OVERLAP if row < self.rows else 0.0
        own = rectangle(self.room.width - over, self.room.height - up)
        return shift(left + over, bottom + up).ring(own)

    @property
    def paper_length(self) -> float:
        """How much paper all pages take, along a roll."""
        return len(self.filled) * max(self.room.size)


def best_tiling(ink: Sequence[Segment], paper: Paper) -> Tiling:
    """The tiling with the fewest pages of those that are tried.

    Args:
        ink: all that is drawn, as segments.
        paper: what the pages are printed on.
    """
    tried = _tilings(ink, paper, _SHIFTS)
    return min(tried, key=lambda tiling: (len(tiling.filled), _length(tiling, paper)))


def quick_count(ink: Sequence[Segment], paper: Paper) -> int:
    """How many pages a piece takes at most, from one try for each way of the paper."""
    return min(len(tiling.filled) for tiling in _tilings(ink, paper, 0))


def _length(tiling: Tiling, paper: Paper) -> float:
    return tiling.paper_length if paper.roll else 0.0


def _tilings(ink: Sequence[Segment], paper: Paper, shifts: int) -> Iterator[Tiling]:
    """The ways that are tried: paper upright first, then across."""
    left, bottom, right, top = box([p for segment in ink for p in segment])
    left, bottom, right, top = left - EDGE, bottom - EDGE, right + EDGE, top + EDGE
    for across in (False, True):
        room = _room(paper, (right - left, top - bottom), across=across)
        columns, over = _needed(right - left, room.width)
        rows, up = _needed(top - bottom, room.height)
        for i in range(shifts + 1) if over > 0 and shifts else (0,):
            for j in range(shifts + 1) if up > 0 and shifts else (0,):
                part = (i / shifts, j / shifts) if shifts else (0.5, 0.5)
                tiling = Tiling(
                    room=room,
                    origin=(left - over * part[0], bottom - up * part[1]),
                    columns=columns,
                    rows=rows,
                    filled=(),
                )
                yield _filled(tiling, ink)


def _room(paper: Paper, size: Point, *, across: bool) -> Room:
    """The room of each tile; a roll's pages are as long as the piece needs, or as they can be."""
    longest = _inset(room_of(paper, across=across))
    if not paper.roll:
        return longest
    along, most = (size[0], longest.width) if across else (size[1], longest.height)
    count, _ = _needed(along, most)
    each = max(_LEAST_LONG, (along + (count - 1) * OVERLAP) / count)
    rest = max(longest.size) - most
    return _inset(room_of(paper, across=across, long=each + rest))


def _inset(room: Room) -> Room:
    """The room without a strip for the halves of the rings on its left and lower edge."""
    return replace(room, left=room.left + RING, bottom=room.bottom + RING)


def _needed(size: float, window: float) -> tuple[int, float]:
    """How many windows cover a length, and how much they have to spare."""
    count = max(1, math.ceil((size - OVERLAP) / (window - OVERLAP) - 1e-9))
    return count, max(0.0, count * (window - OVERLAP) + OVERLAP - size)


def _filled(tiling: Tiling, ink: Sequence[Segment]) -> Tiling:
    """The tiling with the tiles in whose own part something is drawn."""
    across, up = tiling.step
    found: set[Cell] = set()
    for segment in ink:
        (x0, y0), (x1, y1) = segment
        low, high = min(x0, x1) - tiling.origin[0], max(x0, x1) - tiling.origin[0]
        first, last = _span(low, high, across, tiling.room.width, tiling.columns)
        low, high = min(y0, y1) - tiling.origin[1], max(y0, y1) - tiling.origin[1]
        foot, head = _span(low, high, up, tiling.room.height, tiling.rows)
        for column in range(first + 1, last + 2):
            for row in range(tiling.rows - head, tiling.rows - foot + 1):
                cell = row, column
                if cell not in found and touches(tiling.own(cell), segment):
                    found.add(cell)
    return Tiling(
        room=tiling.room,
        origin=tiling.origin,
        columns=tiling.columns,
        rows=tiling.rows,
        filled=tuple(sorted(found)),
    )


def _span(low: float, high: float, step: float, window: float, count: int) -> tuple[int, int]:
    """The first and the last of the windows, from 0, that may hold something of a stretch."""
    first = max(0, math.floor((low - window) / step))
    return first, min(count - 1, math.floor(high / step))
