"""Text from the user on its way into typst markup, and which letters the shipped fonts lack.

There are two safe ways and no third. Texts as data: `texts(...)` makes a JSON file that the markup
reads with `json("texts.json")`; a string out of it is set as it is and never read as markup. Or one
text in its place: `escaped` writes it as a typst string, in which only the backslash and the
double quote mean anything.

The fonts have Latin, Greek and Cyrillic letters. What they have is read from their character maps
(OpenType `cmap`, formats 4 and 12) with the standard library.
"""

from __future__ import annotations

import json
import struct
import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from cutpaths.errors import DrawingError

FAMILY = "Inter"
FONTS = Path(__file__).parent / "fonts"
FACES = ("Inter-Bold.otf", "Inter-Italic.otf", "Inter-Regular.otf")
CAPITAL = 2048 / 2816  # height of a capital, as a part of the font's size

_SHOWN = 8


def literal(text: str) -> str:
    r"""A text as a typst string, for code.

    >>> print(literal('5" of #cloth\n'))
    "5\" of #cloth\u{a}"
    """
    return '"' + "".join(map(_written, spelled(text))) + '"'


def escaped(text: str) -> str:
    """A text for the place where it stands in markup: set as it is, whatever is in it.

    >>> escaped("$5 a yard [*new*]")
    '#"$5 a yard [*new*]";'
    """
    # The semicolon ends the expression: what follows cannot be taken for a call or a field.
    return f"#{literal(text)};"


def texts(values: Mapping[str, Any]) -> bytes:
    """A JSON file of texts, and of lists and tables of them, for typst's `json`."""
    return json.dumps(_spelled_all(values), ensure_ascii=True, sort_keys=True).encode()


def spelled(text: str) -> str:
    """A text composed, with the ready-made fractions that the fonts lack taken apart.

    Figures about a fraction slash are built up by the fonts.

    >>> spelled("2 ⅔ yd"), spelled("1 ½")
    ('2 2⁄3 yd', '1 ½')
    """
    composed = unicodedata.normalize("NFC", text)
    return "".join(
        unicodedata.normalize("NFKD", c)
        if ord(c) not in _letters() and unicodedata.decomposition(c).startswith("<fraction>")
        else c
        for c in composed
    )


def missing_letters(text: str) -> tuple[str, ...]:
    """The letters that the fonts lack, each once, in order of appearance.

    >>> missing_letters("Größe 木 ⅔ Ωж − ×")
    ('木',)
    """
    return tuple(dict.fromkeys(c for c in spelled(text) if ord(c) not in _letters()))


def require_letters(named: Mapping[str, str]) -> None:
    """Checks that every text can be set.

    Args:
        named: texts by what they are called in the project file, such as `project.title`.

    Raises:
        DrawingError: the first text that cannot, with its letters.
    """
    for name, text in named.items():
        if missing := missing_letters(text):
            more = f" and {len(missing) - _SHOWN} more" if len(missing) > _SHOWN else ""
            letters = " ".join(map(_shown, missing[:_SHOWN])) + more
            raise DrawingError(
                f"`{name}`: PDF pages have no letters for {letters}. "
                "Write it in Latin, Greek or Cyrillic letters, or leave out the uses that have PDF:"
                " booklet, labels, pages"
            )


def _spelled_all(value: Any) -> Any:
    match value:
        case str():
            return spelled(value)
        case Mapping():
            return {str(key): _spelled_all(inner) for key, inner in value.items()}
        case list() | tuple():
            return [_spelled_all(inner) for inner in value]
        case _:
            return value


def _written(letter: str) -> str:
    if letter in '"\\':
        return f"\\{letter}"
    return letter if letter.isprintable() else f"\\u{{{ord(letter):x}}}"


def _shown(letter: str) -> str:
    return letter if letter.isprintable() else f"U+{ord(letter):04X}"


# --- character maps


@cache
def _letters() -> frozenset[int]:
    """What every face has: a text may be set in any of them."""
    maps = [_character_map((FONTS / face).read_bytes()) for face in FACES]
    return frozenset.intersection(*maps)


def _character_map(font: bytes) -> frozenset[int]:
    """Code points with a glyph, from the Unicode map of an OpenType font."""
    start = _table(font, b"cmap")
    (count,) = struct.unpack_from(">H", font, start + 2)
    places = (struct.unpack_from(">HHL", font, start + 4 + 8 * n) for n in range(count))
    found: set[int] = set()
    for platform, encoding, offset in places:
        if (platform, encoding) in ((3, 1), (3, 10)):
            found |= set(_points(font, start + offset))
    return frozenset(found)


def _table(font: bytes, tag: bytes) -> int:
    """Where a table of a font starts."""
    (count,) = struct.unpack_from(">H", font, 4)
    for n in range(count):
        name, _, offset, _ = struct.unpack_from(">4sLLL", font, 12 + 16 * n)
        if name == tag:
            return int(offset)
    raise ValueError(f"a font must have a table {tag!r}")


def _points(font: bytes, at: int) -> Iterator[int]:
    (form,) = struct.unpack_from(">H", font, at)
    if form == 12:
        (groups,) = struct.unpack_from(">L", font, at + 12)
        for n in range(groups):
            first, last, glyph = struct.unpack_from(">LLL", font, at + 16 + 12 * n)
            yield from range(first if glyph else first + 1, last + 1)
    elif form == 4:
        yield from _segments(font, at)


def _segments(font: bytes, at: int) -> Iterator[int]:
    """Format 4: runs of code points, each with a shift or a list of glyphs."""
    (double,) = struct.unpack_from(">H", font, at + 6)
    ends = at + 14
    for n in range(0, double, 2):
        (last,) = struct.unpack_from(">H", font, ends + n)
        start = ends + double + 2 + n
        (first,) = struct.unpack_from(">H", font, start)
        (delta,) = struct.unpack_from(">H", font, start + double)
        (offset,) = struct.unpack_from(">H", font, start + 2 * double)
        for point in range(first, last + 1):
            if offset:
                place = start + 2 * double + offset + 2 * (point - first)
                (glyph,) = struct.unpack_from(">H", font, place)
            else:
                glyph = (point + delta) & 0xFFFF
            if glyph and point != 0xFFFF:
                yield point
