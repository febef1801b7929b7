"""Large pieces in tiles: every line whole once joined, no page too many, nothing scaled."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from builders import project, squares
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, union_all
from shapely.geometry.base import BaseGeometry

from cutpaths.drawing import Drawing, Item
from cutpaths.errors import DrawingError
from cutpaths.geometry.polygons import edges
from cutpaths.pieces import build
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, Text, shift
from cutpaths.sheets.clear_places import touches
from cutpaths.sheets.pages.pages import _large_piece, page_sheets
from cutpaths.sheets.pages.paper import Paper, paper_named
from cutpaths.sheets.pages.tiled import tiled
from cutpaths.sheets.pages.tiling import EDGE, OVERLAP, Tiling, best_tiling, quick_count
from cutpaths.sheets.pages.window import in_window, shown
from cutpaths.sheets.sheet import Wishes

LETTER, A4, ROLL = paper_named("letter"), paper_named("a4"), paper_named("36 in")
KIT = build(project(squares(6, 7), [5, 5, 5, 5]))
NEAR_MM = 1e-6


def _ring(size: Point) -> tuple[Point, ...]:
    return (0.0, 0.0), (size[0], 0.0), size, (0.0, size[1])


def _ink(size: Point) -> tuple[tuple[Point, Point], ...]:
    return edges(_ring(size))


def _whole(tiling: Tiling, item: Item) -> BaseGeometry:
    """What all pages of a tiling show of an item, in the frame of the piece."""
    parts = []
    for cell in tiling.filled:
        for part in in_window([item], tiling.window(cell)):
            assert isinstance(part.shape, Path)
            points = part.shape.points
            ring = (*points, points[0]) if part.shape.closed else points
            parts += [LineString(segment) for segment in pairwise(ring)]
    return union_all(parts)


SIDES = st.floats(30.0, 2500.0)


@settings(deadline=None, max_examples=60)
@given(SIDES, SIDES, st.sampled_from([LETTER, A4, ROLL, paper_named("a1")]))
def test_joined_pages_show_a_rectangle_whole(width: float, height: float, paper: Paper) -> None:
    """The lines of all pages together are the outline: nothing is missing, nothing is added."""
    tiling = best_tiling(_ink((width, height)), paper)
    item = Item(Role.CUT, "a", Path(_ring((width, height)), closed=True))
    outline = LineString((*_ring((width, height)), (0.0, 0.0)))
    found = _whole(tiling, item)
    assert abs(found.length - outline.length) < 1e-3
    assert found.hausdorff_distance(outline) < NEAR_MM


@settings(deadline=None, max_examples=60)
@given(SIDES, SIDES)
def test_no_tile_is_printed_for_nothing(width: float, height: float) -> None:
    """Each printed tile has a line in its own part; each other tile has none."""
    ink = _ink((width, height))
    tiling = best_tiling(ink, LETTER)
    for row in range(1, tiling.rows + 1):
        for column in range(1, tiling.columns + 1):
            own = tiling.own((row, column))
            drawn = any(touches(own, segment) for segment in ink)
            assert drawn is ((row, column) in tiling.filled)


def test_own_parts_cover_the_windows_once() -> None:
    """Own parts of neighbours meet in a line, and lie in their windows."""
    tiling = best_tiling(_ink((900.0, 1000.0)), LETTER)
    for row, column in tiling.filled:
        left, bottom = tiling.window((row, column))[0]
        own = tiling.own((row, column))
        assert own[0][0] - left == (OVERLAP if column > 1 else 0.0)
        assert own[0][1] - bottom == (OVERLAP if row < tiling.rows else 0.0)
        assert own[2] == tiling.window((row, column))[2]


@pytest.mark.parametrize(
    ("size", "paper", "most"),
    [
        ((100.0, 100.0), LETTER, 1),
        # 8 mm margins, 14.2 mm of words: a room of 199.9 x 249.2 mm, or 263.4 x 185.7 across.
        ((190.0, 240.0), LETTER, 1),
        ((240.0, 180.0), LETTER, 1),
        ((300.0, 240.0), LETTER, 2),
        ((952.5, 1066.8), LETTER, 18),
        ((940.0, 1067.0), paper_named("a0"), 2),
        ((890.0, 4900.0), ROLL, 1),
    ],
)
def test_a_piece_takes_few_pages(size: Point, paper: Paper, most: int) -> None:
    """The pages that a person would count on are the most that are taken."""
    tiling = best_tiling(_ink(size), paper)
    assert len(tiling.filled) <= most
    assert quick_count(_ink(size), paper) >= len(tiling.filled)


def test_never_more_pages_than_a_plain_grid() -> None:
    """Leaving out and shifting never costs pages: a grid of windows is the worst case."""
    for size in ((300.0, 700.0), (1500.0, 400.0), (2000.0, 2000.0)):
        tiling = best_tiling(_ink(size), A4)
        across = math.ceil((size[0] + 2 * EDGE - OVERLAP) / (194.0 - OVERLAP))
        down = math.ceil((size[1] + 2 * EDGE - OVERLAP) / (281.0 - 14.2 - OVERLAP))
        assert len(tiling.filled) <= across * down


def test_a_window_shows_the_part_of_a_line_that_lies_in_it() -> None:
    """Lines end at its edge, runs stay joined, circles and texts are whole or not there."""
    window = _ring((10.0, 10.0))
    path = Path(((-5.0, 5.0), (5.0, 5.0), (5.0, 20.0), (8.0, 20.0), (8.0, 2.0)))
    items = [
        Item(Role.FOLD, "a", path),
        Item(Role.DOT, "a", Circle((9.0, 9.0), 0.5)),
        Item(Role.DOT, "a", Circle((9.8, 9.0), 0.5)),
        Item(Role.LABEL, "a", Text(string="I", at=(2.0, 2.0), height=2.0)),
        Item(Role.LABEL, "a", Text(string="I", at=(2.0, 9.0), height=2.0)),
    ]
    shapes = [item.shape for item in in_window(items, window)]
    assert shapes == [
        Path(((0.0, 5.0), (5.0, 5.0), (5.0, 10.0))),
        Path(((8.0, 10.0), (8.0, 2.0))),
        Circle((9.0, 9.0), 0.5),
        Text(string="I", at=(2.0, 2.0), height=2.0),
    ]
    assert shown(((0.0, 12.0), (12.0, 0.0)), window) == ((2.0, 10.0), (10.0, 2.0))
    assert shown(((-1.0, 0.0), (0.0, -1.0)), window) is None


# --- drawn


@pytest.fixture(scope="module")
def tiles() -> tuple[Tiling, tuple[Drawing, ...]]:
    """The tiling and the pages of a backing."""
    outputs = page_sheets(KIT, Wishes(paper=LETTER, whole=True))
    (backing,) = [o for o in outputs if o.name == "pages-backing"]
    return tiled(_large_piece(KIT, KIT.backing), LETTER), backing.document.sheets


def test_every_mark_of_a_piece_is_on_its_pages(
    tiles: tuple[Tiling, tuple[Drawing, ...]],
) -> None:
    """Back in the frame of the piece, the pages' dots, seams and outline are those of the piece."""
    tiling, sheets = tiles
    large = _large_piece(KIT, KIT.backing)
    found: dict[Role, list[LineString]] = {}
    dots = set()
    for cell, sheet in zip(tiling.filled, sheets[1:], strict=True):
        left, bottom = tiling.corner(cell)
        home = shift(left - tiling.room.left, bottom - tiling.room.bottom)
        for item in sheet.items:
            if item.key != "backing":
                continue
            if isinstance(item.shape, Path):
                points = tuple(home.point(p) for p in item.shape.points)
                ring = (*points, points[0]) if item.shape.closed else points
                found.setdefault(item.role, []).append(LineString(ring))
            if isinstance(item.shape, Circle):
                x, y = home.point(item.shape.center)
                dots.add((round(x, 4), round(y, 4)))
    for role, lines in found.items():
        wanted = union_all(
            [
                LineString(
                    (*i.shape.points, i.shape.points[0]) if i.shape.closed else i.shape.points
                )
                for i in large.items
                if i.role is role and isinstance(i.shape, Path)
            ]
        )
        assert union_all(lines).hausdorff_distance(wanted) < 1e-5, role
    must = {
        (round(i.shape.center[0], 4), round(i.shape.center[1], 4))
        for i in large.items
        if isinstance(i.shape, Circle)
    }
    assert dots == must
    roles = {i.role for i in large.items if isinstance(i.shape, Path)}
    # No page is printed for the grain line alone: the plan tells it in words.
    assert set(found) == roles - {Role.GRAIN}
    said = [i.shape.string for i in sheets[0].items if isinstance(i.shape, Text)]
    assert "grain from foot to head, the print upright" in " ".join(said)


def test_rings_of_neighbours_fall_together(tiles: tuple[Tiling, tuple[Drawing, ...]]) -> None:
    """Each ring on a page's cut line is a ring on the glue line of the page it goes on."""
    tiling, sheets = tiles
    places: dict[tuple[int, int], set[tuple[float, float]]] = {}
    for cell, sheet in zip(tiling.filled, sheets[1:], strict=True):
        left, bottom = tiling.corner(cell)
        home = shift(left - tiling.room.left, bottom - tiling.room.bottom)
        rings = [
            i.shape for i in sheet.items if i.role is Role.SCALE and isinstance(i.shape, Circle)
        ]
        centers = [home.point(ring.center) for ring in rings]
        places[cell] = {(round(x, 3), round(y, 3)) for x, y in centers}
    shared = 0
    for row, column in tiling.filled:
        for other in ((row, column + 1), (row + 1, column)):
            if other in places:
                assert len(places[row, column] & places[other]) == 2
                shared += 2
    assert sum(map(len, places.values())) == 2 * shared


def test_the_plan_names_every_page(tiles: tuple[Tiling, tuple[Drawing, ...]]) -> None:
    """The first page says which page goes where, and each page its row and column."""
    tiling, sheets = tiles
    texts = [i.shape.string for i in sheets[0].items if isinstance(i.shape, Text)]
    for n in range(2, len(sheets) + 1):
        assert texts.count(str(n)) == 1
    assert texts.count("-") == tiling.rows * tiling.columns - len(tiling.filled)
    for (row, column), sheet in zip(tiling.filled, sheets[1:], strict=True):
        words = [i.shape.string for i in sheet.items if isinstance(i.shape, Text)]
        assert f"row {row}, column {column}" in words
        assert f"BACKING, row {row}, column {column}, wrong side up" in words


def test_too_many_pages_are_refused_with_a_paper_that_does() -> None:
    """One line: the piece, its pages, and the smallest paper that is enough."""
    huge = build(project(squares(60, 60), [3, 3, 3, 3]))
    with pytest.raises(DrawingError) as caught:
        page_sheets(huge, Wishes(paper=LETTER, whole=True))
    assert str(caught.value) == (
        "BACKING takes 138 pages of letter, and 60 are the most. "
        "Ask for paper a1, which takes 42 pages, or leave the large pieces out"
    )
    with pytest.raises(DrawingError) as none:
        page_sheets(
            build(project(squares(999, 200), [3, 3, 3, 3])), Wishes(paper=LETTER, whole=True)
        )
    assert str(none.value) == (
        "BACKING takes 1202 pages of letter, and 60 are the most. "
        "No paper is large enough: leave the large pieces out, and measure them on the cloth"
    )


def test_large_pieces_come_unasked_only_where_few_pages_do() -> None:
    """On letter they must be asked for; on A0 and on a roll they are there."""
    for paper, names in (
        (LETTER, ["pages"]),
        (paper_named("a0"), ["pages", "pages-backing", "pages-top"]),
        (ROLL, ["pages", "pages-backing", "pages-top"]),
    ):
        assert [o.name for o in page_sheets(KIT, Wishes(paper=paper))] == names
