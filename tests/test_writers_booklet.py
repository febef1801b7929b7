"""The booklet as a file: what other readers see in it, and that nothing of a person is markup."""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Iterator
from hashlib import sha256
from typing import Any

import pikepdf
import pypdfium2
import pytest
import typst
from booklets import (
    FIXTURES,
    MM,
    PLAIN,
    Made,
    document,
    letters_of,
    of_fixture,
    of_text,
    overlapping,
    text_of,
)
from sample_drawings import marked

from cutpaths.errors import DrawingError
from cutpaths.formats import render_checked
from cutpaths.sheets.booklet.blocks import (
    Chapter,
    Columns,
    PageBreak,
    Paragraph,
    Pointer,
    Section,
    Table,
)
from cutpaths.values import replace
from cutpaths.writers.booklet import render, template
from cutpaths.writers.typst_text import FAMILY, FONTS

A4, LETTER = (210.0, 297.0), (215.9, 279.4)  # ISO 216:2007; CSS Paged Media 3, page sizes
LEAST_MARGIN = 5.0
HOSTILE = (
    '#panic("x") $x^2$ *bold* _it_ `raw` <b> [a](b) @ref // c /* "q" \\\\u{41} #let x = 1 ~~ -- ...'
)
LONG = "Wolkenkratzergartenterrasse" * 4
EXTREME = (
    f'format = 1\ntitle = "{LONG}Decke 12345"\n[pattern]\n'
    f'version = "{"9" * 120}"\nauthor = "{"x" * 60} {"y" * 59}"\ncontact = "{"z" * 120}"\n'
    f'licence = "{"W" * 120}"\nskill = "{"long skill words " * 7}"\n'
)
MANY = (
    'format = 1\ntitle = "Twelve"\n'
    + "".join(
        f'[fabric.f{i}]\nlabel = "A long label of cloth number {i}, written in full {LONG[:70]}"\n'
        for i in range(12)
    )
    + '[top]\nlayout = "squares"\npatch = 4\ncolumns = 4\nrows = 4\nfabrics = ['
    + ", ".join(f'"f{i}"' for i in range(12))
    + ']\n[border]\nwidth = 2\n[backing]\nfabric = "f7"\n'
)


def _toml(text: str) -> str:
    return "'''" + text + "'''"


def _tags(node: Any) -> Iterator[Any]:
    """Every element of the tree of tags."""
    waiting = [node]
    while waiting:
        each = waiting.pop()
        if isinstance(each, pikepdf.Array):
            waiting += list(each)
        elif isinstance(each, pikepdf.Dictionary):
            yield each
            if "/K" in each:
                waiting.append(each.K)


@pytest.mark.parametrize(
    ("name", "paper", "size"),
    [("tidepool", "", LETTER), ("fjord", "", A4), ("tidepool", "a4", A4)],
)
def test_two_readers_see_the_size_of_the_paper(
    name: str, paper: str, size: tuple[float, float]
) -> None:
    """Every page has the paper's size, as pdfium and as qpdf (by pikepdf) tell it."""
    data = of_fixture(name, paper=paper).data
    pages = pypdfium2.PdfDocument(data)
    assert len(pages) > 10
    for page in pages:
        assert [side * MM for side in page.get_size()] == pytest.approx(size, abs=0.01)
    with pikepdf.open(io.BytesIO(data)) as file:
        assert len(file.pages) == len(pages)
        for each in file.pages:
            box = [float(side) * MM for side in each.mediabox]
            assert box == pytest.approx([0.0, 0.0, *size], abs=0.01)


def test_the_file_says_what_it_is() -> None:
    """Title, author, keywords and language are in the file, and no date of any clock."""
    with pikepdf.open(io.BytesIO(of_fixture("tidepool").data)) as file:
        info = file.docinfo
        assert str(info["/Title"]) == "Tide pool"
        assert str(info["/Author"]) == "Marlow Quill Studio"
        assert "mitered corners" in str(info["/Keywords"])
        assert "/CreationDate" not in info
        assert str(file.Root.Lang) == "en"


def test_chapters_and_steps_are_bookmarks() -> None:
    """The outline has the chapters, and under them their sections and steps."""
    made = of_fixture("tidepool")
    with pikepdf.open(io.BytesIO(made.data)) as file, file.open_outline() as outline:
        titles = [str(item.title) for item in outline.root]
        assert titles == [chapter.title for chapter in made.content.chapters]
        (joining,) = (item for item in outline.root if item.title == "Top and backing")
        steps = [str(child.title) for child in joining.children]
        assert any(title.endswith("Pin the centers") for title in steps)


def test_the_file_is_tagged_and_pictures_have_words() -> None:
    """Headings, lists, tables and figures are tagged; each figure has a text in its place."""
    with pikepdf.open(io.BytesIO(of_fixture("tidepool").data)) as file:
        assert bool(file.Root.MarkInfo.Marked)
        tags = list(_tags(file.Root.StructTreeRoot))
        kinds = {str(tag.get("/S", "")) for tag in tags}
        assert {"/H1", "/H2", "/L", "/Table", "/Figure"} <= kinds
        figures = [tag for tag in tags if tag.get("/S") == "/Figure"]
        assert len(figures) > 20
        assert all(len(str(tag.get("/Alt", ""))) > 20 for tag in figures)


@pytest.mark.parametrize("name", ["tidepool", "beehive"])
def test_the_typesetter_finds_it_fit_for_all_readers(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Set as PDF/UA-1 (ISO 14289-1), the typesetter's own checks find nothing to refuse.

    It looks at the order of headings, texts of pictures, title and language.
    """
    document = of_fixture(name).document  # made with the typesetter as it is
    asked: dict[str, bytes] = {}

    def keep(source: str, files: dict[str, bytes]) -> bytes:
        asked.update({"main.typ": source.encode(), **files})
        return b""

    monkeypatch.setattr("cutpaths.writers.booklet.typeset", keep)
    render(document)
    head = f'#set document(date: none)\n#set text(font: "{FAMILY}", lang: "en")\n'
    asked["main.typ"] = head.encode() + asked["main.typ"]
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS]
    )
    compiler = typst.Compiler(font_paths=fonts, ignore_system_fonts=True)
    made = compiler.compile(
        input=asked,  # type: ignore[type-var] # a table of files is allowed, but not typed
        format="pdf",
        timestamp=0,
        pdf_standards=["ua-1"],
    )
    assert isinstance(made, bytes)
    assert b"pdfuaid" in made


def test_fonts_are_embedded() -> None:
    """Every font is inside the file."""
    with pikepdf.open(io.BytesIO(of_fixture("tidepool").data)) as file:
        fonts = [
            o
            for o in file.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
        assert fonts
        assert all("/FontFile2" in font or "/FontFile3" in font for font in fonts)


def _cases() -> Iterator[tuple[str, Made]]:
    for name in ("tidepool", "fjord", "beehive"):
        yield name, of_fixture(name)
    yield "tidepool, large", of_fixture("tidepool", large=True)
    yield "extreme", of_text(EXTREME + PLAIN)
    yield "extreme, large", of_text(EXTREME + PLAIN, large=True)
    yield "many", of_text(MANY)


@pytest.mark.parametrize("case", range(7))
def test_no_letter_lies_on_another_or_beyond_the_margin(case: int) -> None:
    """On every page the boxes of letters, by pdfium, stand free and well inside the paper."""
    _, made = list(_cases())[case]
    for number, page in enumerate(pypdfium2.PdfDocument(made.data), 1):
        letters = list(letters_of(page))
        width, height = (side * MM for side in page.get_size())
        assert [(number, *pair) for pair in overlapping(letters)] == []
        beyond = [
            (number, letter, box)
            for letter, box in letters
            if box[0] < LEAST_MARGIN
            or box[1] < LEAST_MARGIN
            or box[2] > width - LEAST_MARGIN
            or box[3] > height - LEAST_MARGIN
        ]
        assert beyond == []


def test_overlaps_are_found() -> None:
    """The check for overlaps sees a letter that stands on another."""
    box = (10.0, 10.0, 12.0, 13.0)
    assert overlapping([("a", box), ("b", (11.0, 10.0, 13.0, 13.0))]) == [("a", "b", box)]
    assert overlapping([("a", box), ("b", (11.9, 10.0, 13.9, 13.0))]) == []


def test_hostile_texts_come_out_as_they_are() -> None:
    """No text of a project file is read as markup, wherever it is printed."""
    text = f"format = 1\ntitle = {_toml(HOSTILE)}\n[pattern]\nauthor = {_toml(HOSTILE)}\n{PLAIN}"
    made = of_text(text)
    read = text_of(made.data)
    assert made.content.title == HOSTILE
    # On the title page, as author, in the imprint and as title of the pattern there.
    assert read.count(HOSTILE) >= 3
    with pikepdf.open(io.BytesIO(made.data)) as file:
        assert str(file.docinfo["/Title"]) == HOSTILE


def test_letters_that_the_fonts_lack_are_one_clear_line() -> None:
    """A title in letters that cannot be set is refused with its key and its letters."""
    content = of_fixture("tidepool").content
    kanji = replace(content, title="木", written=(("title", "木の毛布"),))
    with pytest.raises(DrawingError) as caught:
        render(document(kanji))
    assert str(caught.value) == (
        "`title`: PDF pages have no letters for 木 の 毛 布. Write it in Latin, Greek or Cyrillic "
        "letters, or leave out the uses that have PDF: booklet, labels, pages"
    )


def test_only_a_booklet_is_written() -> None:
    """Another document is refused in one line."""
    with pytest.raises(DrawingError, match="a PDF booklet holds a booklet, and"):
        render(marked())


def test_the_template_holds_no_text_of_a_project() -> None:
    """The markup is the same for every booklet."""
    assert "Tide pool" not in template()
    assert 'json("content.json")' in template()


def test_it_reads_back() -> None:
    """What is written is what was meant."""
    made = of_fixture("tidepool")
    assert render_checked(made.document, "booklet") == made.data


def test_a_long_chapter_goes_on_over_pages() -> None:
    """Text that no page can hold flows on, and none of it is lost."""
    words = tuple(Paragraph(f"Sentence number {n} of very many.") for n in range(200))
    content = of_fixture("tidepool").content
    long = replace(content, chapters=(Chapter(title="Long", blocks=words),))
    text = text_of(render_checked(document(long), "booklet"))
    assert all(f"Sentence number {n} of very many." in text for n in range(200))


def test_what_follows_a_page_break_stands_on_the_next_page() -> None:
    """A break ends the page; two of them leave no page bare."""
    words = Paragraph("One."), PageBreak(), PageBreak(), Paragraph("Two.")
    content = of_fixture("tidepool").content
    short = replace(content, cover=(), chapters=(Chapter(title="Short", blocks=words, fresh=True),))
    pages = pypdfium2.PdfDocument(render(document(short)))
    texts = [page.get_textpage().get_text_range() for page in pages]
    assert len(texts) == 3
    assert "One." in texts[1]
    assert "Two." in texts[2]


def test_a_pointer_names_the_page_of_what_it_points_to() -> None:
    """The first heading of that title is meant; where there is none, no page is named."""
    words = (
        Pointer(text="Go on", to="Far section"),
        Pointer(text="Stay here", to="Nowhere"),
        PageBreak(),
        Section("Far section"),
        Paragraph("Here."),
        PageBreak(),
        Section("Far section"),
    )
    content = of_fixture("tidepool").content
    short = replace(content, cover=(), chapters=(Chapter(title="Short", blocks=words, fresh=True),))
    text = text_of(render_checked(document(short), "booklet"))
    assert "Go on (page 3)." in text
    assert "Stay here." in text


@pytest.mark.parametrize(("body", "beside"), [(10.5, True), (16.0, False)])
def test_columns_stand_side_by_side_where_letters_are_small(body: float, *, beside: bool) -> None:
    """Left and right begin at one height; in large print the right one stands below."""
    rows = (("alpha", "1"), ("beta", "2"))
    table = Table(heads=(), rows=rows, parts=(1.0, 1.0))
    columns = Columns((Section("Westward"), table), (Section("Eastward"), table))
    chapter = Chapter(title="Short", blocks=(columns,), fresh=True)
    content = replace(of_fixture("tidepool").content, cover=(), chapters=(chapter,), body=body)
    page = pypdfium2.PdfDocument(render_checked(document(content), "booklet"))[1]
    places = {letter: box for letter, box in letters_of(page) if letter in "WE"}
    level = abs(places["W"][1] - places["E"][1]) < 0.5
    assert level is beside
    assert (places["E"][0] - places["W"][0] > 50.0) is beside


def test_same_bytes_whatever_the_hash_seed() -> None:
    """Two interpreters with other hash seeds write the same file."""
    program = (
        "import hashlib, pathlib\n"
        "from cutpaths.pieces import build\n"
        "from cutpaths.project import load\n"
        "from cutpaths.sheets.booklet import booklet_sheets\n"
        "from cutpaths.sheets.sheet import Wishes\n"
        "from cutpaths.writers.booklet import render\n"
        f"kit = build(load(pathlib.Path({str(FIXTURES / 'tidepool.toml')!r})))\n"
        "data = render(booklet_sheets(kit, Wishes())[0].document)\n"
        "print(hashlib.sha256(data).hexdigest())\n"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in ("1", "7")
    }
    assert digests == {sha256(of_fixture("tidepool").data).hexdigest()}
