"""Titles and labels: text that every file format can hold in one line."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from cutpaths.project.flaws import Flaw
from cutpaths.source import KeyPath

# Control characters, surrogates, line and paragraph separators: XML 1.0 and DXF hold none of them.
_UNFIT = {"Cc", "Cs", "Zl", "Zp"}
_UNFIT_LETTERS = "\ufffe\uffff"  # XML 1.0, production 2 (Char)


def word_flaws(path: KeyPath, text: str) -> Iterator[Flaw]:
    """Rules of a text that is written into files."""
    if not text.strip():
        yield Flaw(path, "must not be blank")
    for letter in text:
        if unicodedata.category(letter) in _UNFIT or letter in _UNFIT_LETTERS:
            problem = f"must not hold control characters, got U+{ord(letter):04X}"
            yield Flaw(path, problem, "Write one line of plain text")
            return
