"""Texts on their way into typst markup: nothing in them is read as markup, no letter is lost."""

from __future__ import annotations

import json

import pypdfium2
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from cutpaths.errors import DrawingError
from cutpaths.writers.typeset import typeset
from cutpaths.writers.typst_text import (
    CAPITAL,
    FACES,
    FAMILY,
    FONTS,
    _character_map,
    escaped,
    literal,
    missing_letters,
    require_letters,
    spelled,
    texts,
)

HOSTILE = (
    '#panic("x")',
    "$x$ *bold* _it_ `raw` [a] {b} <label> @ref // no comment /* none */",
    'a "quote" and \\ and \\u{41} and \\n',
    "= no heading",
    '#import "@preview/x:0.1.0": y',
    "- + ~ -- --- ... 'single' \"double\"",
    "#let x = 1; .len() ;;",
)


def _read(pdf: bytes) -> str:
    return str(pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_range()).replace("\r\n", " ")


@pytest.mark.parametrize("text", HOSTILE)
def test_markup_in_a_text_is_set_as_it_is(text: str) -> None:
    """A text in its place and a text as data read back letter by letter."""
    page = "#set page(width: 400mm)\n"
    assert _read(typeset(f"{page}{escaped(text)}", {})) == text
    data = {"texts.json": texts({"t": text})}
    assert _read(typeset(f'{page}#json("texts.json").t', data)) == text


@settings(max_examples=200)
@given(st.text(st.characters(codec="utf-8"), max_size=30))
def test_a_literal_ends_where_it_must(text: str) -> None:
    """No text has a bare quote or line break in its literal, so that nothing follows it."""
    inner = literal(text)[1:-1]
    plain = inner.replace("\\\\", "").replace('\\"', "")
    assert '"' not in plain
    assert "\n" not in inner
    assert "\r" not in inner
    assert all(letter.isprintable() for letter in inner)


def test_what_follows_a_text_is_not_taken_for_its_field() -> None:
    """A dot or a bracket after a text in markup is plain."""
    assert _read(typeset(f"{escaped('a')}.len() {escaped('b')}(c)", {})) == "a.len() b(c)"


def test_texts_as_data_keep_lists_and_numbers() -> None:
    """Lists and tables go into the JSON file, keys in order, letters as they are read."""
    made = texts({"b": ["⅔", 2], "a": {"c": True}})
    assert json.loads(made) == {"a": {"c": True}, "b": ["2⁄3", 2]}
    assert made == texts({"a": {"c": True}, "b": ["⅔", 2]})


@pytest.mark.parametrize("face", FACES)
def test_the_character_maps_are_those_that_fonttools_reads(face: str) -> None:
    """Our reader of `cmap` finds what fontTools finds, an independent reader of OpenType."""
    font = TTFont(FONTS / face)
    assert _character_map((FONTS / face).read_bytes()) == set(font.getBestCmap())


def test_capitals_are_as_high_as_the_font_says() -> None:
    """The height of capitals is that of the font's OS/2 table, read by fontTools."""
    font = TTFont(FONTS / "Inter-Regular.otf")
    assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == CAPITAL
    assert font["name"].getDebugName(1) == FAMILY


def test_the_fonts_may_be_shipped() -> None:
    """Each font says that it is under the SIL Open Font License 1.1, whose text lies beside it."""
    for face in FACES:
        said = TTFont(FONTS / face)["name"].getDebugName(13)
        assert said.startswith("This Font Software is licensed under the SIL Open Font License")
    text = (FONTS / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert "Copyright 2016-2022 The Inter Project Authors" in text


def test_letters_and_signs_of_the_trade_are_there() -> None:
    """Fractions, signs, and the letters of Latin, Greek and Cyrillic can be set."""
    assert missing_letters("½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅓ ⅔ 1⁄16 × ° − – ″ ′ → Größe Ñandú Ωδ Жук Łódź") == ()


def test_ready_made_fractions_that_lack_are_taken_apart() -> None:
    """A fraction is built from figures where the font has none of its own."""
    assert spelled("2 ⅔ and ½") == "2 2⁄3 and ½"
    assert spelled("e\u0301") == "é"


def test_letters_that_lack_are_named_once() -> None:
    """Each letter that the fonts lack is told, in order, once."""
    assert missing_letters("木 a 村 木 \u202e") == ("木", "村", "\u202e")


def test_a_text_that_cannot_be_set_is_one_line() -> None:
    """The line names the text, its letters and what to do; signs that cannot be seen by number."""
    with pytest.raises(DrawingError) as caught:
        require_letters({"fine": "abc", "title": "木の\u202e"})
    assert str(caught.value) == (
        "`title`: PDF pages have no letters for 木 の U+202E. "
        "Write it in Latin, Greek or Cyrillic letters, or leave out the uses that have PDF: "
        "booklet, labels, pages"
    )
    with pytest.raises(DrawingError) as many:
        require_letters({"title": "".join(map(chr, range(0x4E00, 0x4E0A)))})
    assert "一 丁 丂 七 丄 丅 丆 万 and 2 more." in str(many.value)
