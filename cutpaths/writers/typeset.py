"""From typst markup to a PDF: the only module that imports typst, which sets texts and pages.

Nothing is read but what is handed in and the fonts beside this module: no fonts of the system, no
clock, no packages from the network, no file of the disk. The same input gives the same bytes.
Text from the user comes in as data or through `typst_text`, never as markup.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

import typst

from cutpaths.errors import DrawingError
from cutpaths.writers.typst_text import FAMILY, FONTS

# Set before all: no date, our font, letters as they were written (the font would turn an x between
# figures into a sign), and no hyphens where nobody asked for them.
_PREAMBLE = f"""
#set document(date: none)
#set text(font: "{FAMILY}", lang: "en", hyphenate: false, features: (calt: 0))
"""
# An import whose path starts with @ would be fetched from a registry.
_PACKAGE = re.compile(r"#?\b(import|include)\s*\(*\s*\"@")
_MAIN = "main.typ"


def typeset(source: str, files: Mapping[str, bytes]) -> bytes:
    """A tagged PDF from typst markup.

    A letter that the fonts lack becomes a box: `typst_text.require_letters` looks before.

    Args:
        source: the markup; it names files as `image("corner.svg")` or `json("texts.json")`.
        files: their names and contents.

    Raises:
        DrawingError: the markup is not right, or asks for what is not there.
    """
    for name, markup in _markups(source, files):
        if _PACKAGE.search(markup):
            raise DrawingError(f"{name} imports a package, which would have to be downloaded")
    if _MAIN in files:
        raise DrawingError(f"a file beside the markup cannot be called {_MAIN}")
    inputs = {_MAIN: (_PREAMBLE + source).encode(), **files}
    try:
        made, warnings = _compiler().compile_with_warnings(
            input=inputs,  # type: ignore[type-var] # a table of files is allowed, but not typed
            format="pdf",
            timestamp=0,
            sys_inputs=None,
        )
    except typst.TypstError as error:
        raise DrawingError(f"the pages cannot be set: {_one_line(error)}") from error
    if warnings:
        raise DrawingError(f"the pages cannot be set: {_one_line(warnings[0])}")
    if not isinstance(made, bytes):
        raise DrawingError(f"the pages cannot be set: {type(made).__name__} in place of a file")
    return made


def _markups(source: str, files: Mapping[str, bytes]) -> list[tuple[str, str]]:
    """Each piece of markup with its name."""
    inner = [name for name in files if name.endswith(".typ")]
    return [("the markup", source), *((name, files[name].decode()) for name in inner)]


@cache
def _compiler() -> typst.Compiler:
    """Made once: reading the fonts takes longer than setting a page."""
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS]
    )
    # The root keeps the markup out of the folder in which the program was started.
    return typst.Compiler(root=FONTS, font_paths=fonts, ignore_system_fonts=True)


def _one_line(error: typst.TypstError | typst.TypstWarning) -> str:
    return " ".join([error.message, *error.hints]).replace("\n", " ")
