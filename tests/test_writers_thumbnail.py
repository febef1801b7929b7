"""Small pictures for a page: few letters, true proportions, nothing but shapes."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

from sample_drawings import sheet

from cutpaths.drawing import Drawing, Item
from cutpaths.paint import Paint
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Text
from cutpaths.values import replace
from cutpaths.writers.thumbnail import thumbnail

SAND, SEA = Paint(colour=(224, 208, 160)), Paint(colour=(96, 160, 144))


def _drawing(*items: Item, size: tuple[float, float] = (200.0, 100.0)) -> Drawing:
    return replace(sheet().sheets[0], size=size, items=items)


def _square(x: float, y: float, side: float, paint: Paint | None = None) -> Item:
    ring = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return Item(Role.CUT, "square", Path(ring, closed=True), paint)


def _paths(made: str) -> list[dict[str, str]]:
    return [dict(each.attrib) for each in ET.fromstring(made).iter("path")]  # noqa: S314


def test_proportions_and_flip() -> None:
    """The longer side has 400 units; what lies at the foot of the sheet is low in the picture."""
    made = thumbnail(_drawing(_square(0, 0, 50)), "a square", 1000)
    root = ET.fromstring(made)  # noqa: S314
    assert (root.attrib["viewBox"], root.attrib["aria-label"]) == ("0 0 400 200", "a square")
    (path,) = _paths(made)
    assert path["d"] == "M0 200L100 200L100 100L0 100z"


def test_paint_lines_texts_and_dots() -> None:
    """Painted areas have their colour, texts are bars, a dot is at least a unit wide."""
    made = thumbnail(
        _drawing(
            _square(0, 0, 10, SAND),
            _square(10, 0, 10, SEA),
            Item(Role.LABEL, "text", Text(string="Sand", at=(100, 50), height=10)),
            Item(Role.LABEL, "text", Text(string="tiny", at=(100, 20), height=0.5)),
            Item(Role.DOT, "dot", Circle((50, 50), 0.1)),
        ),
        "all",
        1000,
    )
    paths = _paths(made)
    assert [path.get("fill") for path in paths] == ["#e0d0a0", "#60a090", "none", "none"]
    assert (paths[2]["stroke"], paths[2]["stroke-width"]) == ("#9a9a94", "12")
    assert paths[2]["d"].startswith("M200 90L")
    assert paths[3]["d"] == "M99 100a1 1 0 1 0 2 0a1 1 0 1 0 -2 0"


def test_what_is_drawn_twice_is_written_once() -> None:
    """The line that two neighbours share by lying on it twice costs nothing."""
    once, twice = _square(0, 0, 50), [_square(0, 0, 50)] * 5
    assert thumbnail(_drawing(once), "x", 999) == thumbnail(_drawing(*twice), "x", 999)


def test_small_lines_become_blocks_where_there_is_no_room() -> None:
    """All of one length are drawn or none; what is not drawn is a pale block in its place."""
    items = [_square(float(x), 0, 6) for x in range(0, 96, 8)] + [_square(0, 0, 100)]
    blocks, line = _paths(thumbnail(_drawing(*items), "many", 60))
    assert line["d"] == "M0 200L200 200L200 0L0 0z"
    assert (blocks["fill"], blocks["d"][:4]) == ("#d3d1c9", "M0 1")
    assert len(_paths(thumbnail(_drawing(*items), "many", 1000))) == 1


def test_a_huge_top_becomes_a_mosaic() -> None:
    """Ten thousand painted patches are few letters, in the colours that they have."""
    paints = SAND, SEA
    items = [
        _square(10.0 * x, 10.0 * y, 10.0, paints[(x // 20 + y // 20) % 2])
        for x in range(100)
        for y in range(100)
    ]
    made = thumbnail(_drawing(*items, size=(1000.0, 1000.0)), "top", 20_000)
    assert len(made) < 60_000
    fills = [path["fill"] for path in _paths(made)]
    assert set(fills) == {"#e0d0a0", "#60a090"}
    covered = [sum(map(int, re.findall(r"h(\d+)v8", path["d"]))) for path in _paths(made)]
    assert sum(covered) == 50 * 50 * 8
    assert abs(covered[0] - covered[1]) < 200 * 8


def test_nothing_in_it_names_or_runs() -> None:
    """Its text is escaped, and it has no id, link, script or style."""
    made = thumbnail(_drawing(_square(0, 0, 9)), '"><script>alert(1)</script>', 1000)
    tags = {each.tag for each in ET.fromstring(made).iter()}  # noqa: S314
    names = {name for each in ET.fromstring(made).iter() for name in each.attrib}  # noqa: S314
    assert tags == {"svg", "rect", "path"}
    assert names & {"id", "href", "style", "class", "onload"} == set()
    assert "&quot;&gt;&lt;script&gt;" in made
