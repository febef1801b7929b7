"""The reader of booklets finds what is wrong with a file; each damage is caught."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from booklets import Made, document, of_fixture
from sample_drawings import marked

from cutpaths.readback.booklet import check
from cutpaths.sheets.booklet.blocks import Chapter, Paragraph, Picture
from cutpaths.sheets.booklet.booklet import Booklet
from cutpaths.sheets.pages.paper import paper_named
from cutpaths.values import replace

NAME = "tidepool"


def _found(change: Callable[[Booklet], Booklet]) -> tuple[str, ...]:
    """What is found when another content is expected than the file has."""
    made = of_fixture(NAME)
    return check(document(change(made.content)), made.data)


def test_a_sound_file_has_no_differences() -> None:
    """The file reads back as its content."""
    made = of_fixture(NAME)
    assert check(made.document, made.data) == ()


def test_another_document_is_no_booklet() -> None:
    """A sheet is not compared with a booklet."""
    expected = ("a booklet was expected to have a booklet's content",)
    assert check(marked(), of_fixture(NAME).data) == expected


def test_another_paper_is_found() -> None:
    """Pages of another size are named, each."""
    found = _found(lambda content: replace(content, paper=paper_named("a4")))
    assert found[0] == "page 1 must be 210.0 x 297.0 mm, found 215.9 x 279.4 mm"


def test_another_title_and_author_are_found() -> None:
    """What the file says of itself is compared."""
    found = _found(lambda content: replace(content, title="Rock pool", author="Nobody"))
    assert "the title must be 'Rock pool', found 'Tide pool'" in found
    assert "the author must be 'Nobody', found 'Marlow Quill Studio'" in found


def test_a_chapter_that_is_missing_is_found() -> None:
    """The bookmarks are those of the chapters."""
    more = Chapter(title="Lost chapter")
    found = _found(lambda content: replace(content, chapters=(*content.chapters, more)))
    assert any(line.startswith("the bookmarks must be the 15 chapters") for line in found)
    assert "the text 'Lost chapter' cannot be read where it must stand" in found


def test_a_text_that_is_missing_or_changed_is_found() -> None:
    """A sentence with another number is not the one that was meant."""

    def change(content: Booklet) -> Booklet:
        first, *rest = content.chapters
        words = Paragraph("Cut 3 strips 6 in x usable width.")
        return replace(content, chapters=(replace(first, blocks=(words,)), *rest))

    assert _found(change) == (
        "the text 'Cut 3 strips 6 in x usable width.' cannot be read where it must stand",
    )


def test_texts_out_of_order_are_found() -> None:
    """Chapters that change places are caught."""
    found = _found(lambda content: replace(content, chapters=content.chapters[::-1]))
    assert len(found) == 2


def test_a_picture_without_its_words_is_found() -> None:
    """Every picture's text in its place must be in the file."""

    def change(content: Booklet) -> Booklet:
        first, *rest = content.cover
        assert isinstance(first, Picture)
        return replace(content, cover=(replace(first, alt="Another picture."), *rest))

    assert _found(change) == ("a picture must have the text 'Another picture.', found none",)


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[:0],
        lambda data: data[: len(data) // 2],
        lambda data: data.replace(b"%PDF-1.", b"%PDX-1."),
        lambda data: data.replace(b"/Marked true", b"/Marked null"),
        lambda data: data.replace(b"/MediaBox[0 0 612", b"/MediaBox[0 0 621"),
    ],
)
def test_damaged_bytes_are_found(damage: Callable[[bytes], bytes]) -> None:
    """A file that is cut off, is none, is not tagged or has a wider page is told."""
    made: Made = of_fixture(NAME)
    broken = damage(made.data)
    assert broken != made.data
    assert check(made.document, broken) != ()
