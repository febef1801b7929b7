"""DXF: entities and blocks as they must be; read by other readers."""

from __future__ import annotations

import io
from pathlib import Path as FilePath

import ezdxf
import pytest
from ezdxf.document import Drawing as DxfDocument
from ezdxf.entities.text import Text as DxfText
from outside import dxf_raw, gdal
from sample_drawings import PLACES, RING, about, cad, marked, patch, sheet

from cutpaths.drawing import Dimension, Document, Drawing, Item, Pen, Placed, expand
from cutpaths.errors import DrawingError
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Path, Text
from cutpaths.values import replace
from cutpaths.writers import dxf

NEAR_MM = 1e-6
CAD = Pen(text_as_strokes=False)
MM = {Unit.INCH: 25.4, Unit.MILLIMETRE: 1.0, Unit.CENTIMETRE: 1.0}


def raw(document: Document) -> dxf_raw.Raw:
    """The document's file by the raw tag reader."""
    return dxf_raw.read(dxf.render(document))


def library(document: Document) -> DxfDocument:
    """The document's file as ezdxf reads it."""
    return ezdxf.filemanagement.read(io.StringIO(dxf.render(document).decode()))


@pytest.mark.parametrize("unit", list(Unit))
def test_lines_are_polylines_closed_by_flag(unit: Unit) -> None:
    """LWPOLYLINE: 90 points, 70 bit 1 closed, 10 and 20 corners (DXF reference); none repeated."""
    line = Path(((1.0, 2.0), (3.5, 4.25)))
    closed, opened = raw(sheet(Path(RING, closed=True), line, unit=unit)).entities
    assert (closed.name, closed.one(8), closed.one(90), closed.one(70)) == (
        "LWPOLYLINE",
        "CUT",
        "5",
        "1",
    )
    assert (opened.one(90), opened.one(70)) == ("2", "0")
    xs, ys = closed.numbers(10), closed.numbers(20)
    assert xs == [round(x / MM[unit], 10) for x, _ in RING]
    assert ys == [round(y / MM[unit], 10) for _, y in RING]


def test_inches_are_exact_to_ten_decimals() -> None:
    """1/3 in is written as 0.3333333333 where a drawing has it to 1e-6 mm; 4 1/4 in as 4.25."""
    line = Path(((25.4 / 3, 107.95), (25.4, 0.0)))
    (found,) = raw(sheet(line, unit=Unit.INCH)).entities
    assert found.all(20) == ["4.25", "0.0"]
    assert found.all(10) == [str(round(8.466667 / 25.4, 10)), "1.0"]


def test_a_circle_is_a_circle() -> None:
    """CIRCLE with center and radius."""
    (found,) = raw(sheet(Circle((10.0, 20.0), 2.5), role=Role.DOT)).entities
    assert (found.name, found.one(8)) == ("CIRCLE", "DOT")
    assert [found.one(code) for code in (10, 20, 40)] == ["10.0", "20.0", "2.5"]


@pytest.mark.parametrize("anchor", list(Anchor))
def test_a_text_on_a_cad_sheet_is_text(anchor: Anchor) -> None:
    """TEXT with height and angle; 72 is 0 left, 1 center, 2 right, placed by 10 or by 11."""
    text = Text(string="Größe ½", at=(10.0, 20.0), height=5.0, angle=30.0, anchor=anchor)
    (found,) = raw(sheet(text, role=Role.LABEL, pen=CAD)).entities
    assert (found.name, found.one(1), found.one(40), found.one(50)) == (
        "TEXT",
        "Größe ½",
        "5.0",
        "30.0",
    )
    assert found.all(72) == {"start": [], "middle": ["1"], "end": ["2"]}[anchor]
    place = 10 if anchor is Anchor.START else 11
    assert found.numbers(place) + found.numbers(place + 10) == [10.0, 20.0]


@pytest.mark.parametrize("unit", list(Unit))
def test_a_text_for_a_machine_is_strokes(unit: Unit) -> None:
    """Unless the pen says otherwise a text is polylines on its layer, solid in any case."""
    text = Text(string="Größe ½", at=(10.0, 20.0), height=5.0)
    found = raw(sheet(text, role=Role.STITCH, unit=unit)).entities
    assert [e.name for e in found] == ["LWPOLYLINE"] * len(expand(Item(Role.STITCH, "a", text)))
    assert {e.one(6) for e in found} == {"Continuous"}


@pytest.mark.parametrize(
    "string", ["50%", "100%% cotton", "a%%%b", "%%d %%c %%%%", "^J", "a^b", "2 ^ 3", "{\\P}", "½″"]
)
def test_signs_of_dxf_come_back_as_written(string: str) -> None:
    """Carets and percent signs read as themselves in ezdxf (DXF reference: `^ `, `%%%`)."""
    text = Text(string=string, at=(10.0, 20.0), height=5.0)
    document = library(sheet(text, role=Role.LABEL, pen=CAD))
    (found,) = document.modelspace()
    assert isinstance(found, DxfText)
    assert found.plain_text() == string


def test_carets_and_letters_reach_gdal(tmp_path: FilePath) -> None:
    """GDAL reads carets, accents and fractions as they were written."""
    text = Text(string="^J Größe ½″ 5%", at=(10.0, 20.0), height=5.0)
    (found,) = gdal.read(dxf.render(sheet(text, role=Role.LABEL, pen=CAD)), tmp_path)
    assert found.text == "^J Größe ½″ 5%"


@pytest.mark.parametrize("string", ["\\U+00e9", "\\m+1ab"])
def test_letter_codes_are_refused(string: str) -> None:
    """A text that DXF would read as the code of another letter cannot be written."""
    text = Text(string=string, at=(10.0, 20.0), height=5.0)
    with pytest.raises(DrawingError) as caught:
        dxf.render(sheet(text, role=Role.LABEL, pen=CAD))
    assert str(caught.value) == f"a DXF text cannot hold \\U+ or \\M+, got {string!r}"


def test_lines_come_in_drawing_order() -> None:
    """Pen work first, outlines last, as a machine is to run them."""
    layers = [entity.one(8) for entity in raw(marked()).entities]
    assert list(dict.fromkeys(layers)) == list(Role)


def test_a_dimension_is_a_dimension() -> None:
    """An aligned DIMENSION with our text, its points, its length and a block that shows it."""
    dimension = Dimension(start=(25.4, 50.8), end=(127.0, 50.8), offset=12.7, text="4 in")
    file = raw(sheet(dimension, role=Role.DIMENSION, unit=Unit.INCH, pen=CAD))
    (found,) = file.entities
    assert (found.name, found.one(8), found.one(1)) == ("DIMENSION", "DIMENSION", "4 in")
    assert found.one(70) == "33"  # 1 aligned, 32 a block of its own (DXF reference)
    assert found.numbers(13) + found.numbers(23) == [1.0, 2.0]
    assert found.numbers(14) + found.numbers(24) == [5.0, 2.0]
    assert found.numbers(10) + found.numbers(20) == [5.0, 2.5]
    assert found.numbers(42) == [4.0]
    block = file.blocks[found.one(2)]
    assert [entity.name for entity in block] == ["LWPOLYLINE"] * 5 + ["TEXT"]
    assert block[-1].one(1) == "4 in"
    assert {entity.one(8) for entity in block} == {"DIMENSION"}


@pytest.mark.parametrize(
    ("unit", "lunit", "frac", "dec"),
    [(Unit.INCH, "5", "2", "4"), (Unit.MILLIMETRE, "2", "0", "1")],
)
def test_redrawn_dimensions_read_alike(unit: Unit, lunit: str, frac: str, dec: str) -> None:
    """DIMLUNIT 5 fractional, 2 decimal; DIMFRAC 2 not stacked; a point, never a comma."""
    dimension = Dimension(start=(25.4, 50.8), end=(127.0, 50.8), offset=12.7, text="4 in")
    file = raw(sheet(dimension, role=Role.DIMENSION, unit=unit, pen=CAD))
    style = file.table("DIMSTYLE")[file.entities[0].one(3)]
    assert [style.one(code) for code in (277, 276, 271, 278)] == [lunit, frac, dec, "46"]
    names = ("$DIMLUNIT", "$DIMFRAC", "$DIMDEC", "$DIMDSEP")
    assert [file.variable(name) for name in names] == [lunit, frac, dec, "46"]


def test_each_text_height_has_a_dimension_style() -> None:
    """Dimensions of one height share a style; another height has its own."""
    tall = Dimension(start=(0.0, 0.0), end=(100.0, 0.0), offset=9.0, text="100 mm", height=8.0)
    low = replace(tall, height=4.0, offset=20.0)
    file = raw(sheet(tall, low, replace(tall, offset=40.0), role=Role.DIMENSION, pen=CAD))
    assert [e.one(3) for e in file.entities] == ["DIMENSION-1", "DIMENSION-2", "DIMENSION-1"]
    styles = file.table("DIMSTYLE")
    assert styles["DIMENSION-1"].numbers(140) == [8.0]
    assert styles["DIMENSION-2"].numbers(140) == [4.0]


@pytest.mark.parametrize("text", ["{1}", "<>", "a\\Pb"])
def test_dimensions_with_signs_of_their_own_are_refused(text: str) -> None:
    """Braces, backslashes and angle brackets would format or replace the text."""
    dimension = Dimension(start=(0.0, 0.0), end=(9.0, 0.0), offset=5.0, text=text)
    with pytest.raises(DrawingError) as caught:
        dxf.render(sheet(dimension, role=Role.DIMENSION))
    assert str(caught.value) == f"a dimension cannot show \\ {{ }} < or >, got {text!r}"


def test_a_placed_drawing_is_a_block() -> None:
    """One block however often it is placed, one more for its mirror image; layer 0 inserts."""
    file = raw(cad())
    inserts = [entity for entity in file.entities if entity.name == "INSERT"]
    assert [entity.one(2) for entity in inserts] == [
        "PATCH-1",
        "PATCH-1",
        "PATCH-1-M",
        "PATCH-1-M",
        "PATCH-1",
    ]
    assert {entity.one(8) for entity in inserts} == {"0"}
    assert [n for n in file.blocks if not n.startswith("*")] == ["PATCH-1", "PATCH-1-M"]
    assert {value for e in inserts for code in (41, 42) for value in e.numbers(code)} <= {1.0}
    assert inserts[1].numbers(50) == [90.0]


def test_without_placed_drawings_nothing_is_inserted() -> None:
    """Machine and projector files hold final coordinates and no block of ours."""
    file = raw(marked())
    assert {entity.name for entity in file.entities} == {"LWPOLYLINE", "CIRCLE"}
    assert [name for name in file.blocks if not name.startswith("*")] == []


def test_two_drawings_of_one_name_are_refused() -> None:
    """A block's name stands for one thing."""
    one, other = Placed(patch(side=100.0), PLACES[0]), Placed(patch(side=90.0), PLACES[1])
    with pytest.raises(DrawingError) as caught:
        dxf.render(sheet(one, other))
    message = "two different drawings are placed under the name PATCH-1"
    assert str(caught.value) == message


@pytest.mark.parametrize("name", ["größe", "a b", "p" * 32, "", "a/b"])
def test_block_names_are_plain(name: str) -> None:
    """Blanks, slashes, accents and long names make some readers refuse a file."""
    with pytest.raises(DrawingError) as caught:
        dxf.render(sheet(Placed(replace(patch(), name=name), PLACES[0])))
    assert str(caught.value) == (
        f"a block's name must be at most 31 letters, digits, - or _, got {name.upper()!r}"
    )


def test_blocks_stand_in_blocks() -> None:
    """A drawing that has another placed on it is a block that inserts a block."""
    inner = Item(Role.CUT, "patch-1", Placed(patch(), PLACES[1]))
    outer = Drawing(name="row", size=(400.0, 200.0), about=about(), items=(inner,))
    file = raw(sheet(Placed(outer, PLACES[0])))
    assert [e.one(2) for e in file.entities] == ["ROW"]
    assert [e.one(2) for e in file.blocks["ROW"]] == ["PATCH-1"]


@pytest.mark.parametrize("unit", list(Unit))
def test_ezdxf_finds_nothing_to_repair(unit: Unit) -> None:
    """Ezdxf's audit has no error and mends nothing."""
    for document in (cad(unit), marked(unit)):
        auditor = library(document).audit()
        assert (auditor.errors, auditor.fixes) == ([], [])


@pytest.mark.parametrize("unit", list(Unit))
def test_gdal_sees_the_same_lines(unit: Unit, tmp_path: FilePath) -> None:
    """Outlines where the drawing has them, to 1e-6 mm, placed ones too; the same counts."""
    document = cad(unit)
    found = gdal.read(dxf.render(document), tmp_path)
    outlines = [f for f in found if f.layer == "CUT"]
    expected = [
        item.shape
        for top in document.sheets[0].items
        for item in expand(top)
        if item.role is Role.CUT
    ]
    assert len(outlines) == len(expected) == len(PLACES)
    for feature, path in zip(outlines, expected, strict=True):
        assert isinstance(path, Path)
        ring = [(x * MM[unit], y * MM[unit]) for x, y in feature.lines[0]]
        assert len(ring) == len(path.points) + 1
        gaps = [
            max(abs(a[0] - b[0]), abs(a[1] - b[1]))
            for a, b in zip(ring, (*path.points, path.points[0]), strict=True)
        ]
        assert max(gaps) < NEAR_MM
    assert len([f for f in found if f.layer == "DOT"]) == len(PLACES)
    assert [f.text for f in found if f.layer == "LABEL"].count("patch 1") == len(PLACES)
    assert [f.text for f in found if f.text and f.layer == "DIMENSION"] == [
        "1/4 in",
        *["4 1/2 in"] * len(PLACES),
    ]


def test_several_sheets_are_refused() -> None:
    """A file holds one sheet."""
    (drawing,) = sheet().sheets
    with pytest.raises(DrawingError) as caught:
        dxf.render(Document("kit", (drawing, drawing)))
    assert str(caught.value) == "DXF holds one sheet, kit has 2"
