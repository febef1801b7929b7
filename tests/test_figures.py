"""Figures: the only source of printed numbers.

Sizes of self-bound blankets are checked against published ones; each row names its source. Sizes
in a pattern's title are nominal and are never used.
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

from cutpaths.figures import figures_of, sizes
from cutpaths.figures.model import Figure
from cutpaths.figures.show import as_json, table
from cutpaths.figures.sizes import on_the_ruler
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.lengths import INCH, Ruler, Unit, as_fraction
from cutpaths.pieces import build
from cutpaths.project import load, read

FIXTURES = Path(__file__).parent.parent / "fixtures"


def _panel(top: str, backing: str, extra: str = "") -> str:
    return f"""
        format = 1
        title = "Check"
        {extra}
        [top]
        layout = "panel"
        cut = {top}
        [border]
        backing = {backing}
    """


def _found(text: str) -> dict[str, Figure]:
    shown = figures_of(build(read(text)))
    return {figure.key: figure for group in shown.groups for figure in group.figures}


def _inches(figure: Figure) -> Fraction:
    assert figure.value is not None
    return figure.value / INCH


@pytest.mark.parametrize(
    ("top", "backing", "border", "finished"),
    [
        # Utah State University Extension, "Mitered Corner Baby Blanket": top and backing as
        # published, border and finished size derived from them.
        pytest.param(32, 42, Fraction(5, 2), Fraction(73, 2), id="USU Extension"),
        # Utah State University Extension (Juab County), handout, 2007: likewise.
        pytest.param(30, 40, Fraction(5, 2), Fraction(69, 2), id="USU Extension, Juab County"),
    ],
)
def test_published_turned_blankets(
    top: int, backing: int, border: Fraction, finished: Fraction
) -> None:
    """A published top and backing give the border and the finished size that follow from them."""
    found = _found(_panel(f"{{ width = {top}, height = {top} }}", str(backing)))
    assert _inches(found["border"]) == border
    assert _inches(found["finished.width"]) == finished
    assert _inches(found["backing.height"]) == backing


def test_published_turned_blanket_with_half_inch_seams() -> None:
    """Top 18, backing 26, seam 1/2: 21 finished, as a sewing blog prints (18 + 26)/2 - 1 = 21."""
    extra = "[seams]\nallowance = '1/2'\nbasting = '1/4'"
    found = _found(_panel("{ width = 18, height = 18 }", "26", extra))
    assert _inches(found["finished.width"]) == 21
    assert _inches(found["border"]) == 2


def test_published_metric_blanket() -> None:
    """Top 76 cm, backing 100 cm, seam 1 cm (a metric sewing blog): border 6, finished 86."""
    extra = "units = 'cm'\n[seams]\nallowance = 1\nbasting = '0.5'"
    found = _found(_panel("{ width = 76, height = 76 }", "100", extra))
    assert found["border"].value == 60
    assert found["finished.width"].value == 860
    assert found["finished.width"].text == "86 cm (~33 7/8 in)"


def test_published_rectangle() -> None:
    """Backing 4 in larger than a 32 x 36 top (a quilting blog: "approx. 1 in miter"): border 1."""
    found = _found(_panel("{ width = 32, height = 36 }", "{ width = 36, height = 40 }"))
    assert _inches(found["border"]) == 1


def test_published_folded_over_blanket() -> None:
    """Top 30, backing 34, folded over: border 1, finished 30 (Care Wear, blanket instructions)."""
    text = _panel("{ width = 30, height = 30 }", "34", 'construction = "folded-over"')
    found = _found(text)
    assert _inches(found["border"]) == 1
    assert _inches(found["finished.width"]) == 30


def test_published_marks_of_a_corner() -> None:
    """Dots 5 1/4 along and 1/4 in, dot to fold 3.5355 (USU Extension, "Mitered Corner ...").

    The place of the dots is as published; the length of the miter line is derived from it.
    """
    found = _found(_panel("{ width = 32, height = 32 }", "42"))
    assert _inches(found["corner.1.dot.along"]) == Fraction(21, 4)
    assert _inches(found["corner.1.dot.in"]) == Fraction(1, 4)
    assert float(_inches(found["corner.1.dot-to-fold"])) == pytest.approx(3.535534, abs=1e-6)


def test_waste_of_a_published_corner() -> None:
    """The 30/40 corner with a 1/4 in trim wastes 13.24 sq in, legs 5.146 (derived)."""
    found = _found(_panel("{ width = 30, height = 30 }", "40"))
    assert float(_inches(found["corner.1.trim-line"])) == pytest.approx(5.146447, abs=1e-6)
    assert found["corner.1.waste"].text == "13.24 sq in (85.4 cm²)"


def test_turn_of_cloth() -> None:
    """Top 30, border 2 1/2, turn 1/8: backing 40 1/4, finished 34 1/2 (derived)."""
    text = """
        format = 1
        title = "Check"
        turn_of_cloth = "1/8"
        [top]
        layout = "panel"
        cut = { width = 30, height = 30 }
        [border]
        width = "2 1/2"
    """
    found = _found(text)
    assert _inches(found["backing.width"]) == Fraction(161, 4)
    assert _inches(found["finished.width"]) == Fraction(69, 2)


@pytest.mark.parametrize(
    ("width", "folds"),
    [
        ("3", {"border-fold": "all"}),
        ("{ A = 3, B = 2, C = 3, D = 4 }", {"border-fold.a": "AC", "border-fold.b": "B"}),
    ],
)
def test_border_folds_are_where_the_backing_is_marked(width: str, folds: dict[str, str]) -> None:
    """Each distinct border has its fold, b + s + c / 2 in, as far as its mark is from the edge."""
    head = 'format = 1\ntitle = "Check"\nturn_of_cloth = "1/8"\n[top]\nlayout = "panel"\n'
    text = f"{head}cut = {{ width = 30, height = 30 }}\n[border]\nwidth = {width}"
    found = _found(text)
    marks = select(build(read(text)).backing.marks, MarkKind.BORDER_FOLD, "A")
    assert _inches(found[next(iter(folds))]) == Fraction(3) + Fraction(1, 4) + Fraction(1, 16)
    assert float(found[next(iter(folds))].value or 0) == pytest.approx(marks[0].points[0][1])
    told = {key: f.label for key, f in found.items() if key.startswith("border-fold")}
    if "border-fold" in folds:
        assert told == {"border-fold": "border fold, in from the backing's raw edge"}
    else:
        assert told == {
            "border-fold.a": "border fold of sides A, C, in from the backing's raw edge",
            "border-fold.b": "border fold of side B, in from the backing's raw edge",
            "border-fold.d": "border fold of side D, in from the backing's raw edge",
        }


def test_folded_over_has_no_words_of_a_seam() -> None:
    """Nothing is sewn round a folded-over top: raw sizes only, and the folds of its border."""
    head = 'construction = "folded-over"'
    found = _found(_panel("{ width = 30, height = 32 }", "{ width = 34, height = 36 }", head))
    labels = [f.label for key, f in found.items() if not key.startswith("deviation")]
    assert [label for label in labels if "sew" in label or "stitch" in label] == []
    assert found["order"].label == "sides, in order"
    assert _inches(found["side.a.top"]) == 30
    assert _inches(found["first-fold"]) == 1
    assert _inches(found["second-fold"]) == 2
    assert "seen.width" not in found


def test_seam_basting_and_miter_trim_are_told() -> None:
    """A turned blanket tells all three as the project has them; nothing is basted folded over."""
    own = 'seams = { allowance = "3/8", basting = "1/8", miter = "1/2" }'
    found = _found(_panel("{ width = 30, height = 32 }", "{ width = 36, height = 38 }", own))
    keys = ("seam.allowance", "seam.basting", "miter.trim")
    assert [_inches(found[key]) for key in keys] == [Fraction(3, 8), Fraction(1, 8), Fraction(1, 2)]
    head = 'construction = "folded-over"'
    folded = _found(_panel("{ width = 30, height = 32 }", "{ width = 34, height = 36 }", head))
    assert not {*keys} & {*folded}


def test_opening_is_told_from_one_dot() -> None:
    """Both its ends are measured from the dot that is named by its corner."""
    found = _found((FIXTURES / "tidepool.toml").read_text(encoding="utf-8"))
    ends = {f.label: f.text for key, f in found.items() if key in ("opening.start", "opening.end")}
    assert ends == {
        "first end, from the dot at corner BC": "15 1/4 in (387.4 mm)",
        "second end, from the dot at corner BC": "23 1/4 in (590.6 mm)",
    }


def test_metric_areas_come_first_in_metric_projects() -> None:
    """A corner of the 76 and 100 cm blanket wastes the same in both systems: 1 in² = 6.4516 cm²."""
    extra = "units = 'cm'\n[seams]\nallowance = 1\nbasting = '0.5'"
    waste = _found(_panel("{ width = 76, height = 76 }", "100", extra))["corner.1.waste"]
    assert waste.value is not None
    metric, inches = round(float(waste.value) / 100, 1), round(float(waste.value) / 645.16, 2)
    assert waste.text == f"{metric:g} cm² ({inches:g} sq in)"


def test_an_outline_can_be_drawn_from_its_figures() -> None:
    """Corners are told from the rectangle's lower left corner, wrong side up; by hand.

    A top of 24 x 18 in, raw 24 1/2 x 18 1/2, under borders of 2, 3, 2, 2 in: backing is raw top and
    twice the borders at both ends. The top lies mirrored, so its corner AB is at the left.
    """
    text = """
        format = 1
        title = "Check"
        [top]
        layout = "outline"
        points = [[0, 0], [24, 0], [24, 18], [0, 18]]
        [border]
        width = { A = 2, B = 3, C = 2, D = 2 }
    """
    found = _found(text)
    assert _inches(found["outline.backing.width"]) == Fraction(49, 2) + 2 * 5
    assert _inches(found["outline.backing.height"]) == Fraction(37, 2) + 2 * 4
    assert [found[f"outline.backing.{at}"].text for at in ("da", "ab", "bc", "cd")] == [
        "0 across, 0 up",
        "34 1/2 in (876.3 mm) across, 0 up",
        "34 1/2 in (876.3 mm) across, 26 1/2 in (673.1 mm) up",
        "0 across, 26 1/2 in (673.1 mm) up",
    ]
    assert found["outline.top.da"].text == "24 1/2 in (622.3 mm) across, 0 up"
    assert found["outline.top.ab"].text == "0 across, 0 up"


def test_what_a_card_is_checked_by() -> None:
    """Hole to hole is dot to dot; at a hexagon's corner 3 in where the border is 1 1/2 in."""
    found = _found((FIXTURES / "beehive.toml").read_text(encoding="utf-8"))
    # The half lines stand at 120 degrees to one another, so the dots are sqrt(3) times one apart.
    dot_to_fold = _inches(found["corner.1.dot-to-fold"])
    assert float(_inches(found["corner.1.card.holes"])) == pytest.approx(
        float(dot_to_fold) * 3**0.5, abs=1e-6
    )
    edge = found["corner.1.card.edge"]
    assert edge.label == "corner template, its longest edge"
    assert float(_inches(edge)) < 3 < float(_inches(edge)) + 0.2


def test_sizes_of_outlines_are_those_at_the_widest() -> None:
    """A hexagon has no width but that of the box round it."""
    shown = figures_of(build(load(FIXTURES / "beehive.toml")))
    found = {figure.key: figure for group in shown.groups for figure in group.figures}
    assert found["backing.width"].label == "backing, cut, across, at its widest"
    assert found["backing.height"].label == "backing, cut, down, at its longest"


def test_square_patches_of_every_layout_have_both_sizes() -> None:
    """The squares of an on-point top are told cut and finished, two allowances apart."""
    found = _found((FIXTURES / "trellis.toml").read_text(encoding="utf-8"))
    assert _inches(found["patch-1.cut"]) - _inches(found["patch-1.finished"]) == Fraction(1, 2)


def test_template_tells_which_corners_it_serves_turned_over() -> None:
    """Unequal borders swap from corner to corner; with equal ones either face will do."""
    text = _panel("{ width = 30, height = 32 }", "{ width = 36, height = 42 }")
    assert _found(text)["corner.1.template"].text == "as it lies at DA, BC; turned over at AB, CD"
    assert "corner.1.template" not in _found(
        _panel("{ width = 30, height = 32 }", "{ width = 34, height = 36 }")
    )


def test_centers_off_by_less_than_the_ruler_tells_are_not_told() -> None:
    """Left 1/16 in wider than right: a ruler of sixteenths shows it, one of fourths would say 0."""
    text = """
        format = 1
        title = "Check"
        ruler = "%s"
        [top]
        layout = "panel"
        cut = { width = 30, height = 30 }
        [border]
        width = { A = 3, B = 2, C = 3, D = "2 1/16" }
    """
    folding = "Do not find centers by folding the backing in half"
    told = {r: figures_of(build(read(text % r))).notes[0].split(":")[0] for r in ("1/16", "1/4")}
    assert told["1/16"] == folding
    assert told["1/4"] != folding


def test_hexagon_dot_to_fold() -> None:
    """Hexagon side 9, border 1 1/2: dot to fold 1.7321 (derived)."""
    shown = figures_of(build(load(FIXTURES / "beehive.toml")))
    found = {figure.key: figure for group in shown.groups for figure in group.figures}
    assert float(_inches(found["corner.1.dot-to-fold"])) == pytest.approx(3**0.5, abs=1e-6)
    assert found["corner.1.miter"].text == "60°"
    assert found["corner.1.check"].text == (
        "match the dots and crease on the marked fold; the miter line meets the fold at 60"
        " degrees; the waste has four sides"
    )


def test_center_off_the_middle_is_said() -> None:
    """Borders left 4, right 2: the center of a side between them is 2 off its raw middle."""
    text = """
        format = 1
        title = "Check"
        [top]
        layout = "panel"
        cut = { width = 30, height = 30 }
        [border]
        width = { A = 3, B = 2, C = 3, D = 4 }
    """
    assert figures_of(build(read(text))).notes == (
        "Do not find centers by folding the backing in half: the center mark is off the middle of"
        " its raw side on A by 2 in, C by 2 in.",
        "The borders at left and right differ: a backing cut on the fold would have its marks in"
        " the wrong places there.",
    )


def test_sizes_off_the_ruler_get_the_nearest_border_that_is_on_it() -> None:
    """A border of 2 5/16 leaves sizes between the eighths; 2 3/8 puts all of them on a mark."""
    text = (FIXTURES / "tidepool.toml").read_text(encoding="utf-8").replace("2 1/2", "2 5/16")
    project = read(text)
    found = on_the_ruler(project, project.ruler)
    assert found is not None
    assert found.border / INCH == Fraction(19, 8)
    assert figures_of(build(project)).notes == (
        "The print of Ticking stripe has an up: where the backing comes round to the front it"
        " stands upside down in the borders at head and foot.",
        "Some sizes are off the ruler (marked ~): a border of 2 3/8 in puts all on it, finished"
        " 31 3/4 in x 36 1/4 in, backing 37 in x 41 1/2 in.",
    )


def test_no_border_is_offered_where_the_top_itself_is_off_the_ruler() -> None:
    """A top of 30 1/16 in leaves a sixteenth whatever the border."""
    project = read(_panel("{ width = '30 1/16', height = 30 }", "40"))
    assert on_the_ruler(project, Ruler(Unit.INCH, INCH / 8)) is None


def test_figures_are_exact_for_rectangles() -> None:
    """Backing = top raw + 4 b and finished = (top raw + backing) / 2 - 2 s, as fractions."""
    project = load(FIXTURES / "tidepool.toml")
    found = sizes(project)
    assert found is not None
    for axis in (0, 1):
        assert found.backing[axis] == found.raw[axis] + 4 * project.borders[0]
        middle = (found.raw[axis] + found.backing[axis]) / 2
        assert found.finished[axis] == middle - 2 * project.allowance


def test_outlines_have_no_exact_sizes() -> None:
    """A hexagon's height is irrational: no exact sizes are claimed."""
    assert sizes(load(FIXTURES / "beehive.toml")) is None


def test_computed_lengths_are_kept_to_what_drawings_hold() -> None:
    """A float that is an inch but for rounding counts as the inch."""
    assert as_fraction(25.400000000000002) == INCH
    assert as_fraction(Fraction(1, 3)) == Fraction(1, 3)


def test_table_of_a_squares_blanket() -> None:
    """The first lines of the table read as a person would expect."""
    shown = list(table(figures_of(build(load(FIXTURES / "tidepool.toml")))))
    assert shown[:6] == [
        "Tide pool",
        "",
        "Blanket",
        "  finished blanket, across                      32 in (812.8 mm)",
        "  finished blanket, down                        36 1/2 in (927.1 mm)",
        "  backing, cut, across                          37 1/2 in (952.5 mm)",
    ]


def test_table_keeps_to_its_width() -> None:
    """No line of any example's table is wider than asked."""
    for path in sorted(FIXTURES.glob("*.toml")):
        for line in table(figures_of(build(load(path))), columns=100):
            assert len(line) <= 100


def test_json_has_the_same_numbers() -> None:
    """Programs get the value in mm beside the text that people get."""
    data = json.loads(as_json(figures_of(build(load(FIXTURES / "tidepool.toml")))))
    assert data["figures"]["backing.width"] == {
        "label": "backing, cut, across",
        "text": "37 1/2 in (952.5 mm)",
        "value": 952.5,
        "unit": "mm",
    }
    assert data["notes"] == [
        "The print of Ticking stripe has an up: where the backing comes round to the front it"
        " stands upside down in the borders at head and foot.",
    ]
