"""Reading back: a file as written is the same, and each way to break one is found and named."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_drawings import RING, cad, marked, patch, sheet

from cutpaths.drawing import Dimension, Document, Item, Pen, Placed
from cutpaths.lengths import Unit
from cutpaths.readback import dxf, svg
from cutpaths.readback.compare import SHOWN, differences
from cutpaths.readback.found import Found, Kind, ReadError
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, Text, shift
from cutpaths.writers import dxf as dxf_writer
from cutpaths.writers import svg as svg_writer

NEAR_MM = 1e-9

LINE = Path(((10.0, 10.0), (40.0, 10.0), (40.0, 15.0)))
OUTLINE = Path(RING, closed=True)
DISC = Circle((60.0, 45.0), 2.5)
SHAPES = sheet(OUTLINE, LINE, DISC)
LETTERING = sheet(Text(string="HI", at=(10.0, 20.0), height=21.0), role=Role.LABEL)
DIMENSION = Dimension(start=(25.4, 50.8), end=(127.0, 50.8), offset=12.7, text="4 in")


@pytest.mark.parametrize("unit", list(Unit))
def test_what_is_written_reads_back_the_same(unit: Unit) -> None:
    """No difference is found in a file as it was written, in every unit."""
    solid = Pen(scale=3.0, patterned=False, text_as_strokes=False)
    for document in (marked(unit), marked(unit, solid), cad(unit), sheet(unit=unit)):
        assert svg.check(document, svg_writer.render(document)) == ()
        assert dxf.check(document, dxf_writer.render(document)) == ()


numbers = st.integers(-(10**9), 10**9).map(lambda n: n / 1e6)
rings = st.lists(st.tuples(numbers, numbers), min_size=3, max_size=8, unique=True).map(tuple)


@settings(max_examples=40, deadline=None)
@given(rings, st.booleans(), st.data(), st.sampled_from([2e-6, -2e-6, 1.0]))
def test_a_moved_point_is_always_found(
    ring: tuple[Point, ...], closed: bool, data: st.DataObject, step: float
) -> None:
    """Whatever the line, one coordinate that is off by two steps of rounding is named."""
    number = data.draw(st.integers(0, len(ring) - 1))
    x, y = ring[number]
    moved = (*ring[:number], (x + step, y), *ring[number + 1 :])
    document, other = sheet(Path(ring, closed)), sheet(Path(moved, closed), unit=Unit.MILLIMETRE)
    for writer, reader in ((svg_writer, svg), (dxf_writer, dxf)):
        file = writer.render(document)
        assert reader.check(document, file) == ()
        (line,) = (words for words in reader.check(other, file) if "point" in words)
        assert line.startswith("CUT line 1: ")


# --- SVG

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


# --- DXF

Tags = list[tuple[str, str]]


def _tags(data: bytes) -> Tags:
    lines = data.decode().split("\n")
    return list(zip(lines[:-1:2], lines[1::2], strict=True))


def _bytes(tags: Tags) -> bytes:
    return "".join(f"{code}\n{value}\n" for code, value in tags).encode()


def _entity(tags: Tags, name: str) -> slice:
    """Where the first entity of a name stands in the ENTITIES section."""
    start = tags.index(("  0", name), tags.index(("  2", "ENTITIES")))
    end = next(n for n in range(start + 1, len(tags)) if tags[n][0] == "  0")
    return slice(start, end)


def _set(name: str, code: int, value: str, *, after: bool = False) -> Callable[[Tags], Tags]:
    """Gives the first group of a code, in the first entity of a name, a value; or adds it."""

    def edit(tags: Tags) -> Tags:
        place = _entity(tags, name)
        part = tags[place]
        written = f"{code:3}"
        if after:
            part.append((written, value))
        else:
            part[next(n for n, tag in enumerate(part) if tag[0] == written)] = (written, value)
        return [*tags[: place.start], *part, *tags[place.stop :]]

    return edit


def _header(name: str, value: str, skip: int = 1) -> Callable[[Tags], Tags]:
    def edit(tags: Tags) -> Tags:
        at = tags.index(("  9", name)) + skip
        return [*tags[:at], (tags[at][0], value), *tags[at + 1 :]]

    return edit


def _corners(change: Callable[[float, float], Point]) -> Callable[[Tags], Tags]:
    """Moves every point of the first polyline."""

    def edit(tags: Tags) -> Tags:
        place = _entity(tags, "LWPOLYLINE")
        part = tags[place]
        for n, (code, value) in enumerate(part):
            if code == " 10":
                x, y = change(float(value), float(part[n + 1][1]))
                part[n : n + 2] = [(" 10", str(x)), (" 20", str(y))]
        return [*tags[: place.start], *part, *tags[place.stop :]]

    return edit


def _without(name: str) -> Callable[[Tags], Tags]:
    def edit(tags: Tags) -> Tags:
        place = _entity(tags, name)
        return [*tags[: place.start], *tags[place.stop :]]

    return edit


def _twice(name: str) -> Callable[[Tags], Tags]:
    def edit(tags: Tags) -> Tags:
        place = _entity(tags, name)
        return [*tags[: place.stop], *tags[place.start :]]

    return edit


def _no_layer(tags: Tags) -> Tags:
    start = tags.index(("  0", "LAYER"), tags.index(("  2", "Defpoints")))
    end = next(n for n in range(start + 1, len(tags)) if tags[n][0] == "  0")
    return [*tags[:start], *tags[end:]]


@pytest.mark.parametrize(
    ("edit", "first"),
    [
        (_header("$INSUNITS", "1"), "$INSUNITS must be 4, found 1"),
        (_header("$INSUNITS", "0"), "$INSUNITS must be 4, found 0"),
        (_header("$MEASUREMENT", "0"), "$MEASUREMENT must be 1, found 0"),
        (_header("$ACADVER", "AC1015"), "$ACADVER must be AC1024, found AC1015"),
        (
            _header("$EXTMIN", "1e+20"),
            "$EXTMIN must be (0.000000, 0.000000) mm, found (100000000000000000000.000000, "
            "0.000000)",
        ),
        (
            _header("$EXTMAX", "12.0", 2),
            "$EXTMAX must be (150.000000, 120.000000) mm, found (150.000000, 12.000000)",
        ),
        (_no_layer, "the layer CUT is not in the layer table"),
        (_set("LWPOLYLINE", 8, "0"), "CUT: 2 of kind line expected, 1 found"),
        (_set("LWPOLYLINE", 70, "0"), "CUT line 1: must be closed, found open"),
        (
            _corners(lambda x, y: (120.0 - x, y)),
            "CUT line 1: is mirrored, point 1 must be at (10.000000, 20.000000) mm, "
            "found (110.000000, 20.000000)",
        ),
        (
            _corners(lambda x, y: (x * 25.4, y * 25.4)),
            "CUT line 1: is scaled by 25.400000, point 3 must be at (110.000000, 70.000000) mm, "
            "found (2794.000000, 1778.000000)",
        ),
        (
            _corners(lambda x, y: (x + 0.000002 * (x == 60.0), y)),
            "CUT line 1: is moved, point 4 must be at (60.000000, 95.000000) mm, "
            "found (60.000002, 95.000000)",
        ),
        (
            _set("LWPOLYLINE", 10, "nan"),
            "CUT line 1: has another shape, point 1 must be at (10.000000, 20.000000) mm, "
            "found (nan, nan)",
        ),
        (_without("LWPOLYLINE"), "CUT: 2 of kind line expected, 1 found"),
        (_twice("LWPOLYLINE"), "CUT: 2 of kind line expected, 3 found"),
        (_without("CIRCLE"), "CUT: 1 of kind circle expected, 0 found"),
        (
            _set("CIRCLE", 40, "2.500002"),
            "CUT circle 3: size must be 2.500000 mm, found 2.500002",
        ),
        (_set("LWPOLYLINE", 10, "ten"), "LWPOLYLINE has 'ten' as group 10"),
        (_set("LWPOLYLINE", 90, "6"), "a line of 6 points has 5"),
        (
            _set("LWPOLYLINE", 42, "0.5", after=True),
            "the LWPOLYLINE on CUT must be straight and flat",
        ),
        (
            _set("LWPOLYLINE", 38, "1.0", after=True),
            "the LWPOLYLINE on CUT must be straight and flat",
        ),
        (
            _set("CIRCLE", 230, "-1.0", after=True),
            "the CIRCLE on CUT must be straight and flat",
        ),
        (_set("CIRCLE", 0, "POINT"), "an entity POINT is never written here"),
        (lambda tags: tags[: len(tags) // 2], "the file has no end"),
        (
            lambda tags: [tag for tag in tags if tag != ("  0", "ENDSEC")],
            "a section has no end",
        ),
        (
            lambda tags: [tag for tag in tags if tag[1] != "$INSUNITS"],
            "the header has no $INSUNITS",
        ),
        (
            lambda tags: [("zero", "x"), *tags],
            "not DXF: invalid literal for int() with base 10: 'zero'",
        ),
    ],
)
def test_each_way_to_break_a_dxf_is_named(edit: Callable[[Tags], Tags], first: str) -> None:
    """The first line says what was done to the file."""
    broken = _bytes(edit(_tags(dxf_writer.render(SHAPES))))
    assert dxf.check(SHAPES, broken)[0] == first


CAD_PEN = Pen(text_as_strokes=False)
ANNOTATED = sheet(
    Text(string="HI", at=(10.0, 20.0), height=21.0),
    DIMENSION,
    Placed(patch(), shift(1.0, 2.0)),
    role=Role.DIMENSION,
    pen=CAD_PEN,
)


@pytest.mark.parametrize(
    ("edit", "first"),
    [
        (_set("TEXT", 1, "HO"), "DIMENSION text 1: string must be 'HI', found 'HO'"),
        (
            _set("TEXT", 40, "20.0"),
            "DIMENSION text 1: size must be 21.000000 mm, found 20.000000",
        ),
        (
            _set("TEXT", 50, "1.0", after=True),
            "DIMENSION text 1: angle must be 0.000000 degrees, found 1.000000",
        ),
        (_set("TEXT", 72, "2", after=True), "TEXT has None as group 11"),
        (
            lambda tags: _set("TEXT", 11, "3.0", after=True)(
                _set("TEXT", 21, "4.0", after=True)(_set("TEXT", 72, "2", after=True)(tags))
            ),
            "DIMENSION text 1: anchor must be 'start', found 'end'",
        ),
        (
            _set("TEXT", 72, "4", after=True),
            "a text must stand on its baseline, found 4 as group 72",
        ),
        (
            _set("DIMENSION", 1, "5 in"),
            "DIMENSION dimension 2: string must be '4 in', found '5 in'",
        ),
        (
            _set("DIMENSION", 14, "128.0"),
            "DIMENSION dimension 2: has another shape, point 2 must be at (127.000000, 50.800000) "
            "mm, found (128.000000, 50.800000)",
        ),
        (_set("DIMENSION", 2, "*D9"), "the block '*D9' is not there"),
        (
            _set("INSERT", 10, "1.5"),
            "CUT line 1: is moved, point 1 must be at (1.000000, 2.000000) mm, "
            "found (1.500000, 2.000000)",
        ),
        (
            _set("INSERT", 50, "90.0", after=True),
            "CUT line 1: is moved, point 3 must be at (115.300000, 96.300000) mm, "
            "found (-93.300000, 116.300000)",
        ),
        (
            _set("INSERT", 41, "-1.0", after=True),
            "the block 'PATCH-1' is stretched or mirrored",
        ),
        (_without("INSERT"), "CUT: 1 of kind line expected, 0 found"),
    ],
)
def test_broken_texts_dimensions_and_blocks_are_named(
    edit: Callable[[Tags], Tags], first: str
) -> None:
    """What CAD sheets have beyond lines is compared as well."""
    broken = _bytes(edit(_tags(dxf_writer.render(ANNOTATED))))
    assert first in dxf.check(ANNOTATED, broken)


def test_a_block_in_itself_is_refused() -> None:
    """A file whose block inserts itself is named and does not hang."""
    inner = Item(Role.CUT, "patch-1", Placed(patch(), shift(0.0, 0.0)))
    row = replace(patch(), name="row", items=(inner,))
    document = sheet(Placed(row, shift(0.0, 0.0)))
    tags = _tags(dxf_writer.render(document))
    inner_insert = tags.index(("  0", "INSERT"))
    name = tags.index(("  2", "PATCH-1"), inner_insert)
    looped = [*tags[:name], ("  2", "ROW"), *tags[name + 1 :]]
    assert dxf.check(document, _bytes(looped)) == ("the block 'ROW' is nested too deeply",)


def test_a_block_that_is_there_twice_is_refused() -> None:
    """Which of the two a program would show is anyone's guess."""
    two = [Placed(replace(patch(), name=name), shift(0.0, 0.0)) for name in ("a", "b")]
    document = sheet(*two)
    tags = [(c, "A" if v == "B" else v) for c, v in _tags(dxf_writer.render(document))]
    assert dxf.check(document, _bytes(tags)) == ("the block 'A' is there twice",)


INSERTED = """  0
SECTION
  2
HEADER
  9
$ACADVER
  1
AC1024
  9
$INSUNITS
 70
{}
  9
$MEASUREMENT
 70
0
  9
$EXTMIN
 10
0
 20
0
  9
$EXTMAX
 10
2
 20
1
  0
ENDSEC
  0
SECTION
  2
BLOCKS
  0
BLOCK
  2
A
 10
1
 20
0
  0
LWPOLYLINE
  8
CUT
 90
2
 70
0
 10
1
 20
0
 10
3
 20
0
  0
ENDBLK
  0
ENDSEC
  0
SECTION
  2
ENTITIES
  0
INSERT
  8
0
  2
A
 10
5
 20
7
 41
2
 42
2
 50
90
  0
ENDSEC
  0
EOF
"""


@pytest.mark.parametrize(("insunits", "mm"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_units_and_blocks_are_honoured_in_dxf(insunits: int, mm: float) -> None:
    """1 in, 4 mm, 5 cm, 6 m (DXF reference); a block is shifted, doubled and turned by hand."""
    found = dxf.read(INSERTED.format(insunits).encode())
    (line,) = found.items
    assert math.dist(line.points[0], (5 * mm, 7 * mm)) < NEAR_MM
    assert math.dist(line.points[1], (5 * mm, 11 * mm)) < NEAR_MM
    assert found.high == (2 * mm, mm)


def test_line_ends_may_be_those_of_another_system() -> None:
    """Carriage returns are no part of the values."""
    other = INSERTED.format(1).replace("\n", "\r\n").encode()
    assert dxf.read(other) == dxf.read(INSERTED.format(1).encode())


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"  0\nEOF", b"  0\nSECTION\n"])
def test_what_is_no_dxf_is_refused(data: bytes) -> None:
    """Bytes that are no file give one line and no traceback."""
    with pytest.raises(ReadError):
        dxf.read(data)


# --- comparing


def test_many_differences_are_cut_short() -> None:
    """A file that is all wrong does not fill the screen."""
    items = [
        Found(role="CUT", kind=Kind.LINE, points=((0.0, float(n)), (1.0, n + 0.5)))
        for n in range(SHOWN + 5)
    ]
    moved = [replace(item, points=tuple((x + 1, y) for x, y in item.points)) for item in items]
    found = differences(items, moved)
    assert len(found) == SHOWN + 1
    assert found[-1] == "... and 5 more"


def test_documents_of_several_sheets_are_not_compared() -> None:
    """The reader asks for one sheet as the writer does."""
    (drawing,) = SHAPES.sheets
    for reader in (svg, dxf):
        with pytest.raises(Exception, match="holds one sheet, kit has 2"):
            reader.check(Document("kit", (drawing, drawing)), b"")
