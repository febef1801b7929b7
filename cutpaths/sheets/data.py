"""Documents for programs: a table, and values in a tree. They have no sheets."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from cutpaths.drawing import Document

Cell = str | int | float | bool


class TableDocument(Document):
    """A document that is a table: the names of its columns, and rows of as many cells."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


class DataDocument(Document):
    """A document that is a tree of plain values: text, numbers, booleans, None, lists, mappings."""

    data: Mapping[str, Any]
