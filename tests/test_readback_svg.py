"""Reading SVG back: each way to break a file is named; views and units are taken at their word."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

import pytest
from sample_drawings import RING, sheet

from cutpaths.drawing import Dimension
from cutpaths.readback import dxf, svg
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, Text
from cutpaths.values import replace
from cutpaths.writers import dxf as dxf_writer
from cutpaths.writers import svg as svg_writer

NEAR_MM = 1e-9

LINE = Path(((10.0, 10.0), (40.0, 10.0), (40.0, 15.0)))
OUTLINE = Path(RING, closed=True)
DISC = Circle((60.0, 45.0), 2.5)
SHAPES = sheet(OUTLINE, LINE, DISC)

LETTERING = sheet(Text(string="HI", at=(10.0, 20.0), height=21.0), role=Role.LABEL)

DIMENSION = Dimension(start=(25.4, 50.8), end=(127.0, 50.8), offset=12.7, text="4 in")


Edit = Callable[[str], str]
OPENING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{}" height="{}" viewBox="{}">'
    '<g id="cut" fill="none"><g id="cut-a">'
)


def _swap(old: str, new: str) -> Edit:
    """Replaces the one place where something stands."""

    def edit(text: str) -> str:
        assert text.count(old) == 1
        return text.replace(old, new)

    return edit


def _outline(change: Callable[[float, float], Point]) -> Edit:
    """Moves every point of the first closed path."""

    def edit(text: str) -> str:
        def moved(found: re.Match[str]) -> str:
            x, y = change(float(found[1]), float(found[2]))
            return f"{x:.6f},{y:.6f}"

        (route,) = re.findall(r'd="([^"]*Z)"', text)
        return text.replace(route, re.sub(r"([\d.]+),([\d.]+)", moved, route))

    return edit


LINE_D = '<path d="M 10.000000,110.000000 L 40.000000,110.000000 L 40.000000,105.000000" />'
DISC_XML = '<circle cx="60.000000" cy="75.000000" r="2.500000" />'


@pytest.mark.parametrize(
    ("edit", "first"),
    [
        (
            lambda text: text.replace("000mm", "000px"),
            "width and height must be (150.000000, 120.000000) mm, found (39.687500, 31.750000)",
        ),
        (
            lambda text: text.replace("000mm", "000cm"),
            "width and height must be (150.000000, 120.000000) mm, "
            "found (1500.000000, 1200.000000)",
        ),
        (
            _swap('viewBox="0 0 150.000000', 'viewBox="1 0 150.000000'),
            "viewBox must be (0.0, 0.0, 150.0, 120.0), found (1.0, 0.0, 150.0, 120.0)",
        ),
        (
            _swap('viewBox="0 0 150.000000', 'viewBox="0 0 151.000000'),
            "viewBox must be (0.0, 0.0, 150.0, 120.0), found (0.0, 0.0, 151.0, 120.0)",
        ),
        (_swap(" Z", ""), "CUT line 1: must be closed, found open"),
        (
            _outline(lambda x, y: (120.0 - x, y)),
            "CUT line 1: is mirrored, point 1 must be at (10.000000, 20.000000) mm, "
            "found (110.000000, 20.000000)",
        ),
        (
            _outline(lambda x, y: (x + 0.5, y)),
            "CUT line 1: is moved, point 1 must be at (10.000000, 20.000000) mm, "
            "found (10.500000, 20.000000)",
        ),
        (
            _outline(lambda x, y: (x * 1.01, 120.0 - (120.0 - y) * 1.01)),
            "CUT line 1: is scaled by 1.010000, point 3 must be at (110.000000, 70.000000) mm, "
            "found (111.100000, 70.700000)",
        ),
        (
            _outline(lambda x, y: (x + 0.000002 * (x == 60.0), y)),
            "CUT line 1: is moved, point 4 must be at (60.000000, 95.000000) mm, "
            "found (60.000002, 95.000000)",
        ),
        (
            _outline(lambda x, y: (x + 20.0 * (x == 60.0), y)),
            "CUT line 1: has another shape, point 4 must be at (60.000000, 95.000000) mm, "
            "found (80.000000, 95.000000)",
        ),
        (_swap(LINE_D, ""), "CUT: 2 of kind line expected, 1 found"),
        (_swap(LINE_D, LINE_D * 2), "CUT: 2 of kind line expected, 3 found"),
        (_swap(DISC_XML, ""), "CUT: 1 of kind circle expected, 0 found"),
        (
            _swap('r="2.500000"', 'r="2.500002"'),
            "CUT circle 3: size must be 2.500000 mm, found 2.500002",
        ),
        (
            _swap(LINE_D + DISC_XML, DISC_XML + LINE_D),
            "CUT line 2: must come before the circle that is found here",
        ),
        (
            _swap('id="cut-backing"', 'id="cut-top"'),
            "CUT line 1: key must be 'backing', found 'top'",
        ),
        (
            _swap(" L 40.000000,105.000000", ""),
            "CUT line 2: must have 3 points, found 2",
        ),
        (
            _swap("M 10.000000,110.000000", "M nan,110.000000"),
            "a path must be M x,y L x,y ... Z, found "
            "'M nan,110.000000 L 40.000000,110.000000 L 40.000000,105.0000'",
        ),
        (
            _swap("M 10.000000,110.000000", "m 10.000000,110.000000"),
            "a path must be M x,y L x,y ... Z, found "
            "'m 10.000000,110.000000 L 40.000000,110.000000 L 40.000000,10'",
        ),
        (_swap('r="2.500000"', 'r="1e9"'), "r must be a plain number, found '1e9'"),
        (
            _swap('id="cut-backing"', 'id="cut-backing" transform="scale(2)"'),
            "the attribute 'transform' of g is never written here",
        ),
        (
            _swap("<circle ", '<circle style="fill:red" '),
            "the attribute 'style' of circle is never written here",
        ),
        (
            _swap(DISC_XML, "<script />"),
            "an element 'script' where g or path or circle must be",
        ),
        (_swap('fill="none"', 'fill="red"'), "the group 'cut' must have no fill"),
        (
            _swap('id="cut-backing"', 'id="dot-backing"'),
            "the group 'dot-backing' stands in the group 'cut'",
        ),
        (
            _swap('width="150.000000mm"', 'width="100%"'),
            "width must be a length in mm, found '100%'",
        ),
        (
            _swap('viewBox="0 0 150.000000 120.000000"', 'viewBox="0 0"'),
            "viewBox must have four numbers, found '0 0'",
        ),
        (
            _swap(' xmlns="http://www.w3.org/2000/svg"', ""),
            "an element 'svg' where svg must be",
        ),
        (lambda text: text[:900], "not XML: unclosed token: line 2, column 813"),
        (lambda _: "", "not XML: no element found: line 1, column 0"),
    ],
)
def test_each_way_to_break_an_svg_is_named(edit: Edit, first: str) -> None:
    """The first line says what was done to the file."""
    broken = edit(svg_writer.render(SHAPES).decode()).encode()
    assert svg.check(SHAPES, broken)[0] == first


def test_a_doubled_line_is_named_in_svg() -> None:
    """A line that lies on another is found even where the drawing itself has it twice."""
    document = sheet(OUTLINE, Path((*RING[2:], *RING[:2]), closed=True), LINE, DISC, DISC)
    assert svg.check(document, svg_writer.render(document)) == (
        "CUT line 2: lies on line 1",
        "CUT circle 5: lies on circle 4",
    )


def test_dimensions_in_a_row_may_share_a_line() -> None:
    """Two dimensions that meet have one extension line in common, and that is no fault."""
    first = Dimension(start=(10.0, 20.0), end=(50.0, 20.0), offset=12.0, text="40 mm")
    row = sheet(first, replace(first, start=(50.0, 20.0), end=(90.0, 20.0)), role=Role.DIMENSION)
    assert svg.check(row, svg_writer.render(row)) == ()
    assert dxf.check(row, dxf_writer.render(row)) == ()


def test_a_changed_title_is_named_in_svg() -> None:
    """The string that a text keeps is compared."""
    broken = svg_writer.render(LETTERING).replace(b"<title>HI<", b"<title>HO<")
    assert svg.check(LETTERING, broken)[0] == "LABEL line 1: string must be 'HI', found 'HO'"


def test_another_role_is_named_in_svg() -> None:
    """Items in a group of another role are missed in one and found in the other."""
    text = svg_writer.render(SHAPES).decode().replace('id="cut', 'id="trim')
    assert svg.check(SHAPES, text.encode()) == (
        "CUT: 2 of kind line expected, 0 found",
        "CUT: 1 of kind circle expected, 0 found",
        "TRIM: 0 of kind line expected, 2 found",
        "TRIM: 0 of kind circle expected, 1 found",
    )


def test_a_view_box_scales_as_the_standard_says() -> None:
    """1500 x 1000 in 300 x 200 px scales by 0.2 (W3C SVG 1.1/2, coordinate systems, example)."""
    text = OPENING.format("300px", "200px", "0 0 1500 1000")
    text += '<path d="M 0,1000 L 1500,0" /></g></g></svg>'
    (line,) = svg.read(text.encode()).items
    px = 25.4 / 96  # W3C CSS Values and Units 3: 1 in is 96 px
    assert math.dist(line.points[0], (0.0, 0.0)) < NEAR_MM
    assert math.dist(line.points[1], (1500 * 0.2 * px, 1000 * 0.2 * px)) < NEAR_MM


@pytest.mark.parametrize(
    ("length", "mm"),
    [("10mm", 10.0), ("10cm", 100.0), ("1in", 25.4), ("72pt", 25.4), ("6pc", 25.4), ("96", 25.4)],
)
def test_units_are_honoured_in_svg(length: str, mm: float) -> None:
    """1 in is 25.4 mm, 96 px, 72 pt or 6 pc (W3C CSS Values and Units 3, absolute lengths)."""
    text = OPENING.format(length, length, "0 0 10 10") + "</g></g></svg>"
    assert abs(svg.read(text.encode()).size[0] - mm) < NEAR_MM
