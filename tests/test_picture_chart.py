"""The layout chart: names, numbers, key and arrows."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from pictures import NAMES, kit, made, painted, sheets
from shapely.geometry import LineString, MultiPolygon, Point, Polygon

from cutpaths.drawing import Drawing, text_paths
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.project.patchwork import Bricks, OnPoint, Patchwork, Squares
from cutpaths.roles import Role
from cutpaths.shapes import Path as Line
from cutpaths.shapes import Text
from cutpaths.sheets.chart_names import names_of

if TYPE_CHECKING:
    from cutpaths.pieces import Kit

PIECED = [name for name in NAMES if kit(name).pieced]
INCH = 25.4


def _texts(sheet: Drawing) -> list[Text]:
    return [i.shape for i in sheet.items if isinstance(i.shape, Text)]


def _strings(sheet: Drawing) -> list[str]:
    return [text.string for text in _texts(sheet)]


def _top(name: str) -> Patchwork:
    top = kit(name).project.top
    assert isinstance(top, Patchwork)
    return top


def test_a_top_of_one_cloth_has_no_chart() -> None:
    """There is nothing to lay out."""
    assert sorted(sheets(kit("orchard"))) == ["back", "front"]
    assert sorted(sheets(kit("tidepool"))) == ["back", "chart", "front"]


@pytest.mark.parametrize("name", PIECED)
def test_each_patch_has_its_number_inside(name: str) -> None:
    """Each patch that is large enough holds the number of its piece, and no line crosses it."""
    sheet = sheets(kit(name))["chart"]
    patches = painted(sheet, "patch-")
    assert len(patches) == sum(piece.count for piece in kit(name).patchwork.pieces())
    keys = [i.key for i in sheet.items if i.paint is not None and i.key.startswith("patch-")]
    numbers = [t for t in _texts(sheet) if t.string.isdigit()]
    found: Counter[str] = Counter()
    for text in numbers:
        ink = LineString([p for path in text_paths(text) for p in path.points])
        holders = [key for key, patch in zip(keys, patches, strict=True) if patch.covers(ink)]
        assert holders == [f"patch-{text.string}"]
        found[holders[0]] += 1
    if "too small" not in " ".join(_strings(sheet)):
        assert found == Counter(keys)


def test_names_are_those_of_the_project_file() -> None:
    """Rows from the head, columns from the left: the middles of 4 1/2 in squares."""
    names = names_of(_top("tidepool"))
    assert names.rows == pytest.approx([(31.5 - 4.5 * (i + 0.5)) * INCH for i in range(7)])
    assert names.head == pytest.approx([4.5 * (i + 0.5) * INCH for i in range(6)])
    assert names.foot == ()
    strings = _strings(sheets(kit("tidepool"))["chart"])
    assert [s for s in strings if s.startswith("r") and s[1:].isdigit()] == [
        f"r{i}" for i in range(1, 8)
    ]
    assert [s for s in strings if s.startswith("c") and s[1:].isdigit()] == [
        f"c{i}" for i in range(1, 7)
    ]


@pytest.mark.parametrize("name", ["tidepool", "doorway", "fjord", "trellis", "kiln"])
def test_a_row_and_a_column_name_one_patch(name: str) -> None:
    """Where a row and a column of it meet lies the patch that the project's chart has there."""
    names, top = names_of(_top(name)), _top(name)
    assert isinstance(top, Squares | OnPoint | Bricks)
    placed = [
        (piece.fabric, Polygon(place.ring(select(piece.marks, MarkKind.SEAM_RING)[0].points)))
        for piece in kit(name).patchwork.pieces()
        for place in piece.places
    ]
    assert len(names.rows) == len(top.chart)
    for i, (y, fabrics) in enumerate(zip(names.rows, top.chart, strict=True)):
        places = (names.foot or names.head) if i % 2 else names.head
        for x, fabric in zip(places, fabrics, strict=True):
            assert [f for f, ring in placed if ring.covers(Point(x, y))] == [fabric]


def test_rows_that_take_turns_have_two_lines_of_names() -> None:
    """On point, 4 squares a full row and 3 between; bricks, 7 and 6 with two halves."""
    trellis, kiln = names_of(_top("trellis")), names_of(_top("kiln"))
    assert (len(trellis.head), len(trellis.foot), len(trellis.rows)) == (4, 3, 9)
    step = 6 * 2**0.5 * INCH
    assert trellis.head == pytest.approx([step * (i + 0.5) for i in range(4)])
    assert trellis.foot == pytest.approx([step * (i + 1) for i in range(3)])
    assert (len(kiln.head), len(kiln.foot), len(kiln.rows)) == (7, 8, 14)
    assert kiln.foot == pytest.approx(
        [(1.5 + 6 * i) * INCH if not i else (6 * i if i < 7 else 40.5) * INCH for i in range(8)]
    )


def test_blocks_are_named_between_their_sashing() -> None:
    """Blocks of 9 in with sashing of 1 1/4 in between and round them."""
    names = names_of(_top("windrose"))
    assert names.head == pytest.approx([(1.25 + 4.5 + 10.25 * i) * INCH for i in range(4)])
    assert names.rows == pytest.approx([(32 - 1.25 - 4.5 - 10.25 * i) * INCH for i in range(3)])


def test_where_names_are_crowded_every_second_or_fifth_is_shown() -> None:
    """60 columns at 800 pixels have room for every fifth name, 60 rows for every second."""
    strings = _strings(sheets(kit("sixty"))["chart"])
    columns = [s for s in strings if s.startswith("c") and s[1:].isdigit()]
    rows = [s for s in strings if s.startswith("r") and s[1:].isdigit()]
    assert columns == [f"c{i}" for i in range(5, 61, 5)]
    assert rows == [f"r{i}" for i in range(2, 61, 2)]


def _arrows(shown: Kit) -> list[tuple[Point, Point]]:
    """Tail and head of each arrow, from the lower left corner of the top."""
    sheet = sheets(shown)["chart"]
    left, foot, _, _ = MultiPolygon(painted(sheet, "patch-")).bounds
    lines = [i.shape for i in sheet.items if i.role is Role.MATCH and isinstance(i.shape, Line)]
    ends = [[Point(x - left, y - foot) for x, y in line.points] for line in lines]
    return [(line[0], line[1]) for line in ends if len(line) == 2]


def test_arrows_show_the_way_of_pressing() -> None:
    """Each arrow of four squares crosses one seam; rows are pressed in turn, as the trade does."""
    shown = made(
        'top = { layout = "squares", patch = 5, columns = 2, rows = 2, fabrics = ["a", "b"] }\n'
        'border = { width = 2 }\nbacking = { fabric = "a" }\nfabric = { a = {}, b = {} }\n'
        'patches = { pressing = "alternate" }\nopening = { length = 3 }'
    )
    arrows = _arrows(shown)
    seams = shown.patchwork.all_seams()
    assert len(arrows) == len(seams) == 3
    for tail, head in arrows:
        way = head.x - tail.x, head.y - tail.y
        (seam,) = [
            s for s in seams if LineString([tail, head]).crosses(LineString([s.start, s.end]))
        ]
        assert seam.press is not None
        assert way[0] * seam.press[0] + way[1] * seam.press[1] > 0
    level = sorted(round(head.x - tail.x) for tail, head in arrows)
    assert level[0] < 0 == level[1] < level[2]
    assert "Arrows show which way seam allowances are pressed." in _strings(sheets(shown)["chart"])


def test_pressing_open_needs_no_arrows() -> None:
    """The chart says it in words."""
    assert _arrows(kit("tidepool")) == []
    assert "Press seams open." in _strings(sheets(kit("tidepool"))["chart"])


@pytest.mark.parametrize("name", ["lighthouse", "windrose"])
def test_no_arrow_touches_a_text(name: str) -> None:
    """Arrows keep clear of the numbers and names in the patches."""
    sheet = sheets(kit(name))["chart"]
    inks = [
        LineString([p for path in text_paths(t) for p in path.points]).envelope
        for t in _texts(sheet)
    ]
    lines = [
        LineString(i.shape.points)
        for i in sheet.items
        if i.role is Role.MATCH and isinstance(i.shape, Line)
    ]
    assert len(lines) > 40
    assert [line for line in lines if any(line.intersects(ink) for ink in inks)] == []


def test_the_key_names_fabrics_and_patches() -> None:
    """Each fabric of the top, each patch with its shape, finished size and count."""
    strings = _strings(sheets(kit("lighthouse"))["chart"])
    assert "brick: Brick red" in strings
    assert "2: brick, half-square triangle 4 in, 7 pieces" in strings
    assert "4: rope, rectangle 1 1/2 in x 12 in, 4 pieces" in strings
    assert "10: fog, quarter-square triangle 4 in, 2 pieces" in strings
    assert "8: tide, square 8 in, 1 piece" in strings
