"""The pages of a large piece: the plan of how they are joined, then each tile; mm.

Every page but those of the first column and of the last row is cut along its left and lower edge
and glued on the page beside it and below it, up to the line there; rings on these lines fall
together. Lines and words that join pages are grey, what is of the piece has its own colours.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from cutpaths.drawing import Drawing, Item, flatten, move
from cutpaths.errors import DrawingError
from cutpaths.geometry.polygons import between, distance
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Point, Text, shift
from cutpaths.sheets.clear_places import Segment, segments
from cutpaths.sheets.pages.page import KEY, TEXT, Room, Wanted, page
from cutpaths.sheets.pages.paper import Paper, paper_named
from cutpaths.sheets.pages.plan import plan_items
from cutpaths.sheets.pages.text_places import beside_edge, ink, is_clear, text_room
from cutpaths.sheets.pages.tiling import OVERLAP, RING, Cell, Tiling, best_tiling, quick_count
from cutpaths.sheets.pages.window import in_window, shown
from cutpaths.strokes import text_width
from cutpaths.values import Value

PAGES_MOST = 60
# What is offered where a paper is too small, from the smallest.
_OTHERS = ("a3", "ledger", "a2", "a1", "a0", "24 in", "36 in", "60 in")
_CUT = "cut the paper here"
_PARTS = (0.3, 0.7)  # along an edge, where its rings are
_WORD_PARTS = (0.5, 0.17, 0.83, 0.14, 0.86, 0.35, 0.65, 0.25, 0.75)  # and where its words may be
_BESIDE = 4.5  # clear of the rings
_NAME = 7.0  # height of a tile's name
_GRID = 5  # places across and down where it may stand


class Large(Value, kw_only=True):
    """Something that is too large for one page.

    Attributes:
        name: what it is: `BACKING`.
        face: which face is up; empty for what has none.
        items: what is drawn, in one frame.
        texts: for each edge that pages should name, its ends and its words.
        checks: what to measure once the pages are joined, in words.
        said: what its plan says of it; empty where its name is enough.
    """

    name: str
    face: str
    items: tuple[Item, ...]
    texts: tuple[tuple[Segment, str], ...] = ()
    checks: tuple[str, ...] = ()
    said: str = ""

    def ink(self) -> tuple[Segment, ...]:
        """What must be seen, as segments: for a grain line alone, no page is printed."""
        needed = (item for item in self.items if item.role is not Role.GRAIN)
        flat = (part.shape for item in needed for part in flatten(item))
        lines = (shape for shape in flat if isinstance(shape, Path | Circle))
        return tuple(segment for shape in lines for segment in segments(shape))

    def outlines(self) -> tuple[Segment, ...]:
        """What is cut, as segments."""
        cuts = (item.shape for item in self.items if item.role is Role.CUT)
        lines = (shape for shape in cuts if isinstance(shape, Path))
        return tuple(segment for shape in lines for segment in segments(shape))


def tiled(large: Large, paper: Paper) -> Tiling:
    """How it is parted.

    Raises:
        DrawingError: it would take too many pages; with a paper that would do.
    """
    ink = large.ink()
    quick = quick_count(ink, paper)
    found = None if quick > 2 * PAGES_MOST else best_tiling(ink, paper)
    count = quick if found is None else len(found.filled)
    if found is None or count > PAGES_MOST:
        raise DrawingError(
            f"{large.name} takes {count} pages of {paper.name}, and {PAGES_MOST} are the most. "
            + _other_paper(ink)
        )
    return found


def _other_paper(ink: Sequence[Segment]) -> str:
    for name in _OTHERS:
        other = paper_named(name)
        count = quick_count(ink, other)
        if count <= PAGES_MOST:
            pages = "1 page" if count == 1 else f"{count} pages"
            return f"Ask for paper {name}, which takes {pages}, or leave the large pieces out"
    return "No paper is large enough: leave the large pieces out, and measure them on the cloth"


def tile_pages(
    kit: Kit, large: Large, tiling: Tiling, stem: str, first: int = 1, count: int = 0
) -> tuple[Drawing, ...]:
    """The plan, unless there is one page alone, and the tiles.

    Args:
        kit: whose it is.
        large: what is parted.
        tiling: how.
        stem: how the names of the sheets begin.
        first: number of the first of these pages.
        count: how many pages the whole file has; 0 for these alone.
    """
    alone = len(tiling.filled) == 1
    count = count or len(tiling.filled) + (0 if alone else 1)
    cells: list[Cell | None] = [*tiling.filled] if alone else [None, *tiling.filled]
    return tuple(
        _page(kit, large, tiling, cell, f"{stem}-{first + n}", (first + n, count))
        for n, cell in enumerate(cells)
    )


def _page(
    kit: Kit,
    large: Large,
    tiling: Tiling,
    cell: Cell | None,
    name: str,
    number: tuple[int, int],
) -> Drawing:
    if cell is None:
        heading = f"{large.name}: {len(tiling.filled)} pages to join"
        words = (heading, large.said) if large.said else (heading,)
        items = plan_items(words, large.outlines(), tiling, number[0], large.checks)
        what = f"{large.name}, how the pages are joined"
        return page(kit, tiling.room, items, name=name, what=what, number=number)
    alone = len(tiling.filled) == 1
    return page(
        kit,
        tiling.room,
        _lines(large, tiling, cell),
        name=name,
        what=large.name if alone else f"{large.name}, {cell_words(cell)}",
        number=number,
        face=large.face,
        wanted=_wanted(large, tiling, cell),
    )


def cell_words(cell: Cell) -> str:
    """What a tile is called: `row 2, column 3`."""
    return f"row {cell[0]}, column {cell[1]}"


def _lines(large: Large, tiling: Tiling, cell: Cell) -> tuple[Item, ...]:
    """What a tile shows of the piece, and the lines to join it by, on its page."""
    home = _home(tiling, cell)
    drawn = [move(home, item) for item in in_window(large.items, tiling.window(cell))]
    joins = tuple(item for join in _joins(tiling, cell) for item in _join(join))
    lines = ink(joins)
    # A text on a line to cut by is left out: the plan has it too.
    clear = (item for item in drawn if _is_off(item, lines))
    return (*clear, *joins)


def _is_off(item: Item, lines: Sequence[Segment]) -> bool:
    return not isinstance(item.shape, Text) or is_clear(text_room(item.shape), lines)


def _home(tiling: Tiling, cell: Cell) -> Motion:
    """From the frame of the piece to the page."""
    left, bottom = tiling.corner(cell)
    return shift(tiling.room.left - left, tiling.room.bottom - bottom)


def _wanted(large: Large, tiling: Tiling, cell: Cell) -> Iterator[Wanted]:
    """The texts of a tile."""
    home, window = _home(tiling, cell), tiling.window(cell)
    for edge, words in large.texts:
        yield Role.LABEL, _along(home, window, edge, words)
    for join in _joins(tiling, cell):
        yield Role.SCALE, _said(join)
    if len(tiling.filled) > 1:
        yield Role.SCALE, _names(tiling.room, cell)


def _names(room: Room, cell: Cell) -> Iterator[Text]:
    """The tile's name at places all over the page, the middle first."""
    parts = sorted((n / (_GRID + 1) for n in range(1, _GRID + 1)), key=lambda p: abs(p - 0.5))
    for height in (_NAME, _NAME / 2):
        for up in parts:
            for over in parts:
                at = room.left + room.width * over, room.bottom + room.height * up
                yield Text(string=cell_words(cell), at=at, height=height, anchor=Anchor.MIDDLE)


def _along(home: Motion, window: Sequence[Point], edge: Segment, words: str) -> Iterator[Text]:
    """Words inside an edge, along the part of it that a window shows."""
    seen = shown(edge, tuple(window))
    if seen is None or distance(*seen) < text_width(words, TEXT) + 4 * TEXT:
        return iter(())
    ends = home.point(seen[0]), home.point(seen[1])
    return beside_edge(ends, (words,), (1.0,), TEXT)


# --- lines to join by


class _Join(Value, kw_only=True):
    """Where a page is cut, or another is glued on it.

    Attributes:
        line: its ends, to the right or up.
        words: what is done there.
    """

    line: Segment
    words: str


def _joins(tiling: Tiling, cell: Cell) -> Iterator[_Join]:
    row, column = cell
    room = tiling.room
    corner = shift(room.left, room.bottom)
    wide, high = room.width, room.height
    for other, line, cut in (
        ((row, column - 1), ((0.0, 0.0), (0.0, high)), True),
        ((row + 1, column), ((0.0, 0.0), (wide, 0.0)), True),
        ((row, column + 1), ((wide - OVERLAP, 0.0), (wide - OVERLAP, high)), False),
        ((row - 1, column), ((0.0, high - OVERLAP), (wide, high - OVERLAP)), False),
    ):
        if other in tiling.filled:
            ends = corner.point(line[0]), corner.point(line[1])
            yield _Join(line=ends, words=_CUT if cut else f"glue {cell_words(other)} on here")


def _join(join: _Join) -> Iterator[Item]:
    yield Item(Role.SCALE, KEY, Path(join.line))
    for part in _PARTS:
        yield Item(Role.SCALE, KEY, Circle(between(*join.line, part), RING))


def _said(join: _Join) -> Iterator[Text]:
    """Places of a join's words: beside its line, where the page goes on."""
    upright = join.line[0][0] == join.line[1][0]
    for part in _WORD_PARTS:
        x, y = between(*join.line, part)
        yield Text(
            string=join.words,
            at=(x + _BESIDE + TEXT, y) if upright else (x, y + _BESIDE),
            height=TEXT,
            angle=90.0 if upright else 0.0,
            anchor=Anchor.MIDDLE,
        )


def outline_edges(ring: Sequence[Point], names: Iterable[str]) -> tuple[tuple[Segment, str], ...]:
    """Each edge of a ring with its words."""
    points = tuple(ring)
    ends = zip(points, points[1:] + points[:1], strict=True)
    return tuple((edge, name) for edge, name in zip(ends, names, strict=True))
