"""HP-GL, read back by ezhpgl and by a reader of our own, and each broken copy caught."""

from __future__ import annotations

import json
import math
import re

import ezhpgl
import pytest
from sample_drawings import RING, marked, sheet

from cutpaths.drawing import Document, Drawing, Item, Pen
from cutpaths.errors import DrawingError
from cutpaths.formats import FORMATS
from cutpaths.geometry.polygons import Ring, distance
from cutpaths.lengths import Unit
from cutpaths.readback import hpgl as reader
from cutpaths.roles import Machine, Role
from cutpaths.shapes import Circle, Path
from cutpaths.writers import hpgl, hpgl_old

# SOURCES: HP PCL 5 technical reference, HP-GL/2 part: one unit is 0.025 mm.
STEP = 0.025
Stroke = tuple[int, tuple[tuple[float, float], ...]]


def outside(data: bytes) -> list[Stroke]:
    """Pen and places of each stroke, as ezhpgl (0.1.0a2) reads them, in mm."""
    plot = json.loads(ezhpgl.parse(data).to_json())
    assert (plot["units"], plot["completeness"], plot["diagnostics"]) == ("mm", "complete", [])
    return [
        (each["style"]["pen"], tuple((p["x"], p["y"]) for p in each["geometry"]["points"]))
        for page in plot["pages"]
        for each in page["operations"]
    ]


def test_the_handbook_triangle() -> None:
    """The triangle of HP's manual is 62.25 mm along its foot: 2500 - 10 units of 0.025 mm.

    Source: HP PCL 5 technical reference, HP-GL/2 part, the example IN;SP1;PA10,10;PD...
    """
    known = b"IN;SP1;PA10,10;PD2500,10,10,1500,10,10;PU;"
    expected = (0.25, 0.25), (62.5, 0.25), (0.25, 37.5), (0.25, 0.25)
    assert [points for _, points in outside(known)] == [expected]
    ((pen, points),) = reader.read(known).strokes
    assert pen == 1
    assert [p == pytest.approx(q) for p, q in zip(points, expected, strict=True)] == [True] * 4
    triangle = Path(expected[:3], closed=True)
    ours = hpgl.render(sheet(triangle, role=Role.STITCH))
    assert outside(ours) == [(1, expected)]
    assert b"PA10,10;PD2500,10,10,1500,10,10;" in ours


def test_a_ring_is_closed_and_to_size() -> None:
    """The outline comes back to its start; each corner is within half a step."""
    ((pen, points),) = outside(hpgl.render(sheet(Path(RING, closed=True))))
    assert pen == 2
    assert points[0] == points[-1]
    for found, drawn in zip(points, (*RING, RING[0]), strict=True):
        assert found == pytest.approx(drawn, abs=STEP / 2 + 1e-9)


def test_long_paths_do_not_drift() -> None:
    """A thousand steps of 1.01 mm end at 1010 mm, and each point is within half a step."""
    steps: Ring = tuple((1.01 * n, 5.0 + 0.013 * (n % 7)) for n in range(1001))
    ((_, points),) = outside(hpgl.render(sheet(Path(steps))))
    assert points[-1][0] == 1010.0
    assert max(math.dist(a, b) for a, b in zip(points, steps, strict=True)) <= STEP * 0.7072
    assert FORMATS["hpgl"].check(sheet(Path(steps)), hpgl.render(sheet(Path(steps)))) == ()


def test_a_circle_keeps_its_radius() -> None:
    """Chords stay within half a step and the rounding of the circle, all the way round."""
    ((_, points),) = outside(hpgl.render(sheet(Circle((60.0, 40.0), 25.0))))
    for point in points:
        assert abs(distance(point, (60.0, 40.0)) - 25.0) < STEP * 1.21
    length = sum(map(math.dist, points, points[1:]))
    assert length == pytest.approx(2 * math.pi * 25.0, abs=0.2)


def worked(*items: Item) -> Document:
    """A machine's sheet: pens 1 and 3."""
    machine = Machine(tools=((Role.STITCH, 1), (Role.CUT, 3)))
    drawing = Drawing(
        name="bed",
        size=(400.0, 300.0),
        about=marked().sheets[0].about,
        items=items,
        pen=Pen(patterned=False, machine=machine),
    )
    return Document("bed", (drawing,))


BED = worked(
    Item(Role.STITCH, "b", Path(((1.0, 1.0), (9.0, 1.0)))),
    Item(Role.CUT, "b", Path(RING, closed=True)),
    Item(Role.STITCH, "a", Path(((20.0, 1.0), (20.0, 9.0)))),
    Item(Role.CUT, "a", Circle((200.0, 200.0), 3.0)),
)


def test_a_machine_sheet_keeps_its_order_and_tools() -> None:
    """Lines come in the order of the sheet, each with the pen of its tool."""
    assert [pen for pen, _ in outside(hpgl.render(BED))] == [1, 3, 1, 3]
    assert hpgl.render(BED).startswith(b"IN;\nPS16000,12000;\nPU;SP1;\nPU;PA40,40;PD360,40;PU;\n")
    assert hpgl.render(BED).endswith(b"PU;\nSP0;\n")


def test_old_plotters_get_no_plot_size() -> None:
    """The same strokes without PS, which old plotters read as a paper or not at all."""
    old, new = hpgl_old.render(BED), hpgl.render(BED)
    assert old == new.replace(b"PS16000,12000;\n", b"")
    assert outside(old) == outside(new)


def test_old_plotters_stop_at_16_bits() -> None:
    """32767 units is 819.175 mm, 32.25 in; a step beyond is refused (7475A emulation manual)."""
    assert b"PD32767,0;" in hpgl_old.render(sheet(Path(((0.0, 0.0), (819.175, 0.0)))))
    with pytest.raises(DrawingError) as caught:
        hpgl_old.render(sheet(Path(((0.0, 0.0), (819.2, 0.0)))))
    assert str(caught.value) == (
        "a plotter's coordinates must be -32768 to 32767 units of 0.025 mm, got 32768, 0"
    )
    assert b"PD32768,0;" in hpgl.render(sheet(Path(((0.0, 0.0), (819.2, 0.0)))))


@pytest.mark.parametrize("name", ["hpgl", "hpgl-old"])
@pytest.mark.parametrize("document", [marked(Unit.MILLIMETRE), BED], ids=["marked", "bed"])
def test_what_is_written_reads_back(name: str, document: Document) -> None:
    """Every role, circles and the strokes of texts included."""
    assert FORMATS[name].check(document, FORMATS[name].render(document)) == ()


@pytest.mark.parametrize(
    ("pattern", "replacement", "told"),
    [
        (rb"PA400,800", b"PA402,800", "line 2, CUT: must pass (10.000, 20.000) mm"),
        (rb",400,2800,400,800;", b",400,2800;", "line 2, CUT: must pass (10.000, 20.000) mm"),
        (rb"SP3", b"SP1", "line 2 must have pen 3, found 1"),
        (rb"PU;PA800,40;PD800,360;PU;\n", b"", "4 lines expected, 3 found"),
        (rb"PS16000,12000;", b"", "PS is missing"),
        (rb"PS16000", b"PS8000", "PS must be (400.0, 300.0) mm"),
        (rb"IN;", b"IN;SC0,1,0,1;", "not HP-GL as it is written here: 'SC0,1,0,1;"),
        (rb"PU;PA40,40", b"PU;PR40,40", "not HP-GL as it is written here: 'PR40,40;"),
        (rb"^IN;\n", b"", "a file must begin with IN, found PS"),
        (rb"(PU;\n)+SP0", b"PD;\nSP0", "the file ends with the pen down"),
    ],
)
def test_each_broken_copy_is_caught(pattern: bytes, replacement: bytes, told: str) -> None:
    """A moved point, an open ring, a wrong pen, a lost line, a scale: each is named."""
    good = hpgl.render(BED)
    broken = re.sub(pattern, replacement, good, count=1)
    assert broken != good
    assert any(told in line for line in FORMATS["hpgl"].check(BED, broken))


def test_a_mirrored_or_scaled_plot_is_caught() -> None:
    """No half-right plot passes for the drawing."""
    numbers = re.compile(rb"(-?\d+),(-?\d+)")
    good = hpgl_old.render(BED)
    mirrored = numbers.sub(lambda m: b"%d,%d" % (-int(m[1]), int(m[2])), good)
    doubled = numbers.sub(lambda m: b"%d,%d" % (2 * int(m[1]), 2 * int(m[2])), good)
    assert FORMATS["hpgl-old"].check(BED, mirrored)
    assert FORMATS["hpgl-old"].check(BED, doubled)


def test_old_readers_refuse_what_old_plotters_would() -> None:
    """A plot size, or a number beyond 16 bits, is named."""
    long = sheet(Path(((0.0, 0.0), (900.0, 0.0))))
    found = FORMATS["hpgl-old"].check(long, hpgl.render(long))
    assert found == ("an old plotter does not know PS", "36000 is beyond an old plotter")
