"""What stands in a booklet: its chapters, words that follow the kit, and numbers that are known."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from booklets import PLAIN, Made, document, of_fixture, of_text, text_of
from PIL import Image

from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.notes import cloth_notes
from cutpaths.cloth.plan_words import sold_words, steps
from cutpaths.cloth.report import bought_words
from cutpaths.cloth.steady import STEADY
from cutpaths.figures import figures_of
from cutpaths.formats import render_checked
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import load, read
from cutpaths.readback.booklet import pictures_of
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Bullets,
    Caution,
    Columns,
    Key,
    Numbered,
    Paragraph,
    Picture,
    Pointer,
    Section,
    Table,
    Task,
    Terms,
    Together,
)
from cutpaths.sheets.booklet.booklet import BODY, LARGE_BODY, Booklet
from cutpaths.sheets.booklet.cutting import size_words
from cutpaths.sheets.booklet.make import booklet_of
from cutpaths.sheets.pages.paper import paper_named
from cutpaths.sheets.planned import planned
from cutpaths.sheets.sheet import Wishes
from cutpaths.sheets.steps import Hand, steps_of
from cutpaths.writers.booklet import render

FOLDED = f'format = 1\ntitle = "Folded"\nconstruction = "folded-over"\n{PLAIN}'
CHAPTERS = (
    "About this booklet",
    "Take care",
    "What you need",
    "Cutting",
    "Arranging the patches",
    "Sewing the top",
    "Marking",
    "Top and backing",
    "Mitering the corners",
    "Finishing",
    "Washing and care",
    "Words",
    "All sizes",
    "To colour",
)
# A length as it is printed, and the same with the other system beside it.
_LENGTH = r"~?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?) (?:in|mm|cm|yd|m)\b"
LENGTH = re.compile(_LENGTH)
BOTH = re.compile(rf"{_LENGTH} \({_LENGTH}\)")
EXAMPLES = ("tidepool", "fjord", "beehive", "harbor")


def _blocks(made: Made, title: str) -> Iterator[Block]:
    """The blocks of a chapter, those that stand together one by one."""
    waiting = list(next(c.blocks for c in made.content.chapters if c.title == title))
    while waiting:
        block = waiting.pop(0)
        if isinstance(block, Together):
            waiting[:0] = block.blocks
        elif isinstance(block, Columns):
            waiting[:0] = (*block.left, *block.right)
        elif isinstance(block, Beside):
            waiting[:0] = (block.picture, *block.blocks)
        else:
            yield block


def _known(made: Made) -> str:
    """Everything that other files say of the kit, in one text."""
    ruler = made.kit.project.ruler
    figures = figures_of(made.kit)
    told = [f"{f.label} | {f.text}" for group in figures.groups for f in group.figures]
    told += [group.title for group in figures.groups]
    told += [*figures.notes, *(ruler.both(s) for s in (made.kit.project.allowance,))]
    told += [ruler.text(ruler.step), *cloth_notes(made.plans, ruler)]
    for plan in made.plans:
        told += [sold_words(plan, ruler), *steps(plan, ruler)]
        told += [size_words(need, ruler) for need in plan.needs]
        told += [bought_words(plan.stock, shopping(plan).to_buy), ruler.text(shopping(plan).width)]
        told += [ruler.text(sheet.width) for sheet in plan.sheets]
    return " | ".join(told)


def test_chapters_stand_in_the_order_of_the_making() -> None:
    """A pieced, turned blanket has every chapter, in the order in which it is made."""
    titles = tuple(chapter.title for chapter in of_fixture("tidepool").content.chapters)
    assert titles == CHAPTERS


def test_a_top_of_one_cloth_is_not_arranged() -> None:
    """Without patches there is no layout chart, and nothing speaks of patches."""
    made = of_fixture("beehive")
    titles = [chapter.title for chapter in made.content.chapters]
    assert titles == [title for title in CHAPTERS if title != "Arranging the patches"]
    assert "PATCH" not in text_of(made.data)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_length_with_two_systems_is_known(name: str) -> None:
    """Each length in the file, read by another reader, is one that figures or cloth plan have."""
    made = of_fixture(name)
    known = set(BOTH.findall(_known(made)))
    found = set(BOTH.findall(text_of(made.data)))
    assert found
    assert found - known == set()


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_bare_length_is_known(name: str) -> None:
    """Lengths in one system alone come from the same texts too."""
    made = of_fixture(name)
    known = set(LENGTH.findall(_known(made)))
    found = set(LENGTH.findall(text_of(made.data)))
    # In a cutting plan the unit stands once behind both sides: `5 x 5 in`.
    sides = {f"{s} in" for s in re.findall(r"(\d[\d/ ]*?) x ", _known(made))}
    assert found - known - sides == set()


def test_every_figure_is_told() -> None:
    """The chapter of all sizes has each figure once, with its label."""
    made = of_fixture("tidepool")
    rows = [r for b in _blocks(made, "All sizes") if isinstance(b, Table) for r in b.rows]
    figures = [(f.label, f.text) for g in figures_of(made.kit).groups for f in g.figures]
    assert sorted(rows) == sorted(figures)


def _said(made: Made, title: str) -> str:
    """What a chapter says in its sentences, lists and tables."""
    found: list[str] = []
    for block in _blocks(made, title):
        match block:
            case Bullets(items) | Numbered(items):
                found += items
            case Table(rows=rows):
                found += [cell for row in rows for cell in row]
            case Paragraph(text) | Section(text) | Pointer(text=text):
                found.append(text)
    return " ".join(found)


def _pages(made: Made) -> list[str]:
    """The text of each page, as another reader finds it."""
    pdf = pypdfium2.PdfDocument(made.data)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in pdf]


@pytest.mark.parametrize("name", ["tidepool", "harbor"])
def test_a_pieced_top_is_measured_before_its_backing_is_cut(name: str) -> None:
    """The cutting leaves the backing's length whole; its steps follow the measuring."""
    made = of_fixture(name)
    keys = ("BACKING (", "PANEL-1 (")
    cutting = [b for b in _blocks(made, "Cutting") if isinstance(b, Numbered)]
    assert not any(key in step for block in cutting for step in block.items for key in keys)
    told = [
        step for b in _blocks(made, "Sewing the top") if isinstance(b, Numbered) for step in b.items
    ]
    every = [s for plan in made.plans for s in steps(plan, made.kit.project.ruler)]
    waiting = [step for step in every if any(key in step for key in keys)]
    assert waiting
    assert [step for step in told if any(key in step for key in keys)] == waiting
    sizes = {f.key: f.text for g in figures_of(made.kit).groups for f in g.figures}
    by_design = f"By the design it is {sizes['top.width']} across and {sizes['top.height']} down"
    assert any(by_design in step for step in told)


def test_pages_that_are_pointed_to_are_the_right_ones() -> None:
    """Each pointer names the page on which its section stands, by pdfium's pages."""
    made = of_fixture("tidepool")
    pointers = [
        block
        for chapter in made.content.chapters
        for block in _blocks(made, chapter.title)
        if isinstance(block, Pointer)
    ]
    assert len(pointers) == 2
    pages = _pages(made)
    text = " ".join(pages)
    for pointer in pointers:
        found = re.search(re.escape(pointer.text) + r" \(page (\d+)\)\.", text)
        assert found is not None
        assert pointer.to in pages[int(found[1]) - 1]


def test_a_strip_with_patches_in_it_is_cut_but_for_the_backing() -> None:
    """Of a strip that holds backing and patches the patches are cut, the backing waits."""
    made = of_fixture("lighthouse")
    cutting = [s for b in _blocks(made, "Cutting") if isinstance(b, Numbered) for s in b.items]
    (strip,) = (step for step in cutting if "BACKING" in step)
    assert strip.endswith("But leave whole what is for the BACKING (34 x 34 in).")
    later = [s for b in _blocks(made, "Sewing the top") if isinstance(b, Numbered) for s in b.items]
    assert "From what was left whole cut the BACKING (34 x 34 in)." in later


def test_a_top_of_one_cloth_has_its_backing_cut_at_once() -> None:
    """Nothing waits for a top that comes out as it is cut."""
    made = of_fixture("beehive")
    assert "BACKING (25 5/8 x 22 1/8 in)" in _said(made, "Cutting")
    assert "Measure the top" not in text_of(made.data)


def test_an_outline_can_be_drawn_from_the_booklet() -> None:
    """A hexagon's rectangle, corners, sides and angles are told; by hand from the side of 9 in.

    The backing of a regular hexagon of side a is 2 a wide and a sqrt 3 high, its side
    9 in + (2 x 1 1/2 + 1/4) x 2 / sqrt 3.
    """
    made = of_fixture("beehive")
    side = 9 + (2 * 1.5 + 0.25) * 2 / 3**0.5
    values = {f.key: f for g in figures_of(made.kit).groups for f in g.figures}
    assert float(values["side.backing"].value or 0) / 25.4 == pytest.approx(side, abs=1e-6)
    assert values["outline.backing.width"].text == "25 5/8 in (650.9 mm)"
    mm = f"({round(side * 25.4 / 2, 1):g} mm)"
    assert mm == "(162 mm)"
    assert values["outline.backing.fa"].text == f"~6 3/8 in {mm} across, 0 up"
    said = _said(made, "Cutting")
    assert "rectangle to cut it from: 25 5/8 in (650.9 mm) x 22 1/8 in (562 mm)" in said
    for name in ("fa", "ab", "bc", "cd", "de", "ef"):
        assert values[f"outline.backing.{name}"].text in said
        assert values[f"outline.top.{name}"].text in said
    assert values["side.backing"].text in said
    assert "angle: 120°" in said


def test_the_corner_template_is_laid_and_checked_by_words() -> None:
    """Marking names each card, where it lies, and both sizes by which it is checked."""
    made = of_fixture("fjord")
    said = _said(made, "Marking")
    sizes = {f.key: f.text for g in figures_of(made.kit).groups for f in g.figures}
    for card in made.kit.templates:
        assert card.piece.key in said
        (first, second) = (edge.sides for edge in card.raw_edges)
        assert f"its {', '.join(first)} end along side" in said
        assert f"its {', '.join(second)} end along side" in said
    assert sizes["corner.1.card.edge"] in said
    assert sizes["corner.1.card.holes"] in said
    assert "tick the notch for the fold" in said


def test_a_folded_card_is_marked_through_its_one_hole() -> None:
    """Folded over, the hole is the top's corner, and there are no dots or notch."""
    said = _said(of_text(FOLDED), "Marking")
    assert "Mark through its hole the place of the top's corner" in said
    assert "one hole" in said
    assert "notch" not in said


def test_what_is_checked_again_at_once_is_checked_once() -> None:
    """Joined and pressed, the top is measured once, after the iron."""
    tasks = [b for b in _blocks(of_fixture("tidepool"), "Sewing the top") if isinstance(b, Task)]
    checks = [task.check for task in tasks if task.check.startswith("The top measures")]
    assert len(checks) == 1
    told = {step.title: step.check for step in steps_of(of_fixture("tidepool").kit)}
    assert checks[0] == told["Press the top"] == told["Join the rows"]


def test_a_miter_is_practised_and_looked_at_before_it_is_trimmed() -> None:
    """The practice corner is named before the cloth is sewn; a folded tip has nothing to turn."""
    turned = _said(of_fixture("tidepool"), "Mitering the corners")
    folded = _said(of_text(FOLDED), "Mitering the corners")
    assert "practice corner" in turned
    assert "look at it before you trim it" in turned
    assert "practice corner" in folded
    assert "turn it out" not in folded


def test_corners_of_several_kinds_stand_side_by_side() -> None:
    """Four different corners are four columns of one table, with the letters of their sides."""
    text = (
        'format = 1\ntitle = "Four"\n[top]\nlayout = "squares"\npatch = 5\ncolumns = 4\n'
        "rows = 4\n[border]\nwidth = { A = 2, B = 3, C = 4, D = 5 }\n"
    )
    made = of_text(text)
    (table,) = (b for b in _blocks(made, "Mitering the corners") if isinstance(b, Table))
    assert table.heads == ("What", "Corner DA", "Corner AB", "Corner BC", "Corner CD")
    sizes = {f.key: f.text for g in figures_of(made.kit).groups for f in g.figures}
    row = next(row for row in table.rows if row[0] == "dot, along its raw edge")
    first, second = (sizes[f"corner.1.dot-{side}.along"] for side in "da")
    assert row[1] == f"D {first}\nA {second}"


def test_every_step_is_told_once_and_numbered() -> None:
    """The steps of the kit stand in their order, numbered through all chapters."""
    made = of_fixture("tidepool")
    tasks = [
        block
        for chapter in made.content.chapters
        for block in _blocks(made, chapter.title)
        if isinstance(block, Task)
    ]
    assert [task.title for task in tasks] == [step.title for step in steps_of(made.kit)]
    assert [task.number for task in tasks] == list(range(1, len(tasks) + 1))


def test_the_seam_test_adds_up() -> None:
    """At 1/4 in, strips that show 2 1/4 + 2 + 2 1/4 in are 6 1/2 in together (hobby pages)."""
    keys = {
        f.key: f.value for g in figures_of(of_fixture("tidepool").kit).groups for f in g.figures
    }
    assert keys["test.strip"] == INCH * 5 / 2
    assert keys["test.middle"] == 2 * INCH
    assert keys["test.sewn"] == INCH * 13 / 2
    assert "6 1/2 in (165.1 mm) raw edge to raw edge" in text_of(of_fixture("tidepool").data)


def test_words_follow_the_construction() -> None:
    """A folded-over blanket is told without dots, turning, or an opening to close."""
    folded, turned = text_of(of_text(FOLDED).data), text_of(of_fixture("tidepool").data)
    assert "wrong sides together" in folded
    assert "turning opening" not in folded.lower()
    assert "stop at dots" not in folded
    assert "stop at dots" in turned
    assert "The turning opening of 8 in (203.2 mm) is on side C." in turned


def test_cautions_stand_before_the_work_and_beside_it() -> None:
    """Babies, blades, irons and pins are told at the start, blades again where cloth is cut.

    American Academy of Pediatrics, Pediatrics 150(1) e2022057990; North Dakota State University
    Extension, CB111.
    """
    made = of_fixture("tidepool")
    first = [b for b in _blocks(made, "Take care") if isinstance(b, Caution)]
    words = " ".join(item for caution in first for item in caution.items)
    for word in ("e2022057990", "child under 1", "CB111", "Iron", "Pins"):
        assert word in words
    cutting = [b for b in _blocks(made, "Cutting") if isinstance(b, Caution)]
    assert "close the blade" in cutting[0].items[0]
    assert "local rules and a qualified person come first" in cutting[0].items[1]


def test_the_key_has_each_fabric_with_its_letter() -> None:
    """Fabrics have lower-case letters in the order of the file; capitals are for sides."""
    made = of_fixture("tidepool")
    (key,) = (b for b in _blocks(made, "What you need") if isinstance(b, Key))
    assert [(chip.letter, chip.name, chip.more) for chip in key.chips] == [
        ("a", "Sand flannel", ""),
        ("b", "Sea green flannel", ""),
        ("c", "Ticking stripe", "its print has an up"),
    ]


def test_what_the_pattern_says_of_itself_is_printed() -> None:
    """Version, date, author, contact, licence and skill stand in the booklet as written."""
    made = of_fixture("tidepool")
    pattern, text = made.kit.project.pattern, text_of(made.data)
    rows = dict(
        r for b in _blocks(made, "About this booklet") if isinstance(b, Terms) for r in b.rows
    )
    assert rows["Version"] == pattern.version == "1.2"
    assert rows["Date"] == pattern.date == "2026-03-14"
    assert rows["Author"] == pattern.author
    assert rows["Corrections to"] == pattern.contact
    assert rows["Licence"] == pattern.licence
    assert pattern.skill in text
    assert "Tide pool, version 1.2" in text


def test_shrinkage_is_told_where_it_is_known() -> None:
    """What a fabric's table says of its shrinkage stands under washing, else how to find out."""
    assert "7.37 % of its length and 2.81 % of its width" in text_of(of_fixture("harbor").data)
    assert "How much is not known for these cloths" in text_of(of_fixture("tidepool").data)


def test_cloth_without_a_plan_is_told_and_stops_nothing() -> None:
    """A piece that fits no cloth leaves out the plan, and the booklet says why."""
    text = (
        'format = 1\ntitle = "Unfit"\n[fabric.a.stock]\nsold = "pack"\ncount = 42\n'
        "piece = { width = 5, height = 5 }\n[fabric.b]\n"
        '[top]\nlayout = "panel"\ncut = { width = 20, height = 30 }\nfabric = "a"\n'
        '[border]\nwidth = 2\n[backing]\nfabric = "b"\n'
    )
    made = of_text(text)
    assert made.plans == ()
    assert "There is no cutting plan for this cloth" in text_of(made.data)


def test_paper_follows_the_unit_unless_asked() -> None:
    """Letter for inches, A4 for metric; a paper too large to hold gives way to the usual one."""
    inch, metric = read(f'format = 1\ntitle = "Pond"\n{PLAIN}'), of_fixture("fjord")
    kit = build(inch)
    assert booklet_of(kit, Wishes()).paper == paper_named("letter")
    assert booklet_of(kit, Wishes(paper=paper_named("a4"))).paper == paper_named("a4")
    assert booklet_of(kit, Wishes(paper=paper_named("a0"))).paper == paper_named("letter")
    assert metric.content.paper == paper_named("a4")


def test_left_handers_get_their_own_words_and_pictures() -> None:
    """The ruler lies on the other side, and the steps are those of the left hand."""
    kit = of_fixture("tidepool").kit
    contents = {hand: booklet_of(kit, Wishes(left_handed=hand is Hand.LEFT)) for hand in Hand}
    told = {hand: text_of(render(document(content))) for hand, content in contents.items()}
    assert "lay the ruler on the part to the left of the cut" in told[Hand.RIGHT]
    assert "lay the ruler on the part to the right of the cut" in told[Hand.LEFT]
    assert "from the left to the right." in told[Hand.LEFT]
    assert "from the left to the right." not in told[Hand.RIGHT]


def test_large_print_is_asked_for() -> None:
    """Large letters are 16 points."""
    kit = of_fixture("tidepool").kit
    assert booklet_of(kit, Wishes()).body == BODY == 10.5
    assert booklet_of(kit, Wishes(large_print=True)).body == LARGE_BODY == 16.0


def test_plans_are_searched_as_by_the_command() -> None:
    """Booklet and `cutpaths cloth` do the same work, so they buy the same cloth."""
    from cutpaths.cli.searching import TRIES_EACH_SECOND

    usual = 2.0  # seconds that the command asks for
    assert STEADY.tries == TRIES_EACH_SECOND * usual


def test_plans_are_worked_out_once() -> None:
    """Two papers of one kit share its plans; a kit made anew has plans of its own."""
    kit = of_fixture("tidepool").kit
    assert planned(kit) is planned(kit)
    other = build(kit.project)
    assert planned(other) is not planned(kit)
    assert planned(other).plans == planned(kit).plans


def test_every_picture_has_words_for_who_cannot_see_it() -> None:
    """Each picture has a text of its own."""
    pictures = list(pictures_of(of_fixture("tidepool").content))
    assert len(pictures) > 20
    assert all(len(picture.alt) > 20 for picture in pictures)


def test_swatches_are_seen_on_the_title_page(tmp_path: Path) -> None:
    """The finished blanket has the pictures of its cloths, or their colours where they are gone."""
    swatch = '[fabric.dots]\nswatch = { file = "dots.png", width = 4 }\n'
    text = f'format = 1\ntitle = "Dots"\n{swatch}{PLAIN}'
    (tmp_path / "dots.toml").write_text(text, encoding="utf-8")
    Image.new("RGB", (40, 40), "#a04020").save(tmp_path / "dots.png")
    kit = build(load(tmp_path / "dots.toml"))
    seen = booklet_of(kit, Wishes(beside=tmp_path))
    assert _prints(seen)
    data = render_checked(document(seen), "booklet")
    (tmp_path / "dots.png").unlink()
    gone = booklet_of(kit, Wishes(beside=tmp_path))
    assert not _prints(gone)
    assert len(render_checked(document(gone), "booklet")) < len(data)


def _prints(content: Booklet) -> bool:
    """Whether the picture on the title page shows a print."""
    picture = content.cover[0]
    assert isinstance(picture, Picture)
    return any(item.paint is not None and item.paint.print for item in picture.drawing.items)
