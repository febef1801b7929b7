"""Drawings of cutting plans: how they are captioned and lettered, and which way is up."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from cloths import QUICK, kit, planned, squares, stock

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import PATCHES, Need
from cutpaths.drawing import Drawing, Item
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.project.stock import Run
from cutpaths.roles import Role
from cutpaths.shapes import Path as Line
from cutpaths.shapes import Text
from cutpaths.sheets.cloth import PLAIN, cloth_sheets, sheet_cuts
from cutpaths.sheets.sheet import Output
from cutpaths.values import replace

FIXTURES = Path(__file__).parent.parent / "fixtures"


@cache
def example(name: str) -> tuple[Kit, tuple[FabricPlan, ...]]:
    """A fixture with its plans."""
    made = build(load(FIXTURES / f"{name}.toml"))
    return made, plans_of(made, QUICK)


def sheets(name: str) -> dict[str, Drawing]:
    """The drawings of a fixture by their names."""
    found: tuple[Output, ...] = cloth_sheets(*example(name))
    return {output.name: output.document.sheets[0] for output in found}


def texts(drawing: Drawing) -> list[str]:
    """All texts of a drawing, in their order."""
    shapes = (item.shape for item in drawing.items if isinstance(item, Item))
    return [shape.string for shape in shapes if isinstance(shape, Text)]


def rectangles(wide: int, high: int, *, directional: bool) -> list[Text]:
    """The names in a plan of one rectangle, inches."""
    size = (wide * INCH, high * INCH)
    need = Need(keys=("PATCH-1",), part=PATCHES, size=size, count=1, run=Run.LENGTHWISE)
    made = kit()
    plan = planned(made, stock(40), need)
    plan = replace(plan, fabric=replace(plan.fabric, directional=directional))
    items = sheet_cuts(plan, plan.sheets[0], made.project.ruler, PLAIN)
    found = [i.shape for i in items if isinstance(i, Item) and i.key == "pieces"]
    return [shape for shape in found if isinstance(shape, Text)]


@pytest.mark.parametrize(
    ("sheet", "caption"),
    [
        (
            "cloth-stripe-1",
            "the length bought, 1 1/4 yd; 44 in of it is used: 40 x 44 in, selvages",
        ),
        ("cloth-sand-1", "the length bought, 1/2 yd; 17 in of it is used: 40 x 17 in, selvages"),
    ],
)
def test_the_caption_names_what_is_bought(sheet: str, caption: str) -> None:
    """The length of the shopping list, what is used of it, and what the diagonals are."""
    told = texts(sheets("tidepool")[sheet])
    assert [text for text in told if text.startswith("the length")] == [f"{caption} left and right"]
    assert told.count("crossed out: waste") == 1


def test_without_waste_nothing_is_said_of_it() -> None:
    """Five squares of 8 in fill a bare width of 40 in."""
    made = kit()
    bare = stock(40, square_up=0 * INCH, strip_ends=0 * INCH)
    drawing = cloth_sheets(made, [planned(made, bare, squares(8, 5))])[0].document.sheets[0]
    assert not any("crossed out" in text for text in texts(drawing))
    assert not any(item.role is Role.TRIM for item in drawing.items if isinstance(item, Item))


def test_a_print_with_an_up_has_its_arrow() -> None:
    """Beside the cloth, from its cut end up; other cloth has none."""
    drawn = sheets("tidepool")
    shafts = {}
    for name, drawing in drawn.items():
        shapes = [i.shape for i in drawing.items if isinstance(i, Item) and i.key == "up"]
        shafts[name] = [shape for shape in shapes if isinstance(shape, Line)]
        assert texts(drawing).count("up") == (1 if name == "cloth-stripe-1" else 0)
    assert [len(shafts[name]) for name in drawn] == [0, 0, 2]
    (foot, tip), (left, top, right) = (line.points for line in shafts["cloth-stripe-1"])
    assert foot[0] == tip[0] == top[0] < PLAIN.gap + 10
    assert foot[1] < tip[1] == top[1] > left[1] == right[1]


def test_names_stand_upright_where_they_can_be_read() -> None:
    """A backing taller than wide has its name level; a narrow strip has it along it."""
    assert {text.angle for text in rectangles(30, 40, directional=False)} == {0.0}
    assert {text.angle for text in rectangles(2, 40, directional=False)} == {90.0}


def test_on_cloth_with_an_up_names_are_turned_only_where_they_must_be() -> None:
    """A name of half the height and less still stands there, down to what can be read."""
    plain = rectangles(2, 40, directional=False)
    up = rectangles(2, 40, directional=True)
    assert ({text.angle for text in plain}, {text.angle for text in up}) == ({90.0}, {0.0})
    assert all(PLAIN.least <= text.height < plain[0].height / 2 for text in up)
    assert {text.angle for text in rectangles(1, 40, directional=True)} == {90.0}
