"""Packing list, labels and table: everything in the kit, once, with the figures' own sizes."""

from __future__ import annotations

import csv
import io
from itertools import combinations
from pathlib import Path

import pytest
from shapely.geometry import Polygon
from shapely.geometry import box as rectangle

from cutpaths.drawing import Drawing, Item
from cutpaths.figures import figures_of
from cutpaths.formats import render_checked
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Text
from cutpaths.shapes import Path as Line
from cutpaths.sheets.labels.contents import contents_of
from cutpaths.sheets.labels.labels import labels_of
from cutpaths.sheets.labels.make import label_sheets
from cutpaths.sheets.pages.paper import paper_named
from cutpaths.sheets.sheet import Wishes
from cutpaths.strokes import text_width

FIXTURES = sorted((Path(__file__).parent.parent / "fixtures").glob("*.toml"))
KITS = {path.stem: build(load(path)) for path in FIXTURES}

FOUR = (
    'format = 1\ntitle = "Four"\n[top]\nlayout = "squares"\npatch = 5\ncolumns = 4\n'
    "rows = 4\n[border]\nwidth = { A = 2, B = 3, C = 4, D = 5 }\n"
)
CLOTHS = 40
LONG = (
    "A title of a hundred and twenty letters, such as nobody needs but somebody will write = once"
)
MANY = f"""\
format = 1
title = "{LONG:x<120}"
[pattern]
version = "2.10"
batch = "B-114"
[top]
layout = "squares"
patch = 3
columns = 10
rows = 12
fabrics = [{", ".join(f'"cloth{n}"' for n in range(CLOTHS))}]
[border]
width = 2
[backing]
fabric = "cloth0"
[fabric]
{{fabrics}}
"""


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Kit:
    """A kit of forty fabrics with long names, by a project with a long title."""
    rows = "\n".join(
        f'cloth{n} = {{ label = "=Flannel {n} with a name that is rather long" }}'
        for n in range(CLOTHS)
    )
    chart = MANY.replace("{fabrics}", rows)
    path = tmp_path_factory.mktemp("many") / "many.toml"
    path.write_text(chart, encoding="utf-8")
    return build(load(path))


def _pages(kit: Kit, name: str, paper: str = "") -> tuple[Drawing, ...]:
    wishes = Wishes(paper=paper_named(paper) if paper else None)
    made = label_sheets(kit, wishes)
    return next(o.document.sheets for o in made if o.name == name and o.document.sheets)


def _table(kit: Kit) -> list[dict[str, str]]:
    made = next(o for o in label_sheets(kit, Wishes()) if o.formats == ("csv",))
    text = render_checked(made.document, "csv").decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("name", KITS)
def test_the_table_has_every_piece_with_its_count(name: str) -> None:
    """Read by the csv module, it has the pieces of the kit as often as they are cut, and card."""
    kit = KITS[name]
    counts = {row["piece"]: int(row["count"]) for row in _table(kit) if row["piece"]}
    templates = {template.piece.key: 1 for template in kit.templates}
    assert counts == {piece.key: piece.count for piece in kit.cloth} | templates
    bundles = [row["bundle"] for row in _table(kit) if row["bundle"]]
    assert bundles == [str(n) for n in range(1, len(kit.cloth) + 1)]


@pytest.mark.parametrize("name", KITS)
def test_sizes_are_the_texts_of_the_figures(name: str) -> None:
    """Every size that the figures have stands in the table as they print it."""
    texts = {f.key: f.text for group in figures_of(KITS[name]).groups for f in group.figures}
    for row in _table(KITS[name]):
        key = row["piece"].lower()
        cut = [texts[k] for k in (f"{key}.cut", f"{key}.cut.width", f"{key}.width") if k in texts]
        assert [row["cut size"][: len(text)] for text in cut] == cut
        if f"{key}.finished" in texts and not cut and row["what"].endswith("triangle"):
            assert row["cut size"].endswith(texts[f"{key}.finished"])
        if f"{key}.from" in texts:
            assert texts[f"{key}.from"].split(";")[0] in row["cut from, or when"]
        assert (row["cut size"] != "") is (row["fabric"] != "paper")


def test_windrose_by_hand() -> None:
    """A few rows of an example, as the figures of the example have them."""
    rows = {row["piece"]: row for row in _table(KITS["windrose"])}
    halves = rows["PATCH-2"]
    assert (halves["what"], halves["fabric"], halves["count"]) == (
        "half-square triangle",
        "Ink blue",
        "48",
    )
    assert halves["cut size"] == "finished short edges 3 in (76.2 mm)"
    assert halves["cut from, or when"] == "from 24 squares of 3 7/8 in, cut once on the diagonal"
    assert rows["BACKING"]["cut size"] == "50 3/4 in (1289.1 mm) x 40 1/2 in (1028.7 mm)"


def test_a_label_for_the_kit_each_bundle_and_each_template() -> None:
    """Nothing goes without a label, and a bundle's says how many of what it has."""
    kit = KITS["tidepool"]
    told = list(labels_of(contents_of(kit)))
    assert [label.what for label in told] == [
        "Kit for one blanket",
        "21 squares",
        "21 squares",
        "1 length for the backing",
        "Corner template",
    ]
    assert told[1].lines[:2] == ("PATCH-1, bundle 1 of 3", "cut 5 in (127 mm)")
    assert told[0].lines[1] == "No soft bedding in the sleep space of a child under 1."


def test_a_backing_waits_for_a_pieced_top_alone() -> None:
    """It goes into the kit as a length; under a top of one cloth it is cut to size at once."""
    rows = {row["piece"]: row for row in _table(KITS["tidepool"])}
    assert rows["BACKING"]["what"] == "length for the backing"
    assert rows["BACKING"]["cut from, or when"] == "cut when the top is measured"
    label = next(each for each in labels_of(contents_of(KITS["tidepool"])) if "length" in each.what)
    assert label.lines[1:] == (
        "planned size 37 1/2 in (952.5 mm) x 42 in (1066.8 mm)",
        "cut when the top is measured",
    )
    rows = {row["piece"]: row for row in _table(KITS["beehive"])}
    assert rows["BACKING"]["what"] == "backing"
    assert rows["BACKING"]["cut from, or when"] == ""


def test_panels_of_a_pieced_tops_backing_wait_too(tmp_path: Path) -> None:
    """A joined backing goes into the kit as a length for each of its panels."""
    path = tmp_path / "joined.toml"
    join = '[backing]\njoin = { seams = 1, run = "down" }\n'
    path.write_text(FOUR.replace("{ A = 2, B = 3, C = 4, D = 5 }", "2") + join, encoding="utf-8")
    panels = [row for row in _table(build(load(path))) if row["piece"].startswith("PANEL")]
    assert [row["what"] for row in panels] == ["length for a panel of the backing"] * 2


def test_a_card_is_checked_by_its_long_edge_and_its_holes() -> None:
    """Dot to dot is twice a border times the root of 2, 5 in x 1.41421 here; by hand."""
    rows = {row["piece"]: row for row in _table(KITS["tidepool"])}
    assert rows["CORNER-TEMPLATE"]["cut size"] == (
        "long edge ~8 7/8 in (224.5 mm), hole to hole ~7 1/8 in (179.6 mm)"
    )
    assert round(5 * 2**0.5 * 25.4, 1) == 179.6
    label = list(labels_of(contents_of(KITS["tidepool"])))[-1]
    assert label.lines[-1] == "Measure it before it is used."


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_keys_of_templates_stand_in_one_line(paper: str, tmp_path: Path) -> None:
    """The list parts no key inside, `CORNER-TEMPLATE-4` neither."""
    path = tmp_path / "four.toml"
    path.write_text(FOUR, encoding="utf-8")
    (page,) = _pages(build(load(path)), "kit-list", paper)
    strings = [text.string for text in _texts(page)]
    assert [s for s in strings if "TEMPLATE" in s] == [f"CORNER-TEMPLATE-{n}" for n in range(1, 5)]


def test_forty_fabrics(many: Kit) -> None:
    """As many labels as bundles, eight to a page; the list goes on under the same heads."""
    contents = contents_of(many)
    labels = 1 + len(contents.bundles) + len(many.templates)
    pages = _pages(many, "labels")
    assert len(pages) == -(-labels // 8)
    strings = [t.string for page in pages for t in _texts(page)]
    assert strings.count("B-114") == labels
    listed = _pages(many, "kit-list")
    assert len(listed) > 1
    assert all("Cut size" in [t.string for t in _texts(page)] for page in listed)
    boxes = [i for page in listed for i in page.items if _ticked(i)]
    assert len(boxes) == len(contents.parts)
    assert [t.string for t in _texts(listed[-1])][-1] == f"page {len(listed)} of {len(listed)}"


def test_a_hostile_label_is_no_formula(many: Kit) -> None:
    """A fabric's name that begins with a sign is defused in the table alone."""
    assert _table(many)[0]["fabric"] == "'=Flannel 0 with a name that is rather long"
    assert contents_of(many).parts[0].fabric == "=Flannel 0 with a name that is rather long"


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", ["tidepool", "beehive", "windrose", "many"])
def test_texts_keep_apart_and_on_the_page(name: str, paper: str, many: Kit) -> None:
    """No text covers another, a rule or the edge of the paper."""
    kit = many if name == "many" else KITS[name]
    for page in (*_pages(kit, "kit-list", paper), *_pages(kit, "labels", paper)):
        width, height = page.size
        inside = rectangle(5.0, 5.0, width - 5.0, height - 5.0)
        boxes = [_box(text) for text in _texts(page)]
        assert all(inside.covers(each) for each in boxes)
        assert [pair for pair in combinations(boxes, 2) if pair[0].intersects(pair[1])] == []
        rules = [i.shape.points for i in page.items if isinstance(i.shape, Line)]
        rings = [rectangle(*_ends(points)) for points in rules if len(points) == 2]
        assert [r for r in rings for b in boxes if r.intersects(b)] == []


def test_other_papers_fall_back_to_the_usual_one() -> None:
    """A roll or a poster is no paper for labels: those of a project in inches are on letter."""
    assert _pages(KITS["tidepool"], "labels", "36 in")[0].size == (215.9, 279.4)
    assert _pages(KITS["tidepool"], "labels", "a4")[0].size == (210.0, 297.0)
    assert _pages(KITS["tidepool"], "labels")[0].size == (215.9, 279.4)


def test_neighbouring_labels_share_a_line() -> None:
    """Five labels stand in three rows: four lines across and three down part them all."""
    (page,) = _pages(KITS["tidepool"], "labels")
    cuts = [i.shape.points for i in page.items if i.role is Role.CUT and isinstance(i.shape, Line)]
    across = [p for p in cuts if p[0][1] == p[1][1]]
    assert (len(across), len(cuts)) == (4, 7)


def test_a_batch_that_is_not_known_is_left_to_write() -> None:
    """The list of a project without one has an empty line beside the word."""
    kit = KITS["windrose"]
    assert kit.project.pattern.batch == ""
    (page,) = _pages(kit, "kit-list")
    strings = [t.string for t in _texts(page)]
    assert strings[strings.index("Batch") + 1] == "Date"


def _texts(page: Drawing) -> list[Text]:
    return [item.shape for item in page.items if isinstance(item.shape, Text)]


def _ticked(item: Item) -> bool:
    return isinstance(item.shape, Line) and item.shape.closed


def _box(text: Text) -> Polygon:
    """The box of a text, with half of the room under its line for the tails of letters."""
    width = text_width(text.string, text.height)
    left = text.at[0] - (width if text.anchor is Anchor.END else 0.0)
    return rectangle(left, text.at[1] - 0.25 * text.height, left + width, text.at[1] + text.height)


def _ends(points: tuple[tuple[float, float], ...]) -> tuple[float, float, float, float]:
    (x0, y0), (x1, y1) = points
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)
