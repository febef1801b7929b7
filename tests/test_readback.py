"""Reading back: a file as written is the same, and a point that moved is always found."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_drawings import RING, cad, marked, sheet

from cutpaths.drawing import Document, Pen
from cutpaths.lengths import Unit
from cutpaths.readback import dxf, svg
from cutpaths.readback.compare import SHOWN, differences
from cutpaths.readback.found import Found, Kind
from cutpaths.shapes import Circle, Path, Point
from cutpaths.values import replace
from cutpaths.writers import dxf as dxf_writer
from cutpaths.writers import svg as svg_writer

LINE = Path(((10.0, 10.0), (40.0, 10.0), (40.0, 15.0)))
OUTLINE = Path(RING, closed=True)
DISC = Circle((60.0, 45.0), 2.5)
SHAPES = sheet(OUTLINE, LINE, DISC)


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
