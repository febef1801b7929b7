"""Reading PDF back: each way to break a file is named; a copy that is only packed otherwise passes.

Broken copies are made by QPDF through pikepdf, which shares no code with the reader.
"""

from __future__ import annotations

import io
from collections.abc import Callable

import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_drawings import RING, cad, marked, sheet

from cutpaths.drawing import Document, Item
from cutpaths.readback import pdf as reader
from cutpaths.readback.pdf_objects import Name, Scanner
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Path, Text
from cutpaths.values import replace
from cutpaths.writers import pdf

_ITEMS = (
    Item(Role.CUT, "backing", Path(RING, closed=True)),
    Item(Role.FOLD, "backing", Path(((12.0, 30.0), (80.0, 64.0)))),
    Item(Role.DOT, "backing", Circle((60.0, 45.0), 1.5)),
    Item(
        Role.LABEL,
        "backing",
        Text(string="side A", at=(60.0, 24.0), height=4.0, anchor=Anchor.MIDDLE),
    ),
)
_SHEET = replace(sheet().sheets[0], items=_ITEMS)
PAGES = Document("pages", (_SHEET, replace(_SHEET, name="second")))
GOOD = pdf.render(PAGES)

Edit = Callable[[pikepdf.Pdf], None]


def _saved(edit: Edit) -> bytes:
    """A copy of the good file with something done to it, packed as plain objects."""
    made = pikepdf.open(io.BytesIO(GOOD))
    edit(made)
    out = io.BytesIO()
    made.save(out, object_stream_mode=pikepdf.ObjectStreamMode.disable, deterministic_id=True)
    return out.getvalue()


def _nothing(made: pikepdf.Pdf) -> None:
    assert len(made.pages) == len(PAGES.sheets)


def _content(change: Callable[[bytes], bytes], page: int = 0) -> Edit:
    """Changes the content stream of a page."""

    def edit(made: pikepdf.Pdf) -> None:
        contents = made.pages[page].Contents
        before = contents.read_bytes()
        after = change(before)
        assert after != before
        contents.write(after)

    return edit


def _under(matrix: bytes) -> Edit:
    """Puts a whole page under a transformation."""
    return _content(lambda data: b"q " + matrix + b" cm\n" + data + b"\nQ")


def _swapped(old: bytes, new: bytes, *, most: int = 1) -> Edit:
    return _content(lambda data: data.replace(old, new, most))


def _unclosed() -> Edit:
    """Leaves the ring open; it is the last path."""

    def change(data: bytes) -> bytes:
        head, _, tail = data.rpartition(b"\nh\nS")
        return head + b"\nS" + tail

    return _content(change)


def _entry(name: str, value: object) -> Edit:
    def edit(made: pikepdf.Pdf) -> None:
        made.pages[0].obj[name] = value

    return edit


def _drop(made: pikepdf.Pdf) -> None:
    del made.pages[1]


def _double(made: pikepdf.Pdf) -> None:
    made.pages.append(made.pages[0])


def _forget_printing(made: pikepdf.Pdf) -> None:
    del made.Root.ViewerPreferences


def _rename(made: pikepdf.Pdf) -> None:
    made.docinfo["/Title"] = "Another"


def _without_marks(made: pikepdf.Pdf) -> None:
    del made.Root.Outlines


@pytest.mark.parametrize("document", [PAGES, marked(), cad()], ids=["pages", "marked", "cad"])
def test_what_is_written_reads_back(document: Document) -> None:
    """A good file has no differences."""
    assert reader.check(document, pdf.render(document)) == ()


def test_a_copy_that_is_packed_otherwise_passes() -> None:
    """Another program may number the objects anew: that is no difference."""
    copy = _saved(_nothing)
    assert copy != GOOD
    assert reader.check(PAGES, copy) == ()


RING_LINE = "page 1: CUT line 1: "


@pytest.mark.parametrize(
    ("edit", "line_start"),
    [
        (_under(b".98 0 0 .98 0 0"), RING_LINE + "is scaled by 0.980000, point 3"),
        (_under(b"1.0001 0 0 1.0001 0 0"), RING_LINE + "is scaled by 1.000100, point 3"),
        (_under(b"1 0 0 1 .03 0"), RING_LINE + "is moved, point"),
        (_under(b"-1 0 0 1 425.19685 0"), RING_LINE + "is mirrored, point"),
        (_under(b"1 0 0 .99 0 0"), RING_LINE + "has another shape, point 4"),
        (_swapped(b"10 100 m", b"10 100.02 m"), RING_LINE + "has another shape, point 1"),
        (_unclosed(), RING_LINE + "must be closed, found open"),
        (
            _swapped(b"12 90 m", b"13 90 m"),
            "page 1: FOLD line 1: is scaled by 0.988253, point 1 must be at (12.000000, 30.000000)",
        ),
        (
            _swapped(b"[1 2]0 d", b"[1 3]0 d"),
            "page 1: FOLD: 1 of kind line expected, 0 found",
        ),
        (_swapped(b"0.5 w", b"0.6 w", most=9), "page 1: CUT: 1 of kind line expected, 0 found"),
        (
            _content(lambda data: data.replace(b"BT", b"BT 3 Tr").replace(b" 0 Tr", b"")),
            "not a PDF file as it is written here: Tr cannot be done with [3.0]",
        ),
        (
            _content(lambda data: data[: data.index(b"BT")] + data[data.index(b"ET") + 2 :]),
            "page 1: text 1 must read 'side A', found ''",
        ),
        (
            _content(lambda data: data.replace(b" 0 0 Tm", b" 3 0 Tm")),
            "page 1: text 1, 'side A': must stand at (60.000, 24.000) mm, found at (61.0",
        ),
        (
            _content(lambda data: data.replace(b"1 0 0 -1 0 0 Tm", b"1 0 0 1 0 0 Tm")),
            "page 1: text 1, 'side A': must have capitals of 4.000 mm, found -4.000",
        ),
        (
            _content(lambda data: b"q 10 10 100 100 re W n\n" + data + b"\nQ"),
            "page 1: a part of it is hidden: it is cut off 111.194 mm inside its edge",
        ),
        (_entry("/UserUnit", 2), "page 1: must have no other UserUnit, found 2.0"),
        (_entry("/Rotate", 90), "page 1: must have no other Rotate, found 90.0"),
        (
            _entry("/CropBox", pikepdf.Array([0, 0, 400, 300])),
            "page 1: must have no other CropBox, found [0.0, 0.0, 400.0, 300.0]",
        ),
        (
            _entry("/MediaBox", pikepdf.Array([0, 0, 612, 792])),
            "page 1: its size must be (150.000000, 120.000000) mm, found (215.900000, 279.400000)",
        ),
        (
            _entry("/MediaBox", pikepdf.Array([-10, 0, 415.19685, 340.15748])),
            "page 1: its lower left corner must be (0.000000, 0.000000) mm, found (-3.52",
        ),
        (_drop, "must have 2 pages, found 1"),
        (_double, "must have 2 pages, found 3"),
        (_forget_printing, "must ask to be printed without scaling"),
        (_rename, "the title must be 'Tidepool & <Größe> ½', found 'Another'"),
        (_without_marks, "must have 2 bookmarks, found 0"),
    ],
)
def test_a_broken_copy_is_caught(edit: Edit, line_start: str) -> None:
    """A difference says what was done."""
    found = reader.check(PAGES, _saved(edit))
    assert any(line.startswith(line_start) for line in found), found


def test_pages_in_another_order_are_caught() -> None:
    """A page that is not the one that must be there is told by its lines."""
    other = replace(_SHEET, items=_ITEMS[:2])
    found = reader.check(PAGES, pdf.render(Document("pages", (_SHEET, other))))
    assert found[0] == "page 2: DOT: 1 of kind circle expected, 0 found"
    assert found[1] == "page 2: text 1 must read 'side A', found ''"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "not a PDF file: it has no head or no end"),
        (b"<svg/>", "not a PDF file: it has no head or no end"),
        (GOOD[:-200], "not a PDF file: it has no head or no end"),
        (
            GOOD.replace(b"\nxref\n", b"\nxxxx\n"),
            "there is no table of objects where the file says",
        ),
        (GOOD.replace(b"/FontFile3", b"/FontFileX"), "a font is not embedded"),
        (GOOD.replace(b"/FlateDecode", b"/XlateDecode"), "a stream must be deflated"),
    ],
)
def test_what_is_no_such_file_is_one_line(data: bytes, words: str) -> None:
    """Bytes that are not such a file give one line and no traceback."""
    (line,) = reader.check(PAGES, data)
    assert line.startswith(f"not a PDF file as it is written here: {words}")


def test_values_are_read_as_the_format_says() -> None:
    """Texts, names, numbers and tables of ISO 32000-1, 7.3, with its own examples of texts."""
    source = (
        b"(Strings may contain balanced parentheses ( ) and\\nspecial (* ! & ^ %) .) "
        b"(\\0533 \\53\\b) <4E6F762073686D6F7A206B6120706F702E> <901FA> /A#42 -.5 4. "
        b"<</K[1 0 R true null]>> % note\n(x)"
    )
    found = list(Scanner(source).values())
    assert found[0] == b"Strings may contain balanced parentheses ( ) and\nspecial (* ! & ^ %) ."
    assert found[1] == b"+3 +\b"
    assert found[2] == b"Nov shmoz ka pop."
    assert found[3] == b"\x90\x1f\xa0"
    assert found[4:7] == [Name("AB"), -0.5, 4.0]
    assert str(found[7]["K"][0]) == "Reference(number=1)"
    assert found[7]["K"][1:] == [True, None]
    assert found[8] == b"x"


_NUMBER = st.floats(1.0, 119.0).map(lambda number: round(number, 6))
_POINT = st.tuples(_NUMBER, _NUMBER)
_LETTERS = st.text("aWÅg½8⅔ Ωж()\\<>#$%\"'@*_[]{}~^`-", min_size=1, max_size=12)
_SHAPES = st.one_of(
    st.builds(
        Path, st.lists(_POINT, min_size=3, max_size=6, unique=True).map(tuple), st.booleans()
    ),
    st.builds(Circle, _POINT, st.floats(0.5, 20.0)),
    st.builds(
        Text,
        string=_LETTERS.filter(str.strip),
        at=_POINT,
        height=st.floats(1.0, 20.0),
        angle=st.floats(-180.0, 180.0),
        anchor=st.sampled_from(Anchor),
    ),
)


@settings(deadline=None, max_examples=60)
@given(st.lists(st.tuples(st.sampled_from(Role), _SHAPES), min_size=1, max_size=8))
def test_any_drawing_reads_back(items: list[tuple[Role, Path | Circle | Text]]) -> None:
    """Whatever is drawn comes back: lines, circles, and texts of any letters at any angle."""
    drawn = tuple(Item(role, f"a-{n}", shape) for n, (role, shape) in enumerate(items))
    document = Document("any", (replace(_SHEET, items=drawn),))
    assert reader.check(document, pdf.render(document)) == ()
