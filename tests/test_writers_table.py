"""CSV: what a spreadsheet reads is what was meant, and nothing in it is carried out."""

from __future__ import annotations

import csv
import io

import pytest
from sample_drawings import marked

from cutpaths.errors import DrawingError
from cutpaths.formats import render_checked
from cutpaths.readback.table import check
from cutpaths.sheets.data import Cell, TableDocument
from cutpaths.writers.table import render

COLUMNS = ("fabric", "count")


def _table(*rows: tuple[Cell, ...]) -> TableDocument:
    return TableDocument("list", (), COLUMNS, rows)


def _read(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8"), newline=""), strict=True))


def test_the_bytes_of_a_small_table() -> None:
    """A header, commas, CR LF, quotes where RFC 4180 section 2 asks for them, UTF-8."""
    made = render_checked(_table(("Sand", 21), ('5" dot, "pale"', 3), ("größe\nzwei", 1)), "csv")
    assert made == (
        b'fabric,count\r\nSand,21\r\n"5"" dot, ""pale""",3\r\n"gr\xc3\xb6\xc3\x9fe\nzwei",1\r\n'
    )


def test_cells_of_every_kind() -> None:
    """Numbers are written as numbers, negative ones too, and truth as a word."""
    made = render_checked(_table(("a", -3), ("b", 127.0), ("c", True), ("", "")), "csv")
    rows = [["fabric", "count"], ["a", "-3"], ["b", "127.0"], ["c", "True"], ["", ""]]
    assert _read(made) == rows


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", " =", "\t@", "\r="])
def test_no_text_is_a_formula(sign: str) -> None:
    """Text that a spreadsheet might carry out stands behind an apostrophe, after blanks too.

    The signs are those of OWASP's page on CSV injection (from memory).
    """
    evil = f'{sign}HYPERLINK("http://evil.example","x")'
    (_, row) = _read(render_checked(_table((evil, 1)), "csv"))
    assert row == [f"'{evil}", "1"]


def test_harmless_text_stays_as_it_is() -> None:
    """A dash or an equals sign inside a text is no formula."""
    (_, row) = _read(render_checked(_table(("half-square = half", "a@b +1")), "csv"))
    assert row == ["half-square = half", "a@b +1"]


def test_what_is_no_table_is_refused() -> None:
    """A drawing, or a row of another length, is one clear line."""
    with pytest.raises(DrawingError, match="CSV holds a table, and marked is none"):
        render(marked())
    with pytest.raises(DrawingError) as caught:
        render(_table(("a", 1), ("b",)))
    assert str(caught.value) == "row 2 of list must have 2 cells, got 1"


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        (b"Sand,21", b"Sand,12", "line 2 has '12', expected '21'"),
        (b"Sand,21\r\n", b"", "2 lines expected, 1 found"),
        (b"Sand,21", b"Sand,21,", "line 2 has 3 cells, expected 2"),
        (b"\r\n", b"\n", "lines do not end in CR LF"),
        (b"Sand", b"S\xff", "no CSV in UTF-8: 'utf-8' codec can't decode"),
        (b"Sand", b'S"nd', "line 2 has 'S\"nd', expected 'Sand'"),
    ],
)
def test_a_damaged_file_is_found_out(good: bytes, bad: bytes, told: str) -> None:
    """The reader, which shares no code with the writer, says what is different."""
    table = _table(("Sand", 21))
    data = render(table)
    assert check(table, data) == ()
    assert check(table, data.replace(good, bad))[0].startswith(told)


def test_a_missing_apostrophe_is_found_out() -> None:
    """The reader knows the rule of its own."""
    table = _table(("=1+1", 1))
    assert check(table, render(table).replace(b"'=", b"=")) == (
        "line 2 has '=1+1', expected \"'=1+1\"",
    )
