"""PDF pages, judged by two readers from outside: QPDF through pikepdf, and PDFium."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path as File

import numpy as np
import pikepdf
import pytest
from outside import pdf_pixels, pdf_walk
from sample_drawings import RING, TITLE, about, cad, marked, sheet

from cutpaths.drawing import Document, Drawing, Item, flatten
from cutpaths.errors import DrawingError
from cutpaths.paint import Paint
from cutpaths.readback import pdf as reader
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Anchor, Circle, Path, Point, Text
from cutpaths.sheets.sheet import scale_square
from cutpaths.strokes import text_width
from cutpaths.values import replace
from cutpaths.writers import pdf
from cutpaths.writers.pdf_printing import at_actual_size

NEAR_MM = 0.01
PIXEL_MM = 25.4 / pdf_pixels.DPI
# Sizes in mm: A5 to A3 and letter to ledger of W3C CSS Paged Media 3, A0 to A2 of ISO 216:2007.
PAPERS = (
    (148.0, 210.0),
    (210.0, 297.0),
    (297.0, 420.0),
    (420.0, 594.0),
    (594.0, 841.0),
    (841.0, 1189.0),
    (8.5 * 25.4, 11 * 25.4),
    (8.5 * 25.4, 14 * 25.4),
    (11 * 25.4, 17 * 25.4),
)


def _page(size: Point, *items: Item, name: str = "sheet") -> Drawing:
    return Drawing(name=name, size=size, about=about(), items=items)


def _lines(*shapes: Path | Circle, size: Point = (150.0, 120.0)) -> Document:
    items = tuple(Item(Role.CUT, "backing", shape) for shape in shapes)
    return Document("lines", (_page(size, *items),))


@pytest.mark.parametrize("size", PAPERS)
def test_a_page_is_as_large_as_its_sheet(size: Point) -> None:
    """Both readers find the published size of the paper to a hundredth of a millimetre."""
    data = pdf.render(Document("sheet", (_page(size, *scale_square((20.0, 30.0))),)))
    for found in (pdf_walk.size_mm(data, 0), pdf_pixels.sizes_mm(data)[0]):
        assert np.allclose(found, size, rtol=0, atol=NEAR_MM)


def test_a_page_of_a4_has_the_units_of_the_format() -> None:
    """A4 is 595.276 x 841.890 units of 1/72 in (ISO 32000-1, from memory)."""
    data = pdf.render(Document("sheet", (_page((210.0, 297.0), *scale_square((0.0, 0.0))),)))
    assert np.allclose(pdf_walk.box_units(data, 0), (0, 0, 595.276, 841.890), rtol=0, atol=5e-4)


@pytest.mark.parametrize("size", [(150.0, 120.0), (841.0, 1189.0), (914.4, 5000.0)])
def test_lines_lie_where_they_are_drawn(size: Point) -> None:
    """Both readers find every corner to a hundredth of a millimetre, also on a long page."""
    width, height = size
    far = ((width - 1.0, height - 1.0), (width - 40.123456, 7.654321), (1.25, height - 33.333333))
    data = pdf.render(_lines(Path(RING, closed=True), Path(far), size=size))
    found = pdf_walk.paths(data, 0)
    assert [line.closed for line in found] == [True, False]
    for line, points in zip(found, (RING, far), strict=True):
        assert np.allclose(line.points, points, rtol=0, atol=NEAR_MM)
    other = pdf_pixels.segments_mm(data, 0)
    assert np.allclose(other[: len(RING)], RING, rtol=0, atol=NEAR_MM)
    assert np.allclose(other[-len(far) :], far, rtol=0, atol=NEAR_MM)


def test_a_circle_is_round_and_in_its_place() -> None:
    """The ends of its curves lie on it, at all four sides."""
    data = pdf.render(_lines(Circle((60.0, 45.0), 12.5)))
    (circle,) = pdf_walk.paths(data, 0)
    xs, ys = zip(*circle.points, strict=True)
    assert np.allclose((min(xs), max(xs)), (47.5, 72.5), rtol=0, atol=NEAR_MM)
    assert np.allclose((min(ys), max(ys)), (32.5, 57.5), rtol=0, atol=NEAR_MM)


def test_pixels_measure_as_the_square_says() -> None:
    """At 300 dpi the outer square is 100 mm from line to line, across and down, the inner 3 in."""
    data = pdf.render(Document("sheet", (_page((150.0, 150.0), *scale_square((20.0, 30.0))),)))
    dark = pdf_pixels.grey(data, 0) < 128
    rows, columns = dark.shape
    across = np.flatnonzero(dark[rows - round(100.0 / PIXEL_MM)]) * PIXEL_MM
    down = np.flatnonzero(dark[:, round(40.0 / PIXEL_MM)]) * PIXEL_MM
    inset = (100.0 - 76.2) / 2
    for found, start in ((across, 20.0), (down, 150.0 - 130.0)):
        lines = [np.mean(run) for run in np.split(found, np.flatnonzero(np.diff(found) > 1) + 1)]
        must = (start, start + inset, start + 100.0 - inset, start + 100.0)
        assert len(lines) == 4
        assert np.allclose(lines, must, rtol=0, atol=1.5 * PIXEL_MM)
    assert columns == round(150.0 / PIXEL_MM)


def test_lines_have_the_width_and_pattern_of_their_role() -> None:
    """Widths, dashes and colours are those of the table of roles."""
    drawing = marked().sheets[0]
    data = pdf.render(Document("marked", (drawing,)))
    lines = [line for line in pdf_walk.paths(data, 0) if not line.closed]
    by_height = {round(line.points[0][1]): line for line in lines}
    for number, role in enumerate(Role):
        line = by_height[120 + 10 * number]
        assert abs(line.width - STYLES[role].width) < 1e-4
    assert reader.check(Document("marked", (drawing,)), data) == ()


@pytest.mark.parametrize("anchor", list(Anchor))
@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0, -120.0])
def test_a_text_is_real_and_in_its_place(anchor: Anchor, angle: float) -> None:
    """It can be copied, and no ink lies outside the room that the single-line font gives it."""
    text = Text(string="Quilt 4½ gjy", at=(75.0, 60.0), height=6.0, angle=angle, anchor=anchor)
    data = pdf.render(sheet(text, role=Role.LABEL))
    assert pdf_pixels.text_of(data, 0) == "Quilt 4½ gjy"
    back = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[anchor]
    width = text_width(text.string, text.height)
    rows, columns = np.nonzero(pdf_pixels.grey(data, 0) < 128)
    x, y = columns * PIXEL_MM - 75.0, 120.0 - rows * PIXEL_MM - 60.0
    turn = np.radians(angle)
    along = x * np.cos(turn) + y * np.sin(turn) + back * width
    up = y * np.cos(turn) - x * np.sin(turn)
    assert along.min() > -0.2
    assert along.max() < width + 0.2
    assert -0.34 * 6.0 < up.min() < -0.2 * 6.0  # tails
    assert 6.0 - 0.2 < up.max() < 1.2 * 6.0


def test_capitals_are_as_high_as_drawn() -> None:
    """The ink of an H is 21 mm high, to a pixel at each end."""
    data = pdf.render(sheet(Text(string="H", at=(20.0, 20.0), height=21.0), role=Role.LABEL))
    rows, _ = np.nonzero(pdf_pixels.grey(data, 0) < 128)
    assert abs((rows.max() - rows.min() + 1) * PIXEL_MM - 21.0) < 2 * PIXEL_MM


def test_a_text_is_squeezed_into_its_room() -> None:
    """A text that the font sets wider than the single-line font would is squeezed, not cut."""
    data = pdf.render(sheet(Text(string="@@@@%%%%", at=(10.0, 20.0), height=8.0), role=Role.LABEL))
    _, columns = np.nonzero(pdf_pixels.grey(data, 0) < 128)
    assert columns.max() * PIXEL_MM < 10.0 + text_width("@@@@%%%%", 8.0) + 0.2
    assert pdf_pixels.text_of(data, 0) == "@@@@%%%%"


@pytest.mark.parametrize(
    "title",
    [
        '#panic() $x$ *b* _i_ [c] {d} <e> @f "g" \\h \\u{41} // k',
        "Größe Ωδ Жук ½ 2⁄3 ⅔ × ° − ″",
        "(a) ((b <</Type/Page>> endobj stream %%EOF",
    ],
)
def test_any_title_is_set_as_it_is(title: str) -> None:
    """Markup of typst and of PDF in a title or a text says nothing else than its letters."""
    drawing = sheet(Text(string=title, at=(5.0, 60.0), height=2.0), role=Role.LABEL).sheets[0]
    document = Document("sheet", (replace(drawing, about=replace(about(), project=title)),))
    data = pdf.render(document)
    made = pdf_walk.opened(data)
    assert str(made.docinfo["/Title"]) == title.replace("⅔", "2⁄3")
    assert pdf_pixels.text_of(data, 0) == title.replace("⅔", "2⁄3")
    assert reader.check(document, data) == ()


def test_the_file_says_what_it_is() -> None:
    """Title, author, keywords, a bookmark a page, alternative texts, and how to print it."""
    pages = tuple(
        replace(
            marked().sheets[0],
            name=f"page-{n}",
            about=replace(about(piece=f"page {n}"), author="A. Maker"),
        )
        for n in (1, 2, 3)
    )
    data = pdf.render(Document("pages", pages))
    made = pdf_walk.opened(data)
    assert str(made.docinfo["/Title"]) == TITLE
    assert str(made.docinfo["/Author"]) == "A. Maker"
    assert f"sha256:{about().digest}" in str(made.docinfo["/Keywords"])
    assert pdf_pixels.bookmarks(data) == [(f"page {n}", n - 1) for n in (1, 2, 3)]
    assert str(made.Root.ViewerPreferences.PrintScaling) == "/None"
    assert str(made.Root.Lang) == "en"
    assert bool(made.Root.MarkInfo.Marked)
    alts = [
        str(item.Alt)
        for item in made.objects
        if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"
    ]
    assert sorted(alts) == [f"page {n}. wrong side. lines drawn at true scale" for n in (1, 2, 3)]
    assert made.check_pdf_syntax() == []


def test_what_is_painted_is_filled() -> None:
    """A painted shape has its colour at its middle, and white beside it."""
    square = Path(((20.0, 20.0), (60.0, 20.0), (60.0, 60.0), (20.0, 60.0)), closed=True)
    item = Item(Role.CUT, "backing", square, Paint(colour=(10, 90, 200)))
    document = Document("sheet", (_page((100.0, 100.0), item),))
    data = pdf.render(document)
    seen = pdf_pixels.grey(data, 0)
    inside, outside = round(40.0 / PIXEL_MM), round(80.0 / PIXEL_MM)
    assert seen[round(60.0 / PIXEL_MM), inside] < 128
    assert seen[round(60.0 / PIXEL_MM), outside] == 255
    assert reader.check(document, data) == ()


def test_placed_drawings_and_dimensions_are_drawn() -> None:
    """A sheet for CAD comes out whole: as many lines as it has, and all its texts."""
    drawing = cad().sheets[0]
    data = pdf.render(cad())
    flat = [part for item in drawing.items for part in flatten(item)]
    lines = [p for p in flat if not isinstance(p.shape, Text)]
    assert len(pdf_walk.paths(data, 0)) == len(lines)
    words = pdf_pixels.text_of(data, 0)
    assert words.count("patch 1") == 5
    assert words.count("4 1/2 in") == 5
    assert "all pieces, 5%" in words


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    """Fresh interpreters with hash seeds 0 to 3 make the same file."""
    program = (
        "import hashlib, sys\n"
        f"sys.path.insert(0, {str(File(__file__).parent)!r})\n"
        "from sample_drawings import cad\n"
        "from cutpaths.writers import pdf\n"
        "print(hashlib.sha256(pdf.render(cad())).hexdigest())"
    )
    found = {hashlib.sha256(pdf.render(cad())).hexdigest()}
    for seed in range(4):
        done = subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": str(seed)},
        )
        found.add(done.stdout.strip())
    assert len(found) == 1


def test_what_a_page_cannot_hold_is_one_line() -> None:
    """No sheet, a page over 5.08 m, letters that lack, control characters: each in one line."""
    line = Path(((1.0, 1.0), (2.0, 2.0)))
    for document, words in (
        (Document("empty", ()), "PDF holds one sheet or more, empty has none"),
        (
            _lines(line, size=(900.0, 5081.0)),
            "sheet: a PDF page can be 5080 mm (200 in) long, got 5081 mm. "
            "Part it into several pages",
        ),
        (
            sheet(Text(string="木", at=(1.0, 1.0), height=5.0)),
            "`text on sheet`: PDF pages have no letters for 木. "
            "Write it in Latin, Greek or Cyrillic letters, or leave out the uses that have PDF: "
            "booklet, labels, pages",
        ),
        (
            sheet(Text(string="a\x07", at=(1.0, 1.0), height=5.0)),
            "a text must be one line of printable letters, got U+0007 in 'a\\x07'",
        ),
    ):
        with pytest.raises(DrawingError) as caught:
            pdf.render(document)
        assert str(caught.value) == words
    longest = pdf.render(_lines(line, size=(900.0, 5080.0)))
    assert abs(pdf_pixels.sizes_mm(longest)[0][1] - 5080.0) < NEAR_MM


def test_a_file_without_trailer_is_refused() -> None:
    """What is not built as expected is not written over."""
    with pytest.raises(DrawingError, match="it has no trailer"):
        at_actual_size(b"%PDF-1.7\n")
    with pytest.raises(DrawingError, match="it has no catalog"):
        at_actual_size(b"%PDF-1.7\ntrailer\n<</Root 1 0 R>>\nstartxref\n9\n%%EOF")
