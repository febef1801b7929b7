"""CSV: a table as rows of text that a spreadsheet opens.

RFC 4180: a header line, commas, lines that end in CR LF, quotes round what holds a comma, a quote
or a line's end, and quotes doubled inside them (section 2). UTF-8 without a mark of its order
(RFC 3629, section 6).

A spreadsheet takes text that begins with `=`, `+`, `-` or `@` for a formula and may carry it out.
Such text, also after blanks, gets an apostrophe before it. Numbers are written as numbers.

Left out: several tables, kinds of columns, comments.
"""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.sheets.data import Cell, TableDocument

FORMULAS = ("=", "+", "-", "@")


def render(document: Document) -> bytes:
    """The bytes of the table.

    Raises:
        DrawingError: the document is no table, or a row has too many or too few cells.
    """
    if not isinstance(document, TableDocument):
        raise DrawingError(f"CSV holds a table, and {document.name} is none")
    wide = len(document.columns)
    for number, row in enumerate(document.rows, 1):
        if len(row) != wide:
            raise DrawingError(
                f"row {number} of {document.name} must have {wide} cells, got {len(row)}"
            )
    return "".join(_line(row) for row in (document.columns, *document.rows)).encode()


def defused(text: str) -> str:
    """Text that no spreadsheet takes for a formula.

    >>> defused("=1+1"), defused(" @x"), defused("a - b")
    ("'=1+1", "' @x", 'a - b')
    """
    return f"'{text}" if text.lstrip().startswith(FORMULAS) else text


def _line(row: tuple[Cell, ...]) -> str:
    return ",".join(map(_cell, row)) + "\r\n"


def _cell(cell: Cell) -> str:
    text = defused(cell) if isinstance(cell, str) else repr(cell)
    if any(letter in text for letter in ',"\r\n'):
        return '"' + text.replace('"', '""') + '"'
    return text
