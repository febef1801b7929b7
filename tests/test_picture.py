"""Pictures of the finished blanket: what is painted where, and that texts can be read."""

from __future__ import annotations

import pytest
from pictures import EXTREMES, NAMES, kit, made, painted, pixels, sheets, text_boxes
from shapely import STRtree, union_all
from shapely.geometry import Polygon

from cutpaths.drawing import expand, flatten
from cutpaths.figures import figures_of
from cutpaths.figures.sizes import sizes
from cutpaths.paint import from_hex
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Text
from cutpaths.shapes import Path as Line
from cutpaths.sheets.plate import WIDTH
from cutpaths.sheets.sheet import Wishes
from cutpaths.sheets.uses import outputs

ALL = (*NAMES, *EXTREMES)
INCH = 25.4
AREA_SLACK = 1e-2  # mm², of some thousand coordinates that are each rounded to 1e-6 mm
# In pixels of a picture that is 800 across.
TEXT_GAP = 1.0
CAPITAL_LEAST = 6.5


def _area(shapes: list[Polygon]) -> float:
    return sum(shape.area for shape in shapes)


def test_tidepool_is_painted_with_its_finished_areas() -> None:
    """Each square is 4 1/2 in, the border 2 1/2 in of a blanket of 32 x 36 1/2 in."""
    front = sheets(kit("tidepool"))["front"]
    squares = painted(front, "patch-")
    assert len(squares) == 42
    assert all(abs(s.area - (4.5 * INCH) ** 2) < AREA_SLACK for s in squares)
    border = painted(front, "border-")
    assert len(border) == 4
    assert abs(_area(border) - (32 * 36.5 - 27 * 31.5) * INCH**2) < AREA_SLACK


@pytest.mark.parametrize("name", ALL)
def test_painted_parts_fill_the_finished_outline(name: str) -> None:
    """Patches and border meet, none lies over another, and together they are the blanket."""
    shown = sheets(kit(name))
    parts = painted(shown["front"], "patch-", "border-", "top")
    first, second = STRtree(parts).query(parts, predicate="overlaps")
    over = [parts[i].intersection(parts[j]).area for i, j in zip(first, second, strict=True)]
    assert max(over, default=0.0) < AREA_SLACK
    whole = union_all(parts, grid_size=1e-5).area
    assert abs(whole - _area(parts)) < 1.0
    (back,) = painted(shown["back"], "backing")
    assert abs(back.area - _area(parts)) < AREA_SLACK


@pytest.mark.parametrize("name", NAMES)
def test_the_outline_has_the_size_of_the_figures(name: str) -> None:
    """Front and back are as wide and as high as the figures say, whatever the turn of cloth."""
    found = figures_of(kit(name))
    values = {f.key: f.value for group in found.groups for f in group.figures}
    settled = sizes(kit(name).project)
    if settled is None:
        return
    assert (values["finished.width"], values["finished.height"]) == settled.finished
    (back,) = painted(sheets(kit(name))["back"], "backing")
    left, foot, right, head = back.bounds
    assert abs(right - left - float(settled.finished[0])) < 1e-5
    assert abs(head - foot - float(settled.finished[1])) < 1e-5


def test_a_folded_over_border_lies_on_the_outer_patches() -> None:
    """The blanket is as large as its top, and what the border hides is not painted."""
    front = sheets(kit("folded"))["front"]
    wide, high = 14.0, 18.5  # raw top of 3 x 4 squares of 5 in with seams of 1/4 in
    seen = (wide - 1.5 - 1.25) * (high - 1 - 2)
    assert abs(_area(painted(front, "patch-")) - seen * INCH**2) < AREA_SLACK
    assert abs(_area(painted(front, "border-")) - (wide * high - seen) * INCH**2) < AREA_SLACK
    (stitching,) = [i.shape for i in front.items if i.role is Role.TOPSTITCH]
    assert isinstance(stitching, Line)
    ring = Polygon(stitching.points)
    sixteenth = INCH / 16
    left, foot, right, head = ring.bounds
    assert abs(right - left - ((wide - 2.75) * INCH + 2 * sixteenth)) < 1e-5
    assert abs(head - foot - ((high - 3) * INCH + 2 * sixteenth)) < 1e-5


def test_top_stitching_lies_in_the_ditch_and_near_the_edge() -> None:
    """One closed line on the border's seam, one 1/8 in from the edge; dashed, on both sides."""
    shown = sheets(kit("doorway"))
    for name in ("front", "back"):
        lines = [i.shape for i in shown[name].items if i.role is Role.TOPSTITCH]
        rings = [Polygon(line.points) for line in lines if isinstance(line, Line) and line.closed]
        spans = [(r.bounds[2] - r.bounds[0], r.bounds[3] - r.bounds[1]) for r in rings]
        # Measured 22 7/8 x 27 1/4 raw, and so 25 7/8 x 30 3/4 finished.
        wanted = [(22.375, 26.75), (25.875 - 0.25, 30.75 - 0.25)]
        for span, must in zip(spans, wanted, strict=True):
            assert span == pytest.approx([side * INCH for side in must], abs=1e-5)
        assert shown[name].pen.patterned


def test_the_back_is_turned_over() -> None:
    """Side B is at the right on the front and at the left on the back."""
    shown = sheets(kit("doorway"))
    places = {}
    for name in ("front", "back"):
        texts = [i.shape for i in shown[name].items if isinstance(i.shape, Text)]
        places[name] = {t.string: t.at for t in texts if t.string in set("ABCD")}
    assert places["front"]["D"][0] < places["front"]["A"][0] < places["front"]["B"][0]
    assert places["back"]["B"][0] < places["back"]["A"][0] < places["back"]["D"][0]
    for shown_at in places.values():
        assert shown_at["A"][1] < shown_at["B"][1] < shown_at["C"][1]


def test_pixels_have_the_colours_of_their_fabrics() -> None:
    """The middle of each square of the checkerboard, and of each side of the border."""
    picture = pixels(kit("tidepool"), "front", 800)
    picture.find(32 * INCH, 500)
    sand, sea, stripe = map(from_hex, ("#e3cfa4", "#5f9e8f", "#34495e"))  # as the project says
    for row in range(7):
        for column in range(6):
            place = (2.5 + 4.5 * (column + 0.5)) * INCH, (34 - 4.5 * (row + 0.5)) * INCH
            assert picture.at(*place) == (sand, sea)[(row + column) % 2]
    for x, y in ((16, 1.25), (30.75, 18), (16, 35.25), (1.25, 18)):
        assert picture.at(x * INCH, y * INCH) == stripe


def test_a_fabric_has_its_own_colour() -> None:
    """`colour` of a fabric wins over the list, in either case of its letters."""
    own = made(
        'top = { layout = "panel", cut = { width = 20, height = 20 }, fabric = "a" }\n'
        'border = { width = 2 }\nbacking = { fabric = "b" }\n'
        'fabric = { a = { colour = "#C0FFEE" }, b = { colour = "#102030" } }'
    )
    picture = pixels(own, "front", 400)
    picture.find(23.5 * INCH, 250)
    assert picture.at(11 * INCH, 11 * INCH) == from_hex("#c0ffee")
    assert picture.at(1 * INCH, 11 * INCH) == from_hex("#102030")


@pytest.mark.parametrize("name", ALL)
def test_no_two_texts_overlap(name: str) -> None:
    """The ink of no two texts comes nearer than a pixel, on any picture at 800 pixels."""
    for sheet in sheets(kit(name)).values():
        boxes = text_boxes(sheet, TEXT_GAP * sheet.size[0] / WIDTH)
        shapes = [shape for _, shape in boxes]
        first, second = STRtree(shapes).query(shapes, predicate="intersects")
        pairs = zip(first, second, strict=True)
        assert [(boxes[i][0], boxes[j][0]) for i, j in pairs if i < j] == []


@pytest.mark.parametrize("name", ALL)
def test_texts_can_be_read_at_800_pixels(name: str) -> None:
    """No capital is lower than 6.5 pixels, no picture more than some 2 000 pixels high."""
    for sheet in sheets(kit(name)).values():
        pixel = sheet.size[0] / WIDTH
        heights = [i.shape.height for i in sheet.items if isinstance(i.shape, Text)]
        assert min(heights) / pixel >= CAPITAL_LEAST
        assert sheet.size[1] / pixel < 2000


@pytest.mark.parametrize("name", ALL)
def test_everything_lies_on_its_sheet(name: str) -> None:
    """No point of any picture falls off it."""
    for sheet in sheets(kit(name)).values():
        for item in (part for each in sheet.items for part in expand(each)):
            assert isinstance(item.shape, Line | Circle)
            points = item.shape.points if isinstance(item.shape, Line) else (item.shape.center,)
            for x, y in points:
                assert 0.0 <= x <= sheet.size[0]
                assert 0.0 <= y <= sheet.size[1]


WORK = ("cad", "cutter", "pages", "projector")


@pytest.mark.parametrize("name", NAMES)
def test_no_file_for_work_is_painted(name: str) -> None:
    """Nothing that is cut, marked or thrown by light has a paint; only pictures do."""
    for output in outputs(kit(name), WORK, Wishes(text_on_cloth=True)):
        for sheet in output.document.sheets:
            flat = (part for item in sheet.items for part in flatten(item))
            assert all(item.paint is None for item in flat)


def test_a_crooked_top_is_shown_as_it_was_sewn() -> None:
    """Patches follow the taped quadrilateral, and still tile it."""
    crooked = kit("ferry")
    squares = painted(sheets(crooked)["front"], "patch-")
    seam = Polygon(crooked.blanket.seam)
    assert abs(_area(squares) - seam.area) < AREA_SLACK
    assert max(s.area for s in squares) - min(s.area for s in squares) > 1.0
