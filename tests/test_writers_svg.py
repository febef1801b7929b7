"""SVG: true to scale, plain, described; read by readers that are not ours."""

from __future__ import annotations

import math

import pytest
from outside import pixels, svg_elements, svg_xml
from sample_drawings import DIGEST, PLACES, RING, TITLE, cad, marked, patch, sheet

from cutpaths.drawing import Dimension, Document, Item, Pen, Placed, expand
from cutpaths.errors import DrawingError
from cutpaths.lengths import Unit
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Circle, Path, Text
from cutpaths.values import replace
from cutpaths.writers import svg

NEAR_MM = 1e-6


def test_width_height_and_view_box_are_the_same_numbers() -> None:
    """So that one user unit is 1 mm (W3C SVG 1.1, 7.7 and 7.10), whatever the project's unit."""
    for unit in Unit:
        root = svg_xml.root(svg.render(marked(unit)))
        assert root.getAttribute("width") == "160.000000mm"
        assert root.getAttribute("height") == "280.000000mm"
        assert root.getAttribute("viewBox") == "0 0 160.000000 280.000000"
        assert root.getAttribute("version") == "1.1"


def test_roles_are_groups_in_drawing_order() -> None:
    """A group for each role, outlines last; in it one for each piece, by the program's keys."""
    root = svg_xml.root(svg.render(marked()))
    ids = [group.getAttribute("id") for group in svg_xml.all_of(root, "g")]
    expected = []
    for role in map(str.lower, Role):
        pieces = [f"{role}-backing", f"{role}-top"]
        expected += [role, *pieces]
    assert [name for name in ids if name] == expected
    fills = [group.getAttribute("fill") for group in svg_xml.all_of(root, "g")]
    assert [fill for fill in fills if fill] == ["none"] * len(Role)


def test_coordinates_are_final_with_y_down() -> None:
    """Six decimals, absolute, flipped by height - y alone; closed by Z, no point repeated."""
    line = Path(((1.5, 2.25), (30.0, 120.0)))
    data = svg.render(sheet(Path(RING[:3], closed=True), line, Circle((40.0, 50.0), 2.5)))
    group = svg_xml.group(data, "cut-backing")
    assert [path.getAttribute("d") for path in svg_xml.all_of(group, "path")] == [
        "M 10.000000,100.000000 L 110.000000,100.000000 L 110.000000,50.000000 Z",
        "M 1.500000,117.750000 L 30.000000,0.000000",
    ]
    (circle,) = svg_xml.all_of(group, "circle")
    values = [circle.getAttribute(name) for name in ("cx", "cy", "r")]
    assert values == ["40.000000", "70.000000", "2.500000"]


def test_nothing_is_transformed_styled_or_run() -> None:
    """Simple importers ignore transforms and styles, and a script has no place in a drawing."""
    text = svg.render(cad()).decode()
    for word in ("transform", "style", "script", "class=", "href=", "<text", "matrix", "e-0"):
        assert word not in text


def test_svgelements_sees_the_same_lines() -> None:
    """Each line and circle is where the drawing has it, to 1e-6 mm, closed where it is closed."""
    document = cad()
    drawing = document.sheets[0]
    data = svg.render(document)
    assert math.dist(svg_elements.size(data), drawing.size) < NEAR_MM
    flat = [e for item in drawing.items for e in expand(item)]
    order = [e.shape for role in Role for e in flat if e.role is role]
    paths = [shape for shape in order if isinstance(shape, Path)]
    circles = [shape for shape in order if isinstance(shape, Circle)]
    found = svg_elements.lines(data)
    assert len(found) == len(paths)
    for path, points in zip(paths, found, strict=True):
        expected = [*path.points, path.points[0]] if path.closed else list(path.points)
        assert len(points) == len(expected)
        assert max(map(math.dist, points, expected)) < NEAR_MM
    assert len(circles) == len(PLACES)
    for circle, (x, y, radius) in zip(circles, svg_elements.circles(data), strict=True):
        assert math.dist((x, y), circle.center) < NEAR_MM
        assert abs(radius - circle.radius) < NEAR_MM


def test_pixels_are_true_to_scale() -> None:
    """At 254 dots per inch (1 in = 25.4 mm, Federal Register, 1 July 1959) a mm is ten pixels."""
    square = Path(((5.0, 4.0), (25.0, 4.0), (25.0, 14.0), (5.0, 14.0)), closed=True)
    drawing = replace(sheet(square).sheets[0], size=(30.0, 20.0))
    rows = pixels.picture(svg.render(Document("square", (drawing,))))
    assert (len(rows[0]), len(rows)) == (300, 200)
    pen = round(STYLES[Role.CUT].width / 2 / pixels.PIXEL_MM)
    left, top, right, bottom = pixels.dark_box(rows)
    ink = (left + pen, top + pen, right - pen, bottom - pen)
    assert max(abs(a - b) for a, b in zip(ink, (50, 60, 250, 160), strict=True)) <= 1


def test_a_text_is_strokes_under_its_title() -> None:
    """The string is kept as a title; the drawing is paths only, and never dashed."""
    text = Text(string='<&"> ½', at=(10.0, 20.0), height=5.0)
    data = svg.render(sheet(text, role=Role.STITCH))
    group = svg_xml.group(data, "stitch-backing")
    (lettering,) = svg_xml.all_of(group, "g")
    assert svg_xml.text(lettering, "title") == '<&"> ½'
    assert lettering.getAttribute("stroke-dasharray") == "none"
    assert len(svg_xml.all_of(lettering, "path")) == len(expand(Item(Role.STITCH, "a", text)))


def test_a_dimension_keeps_its_text() -> None:
    """A dimension is five lines, and its text as strokes under a title."""
    dimension = Dimension(start=(10.0, 20.0), end=(110.0, 20.0), offset=10.0, text="3 15/16 in")
    data = svg.render(sheet(dimension, role=Role.DIMENSION))
    group = svg_xml.group(data, "dimension-backing")
    lines = [node for node in group.childNodes if node.nodeName == "path"]
    assert len(lines) == 5
    assert svg_xml.text(group, "title") == "3 15/16 in"


def test_what_is_placed_is_written_under_its_own_key() -> None:
    """A placed drawing is final coordinates in the groups of its own roles and keys."""
    data = svg.render(sheet(Placed(patch(), PLACES[0]), role=Role.LABEL))
    ids = [g.getAttribute("id") for g in svg_xml.all_of(svg_xml.root(data), "g")]
    assert [name for name in ids if "-" in name] == [
        "label-patch-1",
        "dot-patch-1",
        "dimension-patch-1",
        "cut-patch-1",
    ]
    (outline,) = svg_xml.all_of(svg_xml.group(data, "cut-patch-1"), "path")
    assert svg_xml.points(outline)[0] == (30.0, 100.0)


@pytest.mark.parametrize("role", list(Role))
def test_lines_are_drawn_by_the_table_of_roles(role: Role) -> None:
    """Colour, width and pattern are the role's; a pen widens lines and can make them solid."""
    line = Path(((0.0, 0.0), (50.0, 0.0)))
    style = STYLES[role]
    plain = svg_xml.group(svg.render(sheet(line, role=role)), role.lower())
    strong = svg_xml.group(
        svg.render(sheet(line, role=role, pen=Pen(scale=3.0, patterned=False))), role.lower()
    )
    assert plain.getAttribute("stroke") == style.hex
    assert float(plain.getAttribute("stroke-width")) == style.width
    dashes = tuple(map(float, plain.getAttribute("stroke-dasharray").split()))
    assert dashes == style.pattern
    assert abs(float(strong.getAttribute("stroke-width")) - 3 * style.width) < NEAR_MM
    assert strong.getAttribute("stroke-dasharray") == ""


def test_a_file_says_what_it_is() -> None:
    """Title, description and Dublin Core metadata come from the drawing, escaped."""
    root = svg_xml.root(svg.render(marked()))
    assert svg_xml.text(root, "title") == f"{TITLE}: backing"
    assert svg_xml.text(root, "desc") == (
        "Face up: wrong side. One user unit is 1 mm; do not scale. Unit of the texts: in."
    )
    assert svg_xml.text(root, "dc:title") == TITLE
    assert svg_xml.text(root, "dc:subject") == "backing"
    assert svg_xml.text(root, "dc:identifier") == f"sha256:{DIGEST}"
    assert svg_xml.text(root, "dc:format") == "image/svg+xml"


def test_text_from_a_person_never_becomes_an_id() -> None:
    """Ids are made of roles and the program's keys alone."""
    text = Text(string="cut-backing", at=(10.0, 20.0), height=5.0)
    data = svg.render(sheet(text, role=Role.LABEL))
    ids = [e.getAttribute("id") for e in svg_xml.all_of(svg_xml.root(data), "*")]
    assert [name for name in ids if name] == ["label", "label-backing"]


def test_an_empty_sheet_is_a_file() -> None:
    """A drawing without items has a size and no group."""
    root = svg_xml.root(svg.render(sheet()))
    assert svg_xml.all_of(root, "g") == []


def test_several_sheets_are_refused() -> None:
    """A file holds one sheet."""
    (drawing,) = sheet().sheets
    with pytest.raises(DrawingError) as caught:
        svg.render(Document("kit", (drawing, drawing)))
    assert str(caught.value) == "SVG holds one sheet, kit has 2"
