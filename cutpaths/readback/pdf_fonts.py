"""Fonts of a PDF file, as far as a reader of texts needs them: letters and widths of glyphs.

Composite fonts with two-byte codes (ISO 32000-1, 9.7), their `W` array (9.7.4.3) and their
`ToUnicode` map (9.10.3). Widths are parts of the font's size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from cutpaths.readback.found import ReadError
from cutpaths.readback.pdf_objects import Name, PdfFile
from cutpaths.values import Value

_BLOCK = re.compile(rb"begin(bfchar|bfrange)(.*?)end(?:bfchar|bfrange)", re.DOTALL)
_CODES = re.compile(rb"<([0-9A-Fa-f]*)>")


class Font(Value):
    """What is known of a font.

    Attributes:
        letters: what each code reads.
        widths: how far each code advances.
        capital: height of a capital.
    """

    letters: dict[int, str]
    widths: dict[int, float]
    capital: float

    def codes(self, text: bytes) -> Iterator[int]:
        """The codes of a text as it stands in a content stream."""
        return (int.from_bytes(text[i : i + 2], "big") for i in range(0, len(text), 2))


def read_font(file: PdfFile, value: Any) -> Font:
    """Reads a font.

    Raises:
        ReadError: it is not of the kind that is written here, or not inside the file.
    """
    font = file.entries(value)
    if file.resolve(font.get("Encoding")) != Name("Identity-H"):
        raise ReadError("a font must have two-byte codes")
    inner = file.entries(file.resolve(font["DescendantFonts"])[0])
    descriptor = file.entries(inner.get("FontDescriptor"))
    if not {"FontFile2", "FontFile3"} & descriptor.keys():
        raise ReadError("a font is not embedded")
    return Font(
        letters=dict(_letters(file.contents(font.get("ToUnicode")))),
        widths=dict(_widths(file.resolve(inner.get("W", [])))),
        capital=float(file.resolve(descriptor.get("CapHeight", 0.0))) / 1000,
    )


def _letters(table: bytes) -> Iterator[tuple[int, str]]:
    for kind, block in _BLOCK.findall(table):
        codes = _CODES.findall(block)
        if kind == b"bfchar":
            for code, text in zip(codes[0::2], codes[1::2], strict=True):
                yield int(code, 16), _decoded(text)
            continue
        for first, last, text in zip(codes[0::3], codes[1::3], codes[2::3], strict=True):
            start = _decoded(text)
            for code in range(int(first, 16), int(last, 16) + 1):
                yield code, start[:-1] + chr(ord(start[-1]) + code - int(first, 16))


def _decoded(digits: bytes) -> str:
    return bytes.fromhex(digits.decode()).decode("utf-16-be")


def _widths(runs: list[Any]) -> Iterator[tuple[int, float]]:
    """`first last width`, or `first [width width ...]`."""
    at = 0
    while at < len(runs):
        first, second = int(runs[at]), runs[at + 1]
        if isinstance(second, list):
            yield from ((first + n, width / 1000) for n, width in enumerate(second))
            at += 2
        else:
            yield from ((code, runs[at + 2] / 1000) for code in range(first, int(second) + 1))
            at += 3
