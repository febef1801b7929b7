"""DXF R12, read back by GDAL, by ezdxf and tag by tag, and each broken copy caught."""

from __future__ import annotations

import io
from pathlib import Path as Folder

import pytest
from outside import gdal
from outside.dxf_raw import read as raw
from sample_drawings import RING, marked, sheet

from cutpaths.drawing import Document
from cutpaths.formats import FORMATS
from cutpaths.geometry.polygons import signed_area
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path
from cutpaths.writers import dxf_r12

OUTLINE = sheet(Path(RING, closed=True), Circle((30.0, 40.0), 2.5))


def test_the_file_is_r12_and_nothing_newer() -> None:
    """AC1009 has POLYLINE and VERTEX, no LWPOLYLINE (DXF reference; the last from memory)."""
    found = raw(dxf_r12.render(marked()))
    assert found.variable("$ACADVER") == "AC1009"
    assert {record.name for record in found.entities} == {"POLYLINE", "VERTEX", "SEQEND", "CIRCLE"}
    assert "$INSUNITS" not in found.header
    assert set(found.table("LAYER")) == {"0", *(role.value for role in Role)}


def test_closed_by_flag_without_a_repeated_point() -> None:
    """An outline has as many vertices as corners and flag 1."""
    found = raw(dxf_r12.render(OUTLINE)).entities
    assert [record.name for record in found] == ["POLYLINE", *["VERTEX"] * 5, "SEQEND", "CIRCLE"]
    assert (found[0].one(70), found[0].one(66)) == ("1", "1")
    assert [(v.numbers(10)[0], v.numbers(20)[0]) for v in found[1:6]] == list(RING)
    assert {record.one(8) for record in found} == {"CUT"}


@pytest.mark.parametrize("unit", list(Unit))
def test_gdal_sees_the_same_outline_in_mm(unit: Unit, tmp_path: Folder) -> None:
    """Always millimetres, whatever the unit of the project: corners and area to 1e-6 mm."""
    features = gdal.read(dxf_r12.render(sheet(Path(RING, closed=True), unit=unit)), tmp_path)
    (feature,) = features
    ring = feature.lines[0][:5]
    for found, drawn in zip(ring, RING, strict=True):
        assert found == pytest.approx(drawn, abs=1e-6)
    assert signed_area(ring) == pytest.approx(signed_area(RING), abs=1e-4)


def test_ezdxf_reads_it_without_a_word() -> None:
    """A third reader has nothing to mend and sees the extents."""
    ezdxf = pytest.importorskip("ezdxf")
    doc = ezdxf.read(io.StringIO(dxf_r12.render(marked()).decode()))
    assert doc.dxfversion == "AC1009"
    audit = doc.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert tuple(doc.header["$EXTMAX"])[:2] == (160.0, 280.0)


@pytest.mark.parametrize("document", [marked(), OUTLINE], ids=["marked", "outline"])
def test_what_is_written_reads_back(document: Document) -> None:
    """Every role, circles and the strokes of texts included."""
    assert FORMATS["dxf-r12"].check(document, dxf_r12.render(document)) == ()


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("AC1009", "AC1015", "$ACADVER must be AC1009, found AC1015"),
        ("110.000000", "110.000100", "CUT line 1: has another shape"),
        ("SEQEND", "VERTEX", "the VERTEX on CUT"),
        (" 70\n1\n  0\nVERTEX", " 70\n0\n  0\nVERTEX", "CUT line 1: must be closed, found open"),
        (" 40\n2.500000", " 40\n2.600000", "CUT circle 2: size must be 2.500000 mm"),
        ("  2\nCUT\n", "  2\nCUTS\n", "the layer CUT is not in the layer table"),
        ("150.000000", "15.000000", "$EXTMAX must be (150.000000, 120.000000) mm"),
    ],
)
def test_each_broken_copy_is_caught(old: str, new: str, told: str) -> None:
    """A moved point, an open ring, a lost layer, another version: each is named."""
    good = dxf_r12.render(OUTLINE).decode()
    assert old in good
    broken = good.replace(old, new, 1).encode()
    found = FORMATS["dxf-r12"].check(OUTLINE, broken)
    assert found
    if told != "the VERTEX on CUT":
        assert any(told in line for line in found), found
