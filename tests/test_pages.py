"""The pages of every example: at true scale, in the printer's reach, nothing over anything."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from pathlib import Path as File

import numpy as np
import pytest
from builders import folded_over, panel, project, regular, squares
from outside import pdf_pixels, pdf_walk
from shapely import Polygon, STRtree

from cutpaths.drawing import Drawing, Item, flatten
from cutpaths.errors import DrawingError
from cutpaths.formats import render_checked
from cutpaths.geometry.polygons import edges, signed_area
from cutpaths.lengths import Unit
from cutpaths.pieces import Kit, build
from cutpaths.project.model import Pattern
from cutpaths.project.reading import load
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Text
from cutpaths.sheets.clear_places import segments, text_box, touches
from cutpaths.sheets.pages.page import WORDS
from cutpaths.sheets.pages.pages import page_sheets
from cutpaths.sheets.pages.paper import Paper, paper_named, usual_paper
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.values import replace

FIXTURES = sorted((File(__file__).parent.parent / "fixtures").glob("*.toml"))
LONG = (
    "A title of one hundred and twenty characters, " + "long words and short ones " * 2 + "x" * 22
)
HOSTILE = '$#*_[x]{y} <z> @w \\ "quotes" // ½ Größe Ωж'
EXTREME = {
    "huge": project(squares(60, 60), [3, 3, 3, 3]),
    "one square": replace(project(squares(1, 1, 9), [2, 2, 2, 2]), title=HOSTILE),
    "long title": replace(
        project(squares(5, 5), [2, 2, 2, 2]), title=LONG, pattern=Pattern(version="2.0 beta")
    ),
    "wide borders": project(panel(40, 50), [6, 6, 6, 6]),
    "many corners": project(regular(12, 8), [2] * 12),
    "folded over": project(panel(20, 24), [1, 2, 1, 2], folded_over()),
}
NAMES = [*(path.stem for path in FIXTURES), *EXTREME]
NEAR_MM = 0.01


@cache
def _kit(name: str) -> Kit:
    if name in EXTREME:
        return build(EXTREME[name])
    return build(load(FIXTURES[0].parent / f"{name}.toml"))


@cache
def _outputs(name: str, paper: str = "") -> tuple[Output, ...]:
    return page_sheets(_kit(name), Wishes(paper=paper_named(paper) if paper else None))


def _paper(name: str, paper: str) -> Paper:
    return paper_named(paper) if paper else usual_paper(_kit(name).project.ruler.unit)


def _pages(name: str, paper: str = "") -> Iterator[Drawing]:
    return (sheet for output in _outputs(name, paper) for sheet in output.document.sheets)


def _flat(page: Drawing) -> list[Item]:
    return [part for item in page.items for part in flatten(item)]


def _texts(page: Drawing) -> list[Text]:
    return [item.shape for item in _flat(page) if isinstance(item.shape, Text)]


CASES = [(name, paper) for name in NAMES for paper in ("", "36 in")]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_page_has_its_square_and_its_words(name: str, paper: str) -> None:
    """100 mm with 3 in inside it, what the page is, which of how many, and how to print it."""
    for output in _outputs(name, paper):
        count = len(output.document.sheets)
        for number, page in enumerate(output.document.sheets, start=1):
            sides = []
            for item in page.items:
                if item.role is Role.SCALE and item.key == "scale" and isinstance(item.shape, Path):
                    xs, ys = zip(*item.shape.points, strict=True)
                    sides += [max(xs) - min(xs), max(ys) - min(ys)]
            assert sides == pytest.approx([100.0, 100.0, 76.2, 76.2], abs=1e-5)
            strings = [text.string for text in _texts(page)]
            assert {"100 mm", "3 in", WORDS, f"page {number} of {count}"} <= set(strings)
            assert any(s.startswith(_kit(name).project.title[:20]) for s in strings)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_everything_lies_where_a_printer_reaches(name: str, paper: str) -> None:
    """Pages have the size of the paper, and no ink comes nearer to an edge than its margin."""
    used = _paper(name, paper)
    margin = float(used.margin) - 1e-6
    for page in _pages(name, paper):
        width, height = page.size
        if used.roll:
            assert abs(float(used.width) - width) < 1e-5 or abs(float(used.width) - height) < 1e-5
        else:
            assert sorted(page.size) == pytest.approx([float(used.width), float(used.height)])
        for item in _flat(page):
            points = _reach(item)
            for x, y in points:
                assert margin <= x <= width - margin
                assert margin <= y <= height - margin


def _reach(item: Item) -> tuple[tuple[float, float], ...]:
    match item.shape:
        case Path(points):
            return points
        case Circle((x, y), radius):
            return (x - radius, y - radius), (x + radius, y + radius)
        case Text() as text:
            return text_box(text, 0.0)
        case shape:
            raise AssertionError(shape)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_text_lies_on_another_and_no_line_runs_through_one(name: str, paper: str) -> None:
    """Each text has its room to itself, also beside the square; that may lie on lines alone."""
    for page in _pages(name, paper):
        flat = _flat(page)
        boxes = [(i, text_box(i.shape, 0.01)) for i in flat if isinstance(i.shape, Text)]
        rooms = [Polygon(ring) for _, ring in boxes]
        for (one, first), (other, second) in combinations(zip(boxes, rooms, strict=True), 2):
            meet = first.intersection(second).area
            assert meet < 1e-6, (page.name, one[0].shape, other[0].shape)
        lines = [
            (item, segment)
            for item in flat
            if isinstance(item.shape, Path | Circle)
            for segment in segments(item.shape)
        ]
        for item, ring in boxes:
            if item.key != "scale":
                crossed = [line[0] for line in lines if touches(ring, line[1])]
                assert not crossed, (page.name, item.shape, crossed[0])


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_piece_is_scaled(name: str, paper: str) -> None:
    """Each cut shape on a page has the sides and the area that its piece has."""
    kit = _kit(name)
    pieces = {p.key.lower(): p for p in (*kit.cloth, *(t.piece for t in kit.templates))}
    found = set()
    for page in _pages(name, paper):
        for item in page.items:
            if item.role is Role.CUT and item.key in pieces and isinstance(item.shape, Path):
                if not item.shape.closed:
                    continue
                found.add(item.key)
                outline = pieces[item.key].outline
                assert _lengths(item.shape.points) == pytest.approx(_lengths(outline), abs=1e-5)
                area = signed_area(item.shape.points)
                assert area == pytest.approx(signed_area(outline), rel=1e-6)
    assert {key for key in pieces if "template" in key} <= found or name == "wide borders"


def _lengths(ring: tuple[tuple[float, float], ...]) -> list[float]:
    return sorted(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in edges(ring))


@pytest.mark.parametrize("name", NAMES)
def test_pieces_do_not_lie_on_one_another(name: str) -> None:
    """What is cut out on a page lies apart from the rest; the square lies on none or inside one."""
    for page in _pages(name):
        cuts = [
            Polygon(i.shape.points)
            for i in page.items
            if i.role is Role.CUT and isinstance(i.shape, Path) and i.shape.closed
        ]
        tree = STRtree(cuts)
        for n, cut in enumerate(cuts):
            near = [m for m in tree.query(cut) if m != n]
            assert all(cuts[m].distance(cut) > 2.0 for m in near)


@pytest.mark.parametrize("name", NAMES)
def test_files_are_read_back(name: str) -> None:
    """Every file is written as PDF and has no differences when it is read back."""
    for output in _outputs(name):
        assert output.formats == ("pdf",)
        data = render_checked(output.document, "pdf")
        assert len(pdf_pixels.sizes_mm(data)) == len(output.document.sheets)


def test_the_square_measures_100_mm_in_the_pixels_of_every_page() -> None:
    """At 300 dpi the four lines of the outer square are 100 mm apart, within a pixel and a half."""
    (output,) = _outputs("tidepool")
    data = render_checked(output.document, "pdf")
    pixel = 25.4 / pdf_pixels.DPI
    for n, page in enumerate(output.document.sheets):
        (outer, _) = [
            i.shape.points for i in page.items if i.key == "scale" and isinstance(i.shape, Path)
        ]
        (left, bottom), (right, top) = outer[0], outer[2]
        seen = pdf_pixels.grey(data, n) < 160
        rows = seen.shape[0]
        # A line is where every pixel between the corners is dark.
        columns = slice(round((left + 20) / pixel), round((right - 20) / pixel))
        strip = rows - slice_of(bottom + 3, pixel), rows - slice_of(top - 3, pixel)
        across = np.flatnonzero(seen[strip[1] : strip[0]].mean(axis=0) > 0.95) * pixel
        down = np.flatnonzero(seen[:, columns].mean(axis=1) > 0.95) * pixel
        for found, low, high in (
            (across, left, right),
            (down, page.size[1] - top, page.size[1] - bottom),
        ):
            inside = found[(found > low - 1) & (found < high + 1)]
            first = inside[inside < low + 1].mean()
            last = inside[inside > high - 1].mean()
            assert abs(last - first - 100.0) < 1.5 * pixel


def slice_of(mm: float, pixel: float) -> int:
    """A length in pixels."""
    return round(mm / pixel)


def test_two_readers_find_the_patch_to_a_hundredth() -> None:
    """QPDF and PDFium find the outline of a patch on its page, 5 in from side to side."""
    (output,) = _outputs("tidepool")
    data = render_checked(output.document, "pdf")
    number = next(
        n for n, page in enumerate(output.document.sheets) if "PATCH-1" in page.about.piece
    )
    sides = [
        np.ptp(np.array(line.points), axis=0)
        for line in pdf_walk.paths(data, number)
        if line.closed and len(line.points) == 4
    ]
    assert any(np.allclose(side, (127.0, 127.0), rtol=0, atol=NEAR_MM) for side in sides)
    points = np.array(pdf_pixels.segments_mm(data, number))
    patch = next(
        i.shape.points
        for i in output.document.sheets[number].items
        if i.key == "patch-1" and i.role is Role.CUT and isinstance(i.shape, Path)
    )
    for corner in patch:
        assert np.min(np.hypot(*(points - corner).T)) < NEAR_MM


def test_the_paper_follows_the_unit() -> None:
    """Letter for inches, A4 for centimetres, unless another is asked for."""
    assert _kit("fjord").project.ruler.unit is Unit.CENTIMETRE
    assert next(_pages("fjord")).size == (210.0, 297.0)
    assert next(_pages("tidepool")).size == (215.9, 279.4)
    assert next(_pages("tidepool", "a3")).size == (297.0, 420.0)


def _keys(page: Drawing) -> set[str]:
    """What is cut out on a page."""
    return {i.key for i in page.items if i.role is Role.CUT}


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_no_corner_lies_among_the_papers_of_another(paper: str) -> None:
    """Four different corners: the pages of each follow one another and hold no other's."""
    found: list[str] = []
    for page in list(_pages("doorway", paper))[1:]:
        what = page.about.piece
        corners = {at for at in ("DA", "AB", "BC", "CD") if f"corner {at}" in what}
        corners |= {at for n, at in enumerate(("DA", "AB", "BC", "CD"), 1) if f"E-{n}" in what}
        assert len(corners) <= 1, what
        assert corners or "PATCH" in what
        found += corners
    assert list(dict.fromkeys(found)) == ["DA", "AB", "BC", "CD"]
    assert found == sorted(found, key=["DA", "AB", "BC", "CD"].index)


def test_alike_squares_share_a_page() -> None:
    """Two fabrics, one shape: one outline, both names, and how many of each."""
    pages = [page for page in _pages("tidepool") if "PATCH" in page.about.piece]
    (page,) = pages
    assert _keys(page) == {"patch-1"}
    assert [text.string for text in _texts(page)][:6] == [
        "PATCH-1, PATCH-2: same shape",
        "cut 21 of each",
        "PATCH-1: Sand flannel",
        "PATCH-2: Sea green flannel",
        "right side up",
        "seam allowance 1/4 in",
    ]


def test_alike_shapes_in_unlike_numbers_say_how_many_of_which() -> None:
    """The count stands beside each name where it is not the same."""
    strings = {text.string for page in _pages("lighthouse") for text in _texts(page)}
    assert {"PATCH-3, PATCH-6, PATCH-7: same shape", "PATCH-7: Fog solid, cut 3"} <= strings


def test_the_cover_says_what_is_where_and_what_is_not() -> None:
    """Each other page is listed, and what is too large; cautions stand there."""
    first, *others = _pages("tidepool")
    words = " ".join(text.string for text in _texts(first))
    for number, _ in enumerate(others, start=2):
        assert f"Page {number}: " in words
    assert "Not here, too large for this paper: BACKING, TOP." in words
    assert "close a rotary cutter whenever you put it down" in words
    assert "Local rules and a qualified person come first" in words


def test_patches_larger_than_a_page_are_parted_when_asked_for() -> None:
    """A border strip that fits no page is left out unasked, and in tiles when asked for."""
    kit = _kit("lighthouse")
    unasked, asked = (
        page_sheets(kit, Wishes(paper=paper_named("letter"), whole=whole))[0].document.sheets
        for whole in (False, True)
    )
    words = [" ".join(text.string for text in _texts(pages[0])) for pages in (unasked, asked)]
    assert "Not here, too large for this paper: PATCH-4, PATCH-8, BACKING, TOP." in words[0]
    assert "Not here" not in words[1]
    pieces = [page.about.piece for page in asked]
    for key in ("PATCH-4", "PATCH-8"):
        assert any(f"{key}, how the pages are joined" in piece for piece in pieces)
        assert any(f"{key}, row 1, column 1" in piece for piece in pieces)


def test_the_version_stands_on_every_page() -> None:
    """Two printings can be told apart."""
    for page in _pages("tidepool"):
        assert "Tide pool, version 1.2" in [text.string for text in _texts(page)]


def test_letters_that_lack_are_one_line() -> None:
    """A title that cannot be set names its letters and what to do."""
    chinese = replace(project(squares(3, 3), [2, 2, 2, 2]), title="潮池")
    output = page_sheets(build(chinese), Wishes())[0]
    with pytest.raises(DrawingError) as caught:
        render_checked(output.document, "pdf")
    assert str(caught.value) == (
        "`title`: PDF pages have no letters for 潮 池. "
        "Write it in Latin, Greek or Cyrillic letters, or leave out the uses that have PDF: "
        "booklet, labels, pages"
    )


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    """Fresh interpreters with hash seeds 0 to 3 make the same pages."""
    program = (
        "import hashlib\n"
        "from pathlib import Path\n"
        "from cutpaths.formats import render_checked\n"
        "from cutpaths.pieces import build\n"
        "from cutpaths.project.reading import load\n"
        "from cutpaths.sheets.pages.pages import page_sheets\n"
        "from cutpaths.sheets.sheet import Wishes\n"
        f"kit = build(load(Path({str(FIXTURES[0].parent / 'doorway.toml')!r})))\n"
        "data = [render_checked(o.document, 'pdf') for o in page_sheets(kit, Wishes())]\n"
        "print(hashlib.sha256(b''.join(data)).hexdigest())"
    )
    found = set()
    for seed in range(4):
        done = subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": str(seed)},
        )
        found.add(done.stdout.strip())
    data = [render_checked(o.document, "pdf") for o in _outputs("doorway")]
    assert found == {hashlib.sha256(b"".join(data)).hexdigest()}
