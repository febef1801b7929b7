"""JSON: a tree of values for programs.

RFC 8259, in UTF-8 (section 8.1), indented by two, names in the order of the document. Numbers are
finite; letters stand as they are.

Left out: more than one tree, comments.
"""

from __future__ import annotations

import json

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.sheets.data import DataDocument


def render(document: Document) -> bytes:
    """The bytes of the tree.

    Raises:
        DrawingError: the document has no data, or a number in it is not finite.
    """
    if not isinstance(document, DataDocument):
        raise DrawingError(f"JSON holds data, and {document.name} has none")
    try:
        text = json.dumps(document.data, indent=2, ensure_ascii=False, allow_nan=False)
    except ValueError as error:
        raise DrawingError(f"{document.name} cannot be JSON: {error}") from error
    return f"{text}\n".encode()
