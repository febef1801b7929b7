"""Steps: they are all there, their words follow the blanket, and every number is a figure."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from texts_apart import off_sheet, texts_of, touching

from cutpaths.drawing import Document, expand
from cutpaths.figures import figures_of
from cutpaths.figures.show import as_json
from cutpaths.formats import FORMATS
from cutpaths.geometry.marks import MarkKind, letter
from cutpaths.pieces import Kit, build
from cutpaths.project import load, read
from cutpaths.shapes import Path as Line
from cutpaths.sheets.steps import Stage, Step, steps_of

FIXTURES = Path(__file__).parent.parent / "fixtures"
EXAMPLES = sorted(p.stem for p in FIXTURES.glob("*.toml") if "[top]" in p.read_text("utf-8"))
SQUARES = 'top = { layout = "squares", patch = 5, columns = 4, rows = 5 }\n'
PANEL = 'top = { layout = "panel", cut = { width = 30, height = 34 } }\n'
MADE = {
    "folded": f'construction = "folded-over"\n{SQUARES}border = {{ width = "1 1/2" }}',
    "folded-four": f'construction = "folded-over"\n{SQUARES}'
    'border = { width = { A = 1, B = "1 1/2", C = 2, D = "1 1/4" } }',
    "folded-trimmed": f'construction = "folded-over"\n{PANEL}border = {{ width = 2 }}\n'
    'backing = { corners = "trimmed" }',
    "trimmed": f"{PANEL}border = {{ width = {{ A = 2, B = 2, C = 2, D = 3 }} }}\n"
    'backing = { corners = "trimmed" }',
    "triangle": 'top = { layout = "outline", regular = { sides = 3, side = 24 } }\n'
    'border = { width = { A = 2, B = "1 1/2", C = 1 } }',
    "twelve": 'top = { layout = "outline", regular = { sides = 12, side = 8 } }\n'
    'border = { width = "1/2" }\nseams = { miter = "1/2" }\nopening = { length = 4 }',
    "metric": f'units = "mm"\nborder = {{ width = 40 }}\n{SQUARES.replace("5", "120", 1)}',
    "crooked": 'top = { layout = "squares", patch = 6, columns = 4, rows = 5 }\n'
    "border = { width = 2 }\n"
    '[measured]\nsides = { A = "22 1/2", B = "28 1/4", C = 22, D = "28 1/2" }\n'
    'diagonals = { DA-BC = "35 7/8" }\nremedy = "trim-top"',
    "one": 'top = { layout = "squares", patch = 14, columns = 1, rows = 1 }\n'
    "border = { width = 2 }\nopening = { length = 4 }",
}
ALL = (*EXAMPLES, *MADE)
FOLDED = ("folded", "folded-four", "folded-trimmed")
TURNED = tuple(name for name in ALL if name not in FOLDED)
# At the width at which pictures are printed.
WIDTH, CAPITAL_LEAST, HEIGHT_MOST = 140.0, 2.6, 140.0
MOST_ITEMS = 2500  # of a picture, whatever the number of patches
_LENGTH = re.compile(
    r"~?[0-9]+(?:[ .][0-9]+)?(?:/[0-9]+)? (?:in|cm|mm)(?: \(~?[0-9][0-9 ./]* (?:in|cm|mm)\))?|"
    r"[0-9.]+(?:°| degrees)|[0-9]+ seams?"
)


@cache
def kit_of(name: str) -> Kit:
    """The kit of an example, or of a project made for these tests."""
    if name in MADE:
        return build(read(f'format = 1\ntitle = "Picture"\n{MADE[name]}'))
    return build(load(FIXTURES / f"{name}.toml"))


@cache
def steps(name: str) -> tuple[Step, ...]:
    """The steps of a kit."""
    return steps_of(kit_of(name))


def step(name: str, key: str) -> Step:
    """One step of a kit."""
    (found,) = (each for each in steps(name) if each.key == key)
    return found


def keys(name: str) -> list[str]:
    """The keys of a kit's steps, in order."""
    return [each.key for each in steps(name)]


def said(name: str, key: str) -> str:
    """All words of a step with its check."""
    found = step(name, key)
    return " ".join((*found.words, found.check))


MITER = ["fold-corner", "draw-miter", "stitch-miter", "trim-corner"]
END = ["turn", "push-corners", "press", "close-opening", "top-stitch", "finished"]
FIRST_SIDE = ["pin-centers", "sew-side", "side-sewn"]
SIDES = [*FIRST_SIDE, "next-side", "opening", "other-sides", "lay-flat", "sides-sewn"]
MARKS = ["baste-top", "mark-top", "mark-backing", "mark-corners"]


def test_the_steps_of_the_example_in_order() -> None:
    """A turned blanket of squares: top, marks, sides, corners, finish."""
    top = ["lay-out", "sew-patches", "sew-rows", "join-rows", "press-top"]
    assert keys("tidepool") == [*top, *MARKS, *SIDES, *MITER, *END]


def test_a_top_of_one_cloth_has_no_patchwork() -> None:
    """No step speaks of rows where there is one panel."""
    assert keys("orchard") == [*MARKS, *SIDES, *MITER, *END]
    assert keys("one") == [*MARKS, *SIDES, *MITER, *END]


def test_a_joined_backing_is_joined_before_it_is_marked() -> None:
    """The step that joins the panels tells the backing's cut size, and comes before its marks."""
    found = keys("harbor")
    assert found.index("join-backing") < found.index("mark-backing")
    assert "51 in (1295.4 mm) across" in said("harbor", "join-backing")
    assert "2 panels" in said("harbor", "join-backing")


def test_a_crooked_top_is_trimmed_before_it_is_basted() -> None:
    """Where the remedy is to trim, a step tells what comes off which side."""
    found = keys("crooked")
    assert found.index("trim-top") + 1 == found.index("baste-top")
    assert "Off side B cut ~3/8 in (9.8 mm) at corner AB." in said("crooked", "trim-top")
    assert "trim-top" not in keys("doorway")


def test_pairs_are_sewn_before_they_are_cut() -> None:
    """Where triangles are sewn in pairs that step is the first."""
    assert keys("lighthouse")[0] == "sew-pairs"
    assert [name for name in ALL if "sew-pairs" in keys(name)] == ["lighthouse"]


@pytest.mark.parametrize("name", ["folded", "folded-four"])
def test_the_steps_of_the_folded_over_construction(name: str) -> None:
    """Tips are trimmed, corners folded, sides folded twice; nothing is turned or mitered."""
    found = keys(name)
    wanted = ["lay-top", "trim-tip", "fold-corner", "first-fold", "second-fold", "press"]
    places = [found.index(key) for key in wanted]
    assert places == sorted(places)
    assert not {"turn", "opening", "stitch-miter", "pin-centers"} & set(found)


@pytest.mark.parametrize("name", TURNED)
def test_a_turned_blanket_has_at_least_twelve_steps(name: str) -> None:
    """From marking to finishing no turned blanket takes fewer."""
    assert len(steps(name)) >= 12


@pytest.mark.parametrize("name", ALL)
def test_keys_are_unique_and_stages_come_in_order(name: str) -> None:
    """No key comes twice, and no chapter starts again once the next has begun."""
    assert len(set(keys(name))) == len(keys(name))
    order = [list(Stage).index(each.stage) for each in steps(name)]
    assert order == sorted(order)
    assert all(each.title and each.words and all(each.words) for each in steps(name))


@pytest.mark.parametrize("name", ALL)
def test_every_number_is_a_figure(name: str) -> None:
    """Each length, angle and count of seams in words, checks and pictures is a figure's text."""
    kit = kit_of(name)
    figures = as_json(figures_of(kit))
    for each in steps(name):
        texts = [*each.words, each.check, *(t.string for t in texts_of(each.drawing))]
        for number in (found for text in texts for found in _LENGTH.findall(text)):
            assert number in figures, (each.key, number)


def test_numbers_are_found() -> None:
    """What looks for numbers finds them: a length, an angle, a count."""
    text = "Sew ~3 1/2 in (89.8 mm) at 60°, or 90 degrees; 35 seams, 5.5 cm (~2 3/16 in)"
    assert _LENGTH.findall(text) == [
        "~3 1/2 in (89.8 mm)",
        "60°",
        "90 degrees",
        "35 seams",
        "5.5 cm (~2 3/16 in)",
    ]


@pytest.mark.parametrize("name", ["tidepool", "beehive", "folded", "metric"])
def test_words_carry_numbers(name: str) -> None:
    """The words tell the size of the blanket and of the backing."""
    texts = {f.key: f.text for group in figures_of(kit_of(name)).groups for f in group.figures}
    assert texts["finished.width"] in said(name, "finished")
    assert texts["backing.height"] in said(name, "mark-backing")


def test_words_follow_the_type_of_the_corner() -> None:
    """Equal: raw edges match, a triangle; hexagon: its angle, four sides; unequal: marked fold."""
    assert "raw edges match" in said("tidepool", "fold-corner")
    assert "must be a triangle" in said("tidepool", "trim-corner")
    assert "must not match" not in said("tidepool", "fold-corner")
    assert "60 degrees" in said("beehive", "draw-miter")
    assert "the waste has four sides" in said("beehive", "trim-corner").lower()
    assert "triangle" not in said("beehive", "trim-corner")
    assert "45" not in "".join(said("beehive", key) for key in MITER)
    assert "must not match" in said("doorway", "fold-corner")
    assert "marked fold" in said("doorway", "fold-corner")
    assert "45" not in said("doorway", "draw-miter")
    assert "with a dent" in said("triangle", "trim-corner")


def test_a_flat_corner_is_not_trimmed() -> None:
    """Where there is no waste nothing is cut: the allowance is pressed to one side."""
    assert "trim-corner" not in keys("twelve")
    assert "to one side" in said("twelve", "press-miter")


def test_corners_trimmed_beforehand_are_not_trimmed_again() -> None:
    """The step that trims is left out, and the words say why."""
    assert "trim-corner" not in keys("trimmed")
    assert "beforehand" in said("trimmed", "press-miter")
    assert "trim-tip" not in keys("folded-trimmed")


def test_each_other_kind_of_corner_has_its_step() -> None:
    """Four different borders make four kinds of corner, each with its own numbers."""
    others = [key for key in keys("doorway") if key.startswith("corner-")]
    assert others == ["corner-2", "corner-3", "corner-4"]
    assert [key for key in keys("beehive") if key.startswith("corner-")] == []
    assert len({step("doorway", key).words for key in others}) == 3


@pytest.mark.parametrize("name", TURNED)
def test_every_side_is_pinned_and_sewn(name: str) -> None:
    """The second side and the others are named in the order of sewing."""
    first, second, *rest = (letter(i) for i in kit_of(name).order)
    assert f"Sew side {first}," in said(name, "sew-side")
    assert step(name, "next-side").title.endswith(f"pin side\u00a0{second}")
    title = step(name, "other-sides").title
    assert [word.strip(",") for word in title.split() if len(word.strip(",")) == 1] == rest


@pytest.mark.parametrize("name", ALL)
def test_no_title_leaves_a_letter_alone_on_a_line(name: str) -> None:
    """The last word of a title at which a line may end is never the letter of a side."""
    for each in steps(name):
        assert len(each.title.split(" ")[-1]) > 1, each.title


@pytest.mark.parametrize("name", FOLDED)
def test_the_folded_top_is_marked_as_the_figures_say_it_lies(name: str) -> None:
    """Wrong side up and mirrored; pins show its centers on the right side, where it is laid."""
    texts = {f.key: f.text for group in figures_of(kit_of(name)).groups for f in group.figures}
    assert texts["faces"].startswith("top wrong side up (mirrored)")
    assert "lay it wrong side up" in said(name, "mark-top")
    assert "right side up" not in said(name, "mark-top")
    assert "mirror image" in said(name, "mark-top")
    assert "pin through each center mark" in said(name, "mark-top")
    shown = [text.string for text in texts_of(step(name, "mark-top").drawing)]
    assert "top, wrong side" in shown
    assert not [text for text in shown if text.startswith("top, right side")]


@pytest.mark.parametrize("name", TURNED)
def test_quarter_marks_are_told_where_there_are_some(name: str) -> None:
    """Sides with quarter marks have them drawn and pinned; no word of them where none has."""
    kit = kit_of(name)
    sides = {m.at[0] for m in kit.blanket.top_marks if m.kind is MarkKind.QUARTER}
    for key in ("mark-top", "mark-backing"):
        drawn = [words for words in step(name, key).words if "quarter" in words]
        assert len(drawn) == bool(sides)
        assert all("half way between each dot and the center" in words for words in drawn)
        if 0 < len(sides) < len(kit.blanket.seam):
            assert set(re.findall(r"\b[A-Z]\b", drawn[0])) == sides
    first, second, *_ = (letter(i) for i in kit.order)
    assert ("quarter" in said(name, "pin-centers")) == (first in sides)
    assert ("quarter" in said(name, "next-side")) == (second in sides)


@pytest.mark.parametrize("name", TURNED)
def test_the_opening_is_measured_from_the_dot_of_the_figures(name: str) -> None:
    """Both marking steps and the step that sews it name the corner that the figures name."""
    labels = {f.key: f.label for group in figures_of(kit_of(name)).groups for f in group.figures}
    wanted = labels["opening.start"].removeprefix("first end, from ")
    assert re.fullmatch("the dot at corner [A-Z]{2}", wanted)
    for key in ("mark-top", "mark-backing", "opening"):
        assert f"from {wanted}" in said(name, key)
    assert "where it starts" not in said(name, "mark-top")


def test_what_is_cut_and_folded_later_is_marked() -> None:
    """The trim line and the fold point have their figures in the steps that mark corners."""
    for name in ("tidepool", "beehive", "doorway"):
        texts = {f.key: f.text for g in figures_of(kit_of(name)).groups for f in g.figures}
        assert f"trim line {texts['miter.trim']} outside the miter line" in said(
            name, "mark-corners"
        )
        for key, text in texts.items():
            if key.endswith(".dot-to-fold"):
                assert f"the fold point lies {text}" in said(name, "mark-corners").lower()
    assert "trim line" not in said("trimmed", "mark-corners")
    assert "draw the trim line: ~5 5/8 in (143.4 mm)" in said("folded", "mark-backing")
    assert "trim line" not in said("folded-trimmed", "mark-backing")


@pytest.mark.parametrize("name", TURNED)
def test_the_corners_are_counted(name: str) -> None:
    """The picture that marks a corner says how many there are, and that nothing is cut yet."""
    found = {text.string for text in texts_of(step(name, "mark-corners").drawing)}
    assert f"all {len(kit_of(name).blanket.seam)} corners" in found
    assert "mark only: do not sew, do not cut" in found


def test_a_large_top_is_drawn_in_part() -> None:
    """Of 1600 patches a corner is drawn and the rest left out, but all of them are counted."""
    many = 'top = { layout = "squares", patch = 1, columns = 40, rows = 40 }\n'
    kit = build(read(f'format = 1\ntitle = "Many"\n{many}border = {{ width = 2 }}'))
    found = {each.key: each for each in steps_of(kit)}
    assert found["lay-out"].check.startswith("1600 patches lie there")
    shown = [text.string for text in texts_of(found["lay-out"].drawing)]
    assert "and so on" in shown
    assert "patches are not drawn" in [t.string for t in texts_of(found["mark-top"].drawing)]
    assert max(len(each.drawing.items) for each in found.values()) < MOST_ITEMS
    assert "patches are not drawn" not in [
        t.string for t in texts_of(step("tidepool", "mark-top").drawing)
    ]


@pytest.mark.parametrize("name", TURNED)
def test_the_opening_is_told_on_its_side(name: str) -> None:
    """The step names the side of the opening, and so does the one that closes it."""
    opening = kit_of(name).opening
    assert opening is not None
    assert f"On side {letter(opening.side)} " in said(name, "opening")
    assert f"side {letter(opening.side)} " in said(name, "close-opening")


@pytest.mark.parametrize("name", ALL)
def test_every_picture_is_written_and_read_back(name: str) -> None:
    """The SVG file of each picture is what was drawn."""
    form = FORMATS["svg"]
    for each in steps(name):
        document = Document(each.drawing.name, (each.drawing,))
        assert form.check(document, form.render(document)) == ()


@pytest.mark.parametrize("name", ALL)
def test_no_two_texts_touch_and_none_leaves_the_sheet(name: str) -> None:
    """Boxes of texts lie apart, and wholly on the sheet."""
    for each in steps(name):
        assert (each.key, touching(each.drawing)) == (each.key, [])
        assert (each.key, off_sheet(each.drawing)) == (each.key, [])


@pytest.mark.parametrize("name", ALL)
def test_everything_lies_on_a_sheet_of_reading_size(name: str) -> None:
    """Sheets are as wide as they are printed, not too high, with capitals that can be read."""
    for each in steps(name):
        width, height = each.drawing.size
        assert (width, height <= HEIGHT_MOST) == (WIDTH, True), (each.key, height)
        assert min(t.height for t in texts_of(each.drawing)) >= CAPITAL_LEAST
        for item in (part for whole in each.drawing.items for part in expand(whole)):
            points = item.shape.points if isinstance(item.shape, Line) else ()
            for x, y in points:
                assert -1e-6 <= x <= width + 1e-6, (each.key, item.key, x)
                assert -1e-6 <= y <= height + 1e-6, (each.key, item.key, y)


def test_the_same_kit_gives_the_same_steps() -> None:
    """Nothing depends on what was made before."""
    assert steps_of(kit_of("beehive")) == steps_of(kit_of("beehive"))
