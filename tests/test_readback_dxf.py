"""Reading DXF back: each way to break a file is named; units and blocks are taken at their word."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from dxf_edits import (
    Tags,
    bytes_of,
    tags_of,
    twice,
    with_corners,
    with_group,
    with_header,
    without,
    without_layer,
)
from sample_drawings import RING, patch, sheet

from cutpaths.drawing import Dimension, Item, Pen, Placed
from cutpaths.readback import dxf
from cutpaths.readback.found import ReadError
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Text, shift
from cutpaths.values import replace
from cutpaths.writers import dxf as dxf_writer

NEAR_MM = 1e-9

LINE = Path(((10.0, 10.0), (40.0, 10.0), (40.0, 15.0)))
OUTLINE = Path(RING, closed=True)
DISC = Circle((60.0, 45.0), 2.5)
SHAPES = sheet(OUTLINE, LINE, DISC)

DIMENSION = Dimension(start=(25.4, 50.8), end=(127.0, 50.8), offset=12.7, text="4 in")


@pytest.mark.parametrize(
    ("edit", "first"),
    [
        (with_header("$INSUNITS", "1"), "$INSUNITS must be 4, found 1"),
        (with_header("$INSUNITS", "0"), "$INSUNITS must be 4, found 0"),
        (with_header("$MEASUREMENT", "0"), "$MEASUREMENT must be 1, found 0"),
        (with_header("$ACADVER", "AC1015"), "$ACADVER must be AC1024, found AC1015"),
        (
            with_header("$EXTMIN", "1e+20"),
            "$EXTMIN must be (0.000000, 0.000000) mm, found (100000000000000000000.000000, "
            "0.000000)",
        ),
        (
            with_header("$EXTMAX", "12.0", 2),
            "$EXTMAX must be (150.000000, 120.000000) mm, found (150.000000, 12.000000)",
        ),
        (without_layer, "the layer CUT is not in the layer table"),
        (with_group("LWPOLYLINE", 8, "0"), "CUT: 2 of kind line expected, 1 found"),
        (with_group("LWPOLYLINE", 70, "0"), "CUT line 1: must be closed, found open"),
        (
            with_corners(lambda x, y: (120.0 - x, y)),
            "CUT line 1: is mirrored, point 1 must be at (10.000000, 20.000000) mm, "
            "found (110.000000, 20.000000)",
        ),
        (
            with_corners(lambda x, y: (x * 25.4, y * 25.4)),
            "CUT line 1: is scaled by 25.400000, point 3 must be at (110.000000, 70.000000) mm, "
            "found (2794.000000, 1778.000000)",
        ),
        (
            with_corners(lambda x, y: (x + 0.000002 * (x == 60.0), y)),
            "CUT line 1: is moved, point 4 must be at (60.000000, 95.000000) mm, "
            "found (60.000002, 95.000000)",
        ),
        (
            with_group("LWPOLYLINE", 10, "nan"),
            "CUT line 1: has another shape, point 1 must be at (10.000000, 20.000000) mm, "
            "found (nan, nan)",
        ),
        (without("LWPOLYLINE"), "CUT: 2 of kind line expected, 1 found"),
        (twice("LWPOLYLINE"), "CUT: 2 of kind line expected, 3 found"),
        (without("CIRCLE"), "CUT: 1 of kind circle expected, 0 found"),
        (
            with_group("CIRCLE", 40, "2.500002"),
            "CUT circle 3: size must be 2.500000 mm, found 2.500002",
        ),
        (with_group("LWPOLYLINE", 10, "ten"), "LWPOLYLINE has 'ten' as group 10"),
        (with_group("LWPOLYLINE", 90, "6"), "a line of 6 points has 5"),
        (
            with_group("LWPOLYLINE", 42, "0.5", after=True),
            "the LWPOLYLINE on CUT must be straight and flat",
        ),
        (
            with_group("LWPOLYLINE", 38, "1.0", after=True),
            "the LWPOLYLINE on CUT must be straight and flat",
        ),
        (
            with_group("CIRCLE", 230, "-1.0", after=True),
            "the CIRCLE on CUT must be straight and flat",
        ),
        (with_group("CIRCLE", 0, "POINT"), "an entity POINT is never written here"),
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
    broken = bytes_of(edit(tags_of(dxf_writer.render(SHAPES))))
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
        (with_group("TEXT", 1, "HO"), "DIMENSION text 1: string must be 'HI', found 'HO'"),
        (
            with_group("TEXT", 40, "20.0"),
            "DIMENSION text 1: size must be 21.000000 mm, found 20.000000",
        ),
        (
            with_group("TEXT", 50, "1.0", after=True),
            "DIMENSION text 1: angle must be 0.000000 degrees, found 1.000000",
        ),
        (with_group("TEXT", 72, "2", after=True), "TEXT has None as group 11"),
        (
            lambda tags: with_group("TEXT", 11, "3.0", after=True)(
                with_group("TEXT", 21, "4.0", after=True)(
                    with_group("TEXT", 72, "2", after=True)(tags)
                )
            ),
            "DIMENSION text 1: anchor must be 'start', found 'end'",
        ),
        (
            with_group("TEXT", 72, "4", after=True),
            "a text must stand on its baseline, found 4 as group 72",
        ),
        (
            with_group("DIMENSION", 1, "5 in"),
            "DIMENSION dimension 2: string must be '4 in', found '5 in'",
        ),
        (
            with_group("DIMENSION", 14, "128.0"),
            "DIMENSION dimension 2: has another shape, point 2 must be at (127.000000, 50.800000) "
            "mm, found (128.000000, 50.800000)",
        ),
        (with_group("DIMENSION", 2, "*D9"), "the block '*D9' is not there"),
        (
            with_group("INSERT", 10, "1.5"),
            "CUT line 1: is moved, point 1 must be at (1.000000, 2.000000) mm, "
            "found (1.500000, 2.000000)",
        ),
        (
            with_group("INSERT", 50, "90.0", after=True),
            "CUT line 1: is moved, point 3 must be at (115.300000, 96.300000) mm, "
            "found (-93.300000, 116.300000)",
        ),
        (
            with_group("INSERT", 41, "-1.0", after=True),
            "the block 'PATCH-1' is stretched or mirrored",
        ),
        (without("INSERT"), "CUT: 1 of kind line expected, 0 found"),
    ],
)
def test_broken_texts_dimensions_and_blocks_are_named(
    edit: Callable[[Tags], Tags], first: str
) -> None:
    """What CAD sheets have beyond lines is compared as well."""
    broken = bytes_of(edit(tags_of(dxf_writer.render(ANNOTATED))))
    assert first in dxf.check(ANNOTATED, broken)


def test_a_block_in_itself_is_refused() -> None:
    """A file whose block inserts itself is named and does not hang."""
    inner = Item(Role.CUT, "patch-1", Placed(patch(), shift(0.0, 0.0)))
    row = replace(patch(), name="row", items=(inner,))
    document = sheet(Placed(row, shift(0.0, 0.0)))
    tags = tags_of(dxf_writer.render(document))
    inner_insert = tags.index(("  0", "INSERT"))
    name = tags.index(("  2", "PATCH-1"), inner_insert)
    looped = [*tags[:name], ("  2", "ROW"), *tags[name + 1 :]]
    assert dxf.check(document, bytes_of(looped)) == ("the block 'ROW' is nested too deeply",)


def test_a_block_that_is_there_twice_is_refused() -> None:
    """Which of the two a program would show is anyone's guess."""
    two = [Placed(replace(patch(), name=name), shift(0.0, 0.0)) for name in ("a", "b")]
    document = sheet(*two)
    tags = [(c, "A" if v == "B" else v) for c, v in tags_of(dxf_writer.render(document))]
    assert dxf.check(document, bytes_of(tags)) == ("the block 'A' is there twice",)


# Written by hand: a block of one line, inserted at (5, 7), doubled and turned by a quarter.
INSERTED = (
    "0 SECTION, 2 HEADER, 9 $ACADVER, 1 AC1024, 9 $INSUNITS, 70 {}, 9 $MEASUREMENT, 70 0, "
    "9 $EXTMIN, 10 0, 20 0, 9 $EXTMAX, 10 2, 20 1, 0 ENDSEC, "
    "0 SECTION, 2 BLOCKS, 0 BLOCK, 2 A, 10 1, 20 0, "
    "0 LWPOLYLINE, 8 CUT, 90 2, 70 0, 10 1, 20 0, 10 3, 20 0, 0 ENDBLK, 0 ENDSEC, "
    "0 SECTION, 2 ENTITIES, 0 INSERT, 8 0, 2 A, 10 5, 20 7, 41 2, 42 2, 50 90, 0 ENDSEC, 0 EOF"
)


def _inserted(insunits: int, end: str = "\n") -> bytes:
    """The hand-written file in a unit, with lines that end in some way."""
    lines = INSERTED.format(insunits).replace(", ", " ").split(" ")
    return "".join(line + end for line in lines).encode()


@pytest.mark.parametrize(("insunits", "mm"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_units_and_blocks_are_honoured_in_dxf(insunits: int, mm: float) -> None:
    """1 in, 4 mm, 5 cm, 6 m (DXF reference); a block is shifted, doubled and turned by hand."""
    found = dxf.read(_inserted(insunits))
    (line,) = found.items
    assert math.dist(line.points[0], (5 * mm, 7 * mm)) < NEAR_MM
    assert math.dist(line.points[1], (5 * mm, 11 * mm)) < NEAR_MM
    assert found.high == (2 * mm, mm)


def test_line_ends_may_be_those_of_another_system() -> None:
    """Carriage returns are no part of the values."""
    assert dxf.read(_inserted(1, "\r\n")) == dxf.read(_inserted(1))


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"  0\nEOF", b"  0\nSECTION\n"])
def test_what_is_no_dxf_is_refused(data: bytes) -> None:
    """Bytes that are no file give one line and no traceback."""
    with pytest.raises(ReadError):
        dxf.read(data)
