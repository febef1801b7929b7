"""Reads a CSV file and compares it with its table; the standard library alone."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from cutpaths.drawing import Document
from cutpaths.sheets.data import Cell, TableDocument


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """Each difference between a file and its table, in words."""
    if not isinstance(document, TableDocument):
        return ("a table was expected",)
    try:
        text = data.decode()
        found = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except (UnicodeDecodeError, csv.Error) as error:
        return (f"no CSV in UTF-8: {error}",)
    return (*_ends(text, len(found)), *_rows(document, found))


def _ends(text: str, lines: int) -> Iterator[str]:
    """Every line ends in CR LF; only quoted text may hold another line's end."""
    if not text.endswith("\r\n") or text.count("\r\n") < lines:
        yield "lines do not end in CR LF"


def _rows(document: TableDocument, found: list[list[str]]) -> Iterator[str]:
    wanted: list[tuple[Cell, ...]] = [document.columns, *document.rows]
    if len(found) != len(wanted):
        yield f"{len(wanted)} lines expected, {len(found)} found"
        return
    for number, (cells, texts) in enumerate(zip(wanted, found, strict=True), 1):
        if len(cells) != len(texts):
            yield f"line {number} has {len(texts)} cells, expected {len(cells)}"
            continue
        for cell, text in zip(cells, texts, strict=True):
            if text != _told(cell):
                yield f"line {number} has {text!r}, expected {_told(cell)!r}"


def _told(cell: Cell) -> str:
    """What stands in the file: text that a spreadsheet would carry out stands behind a mark."""
    if not isinstance(cell, str):
        return str(cell)
    return "'" + cell if cell.strip()[:1] in {"=", "+", "-", "@"} else cell
