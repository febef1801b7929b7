"""Asks viewers to print a PDF at its actual size, one side of the paper, not fitted to it.

The catalog gets viewer preferences (ISO 32000-1, 12.2, table 150). It is written anew behind the
file, with a cross-reference section of its own: an incremental update (7.5.6), so that no byte of
what was typeset moves. Files come from `typeset`, whose cross-reference is a plain table.
"""

from __future__ import annotations

import re

from cutpaths.errors import DrawingError

_WISHES = b"/ViewerPreferences<</PrintScaling/None/Duplex/Simplex/PickTrayByPDFSize true>>"
_START = re.compile(rb"startxref\s+([0-9]+)\s+%%EOF\s*\Z")
_TRAILER = re.compile(rb"trailer\s*<<(.*?)>>\s*startxref", re.DOTALL)
_ROOT = re.compile(rb"/Root ([0-9]+) 0 R")
_PREFERENCES = re.compile(rb"/ViewerPreferences\s*<<[^<>]*>>")


def at_actual_size(pdf: bytes) -> bytes:
    """The file with a catalog that asks for no scaling.

    Raises:
        DrawingError: the file is not built as expected.
    """
    start, trailer = _START.search(pdf), _TRAILER.search(pdf)
    root = _ROOT.search(trailer[1]) if trailer else None
    if start is None or trailer is None or root is None:
        raise DrawingError("the PDF cannot be told to print at its actual size: it has no trailer")
    number = int(root[1])
    catalog = _catalog(pdf, number)
    base = pdf if pdf.endswith(b"\n") else pdf + b"\n"
    body = b"%d 0 obj\n%s\nendobj\n" % (number, catalog)
    table = b"xref\n%d 1\n%010d 00000 n \n" % (number, len(base))
    last = b"trailer\n<<%s/Prev %s>>\nstartxref\n%d\n%%%%EOF\n" % (
        trailer[1],
        start[1],
        len(base) + len(body),
    )
    return base + body + table + last


def _catalog(pdf: bytes, number: int) -> bytes:
    """The catalog with the wishes in it."""
    found = re.search(rb"(?:^|\n)%d 0 obj\s*(<<.*?>>)\s*endobj" % number, pdf, re.DOTALL)
    if found is None or b"/Type/Catalog" not in found[1]:
        raise DrawingError("the PDF cannot be told to print at its actual size: it has no catalog")
    plain = _PREFERENCES.sub(b"", found[1])
    return plain[:-2] + _WISHES + b">>"
