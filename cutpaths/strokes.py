"""The single-line font: how wide a text is, and the lines that a pen draws for it.

Millimetres; a text stands on the x axis (baseline y = 0), starts at x = 0 and runs right, y up.
Capitals are exactly `height` tall; their accents rise to 1.4 times that, tails hang 1/3 below.
Every width of drawn text comes from here. Sizes are of the geometry, without the width of the pen.

The letters are data in `strokes.txt`: Hershey's Roman Simplex (public, terms and acknowledgements
in `strokes-notice.txt`) and, marked `own` there, signs and accents drawn for this package. Accented
letters are put together from a letter and its marks. Digits about U+2044 FRACTION SLASH, and the
ready-made fractions, are built up: small figures, raised and lowered, about a slash.

Left out: kerning, line breaks, right-to-left and joined scripts, Greek and Cyrillic. A letter that
the font lacks is drawn as a hollow box and named by `missing_letters`.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Iterator
from enum import StrEnum
from functools import cache, lru_cache
from pathlib import Path
from typing import assert_never

from cutpaths.shapes import Point
from cutpaths.values import Value

Line = tuple[Point, ...]

# All in units of the font, of which a capital has 21.
_CAPITAL = 21.0
_SMALL_LETTER = 14.0
_ABOVE_GAP = 3.0  # from the top of a letter to its accent
_BESIDE_GAP = 2.0  # from a mark at a letter's right to the next letter
_ACCENT_MARGIN = 1.0  # least room at either side of a letter with its accents
_MIXED_GAP = 4.0  # between a whole number and its fraction, in place of a space
_SLASH_RUN = 11.0
_SLASH_GAP = 3.5  # from the slash to the figures, and at either side of the fraction

# Figures of 3 mm text become 1.8 mm, the least nominal size of lettering in ISO 3098 (from memory).
_SMALL = 0.6

_LACKING = "□"
_DOTLESS = {"i": "ı", "j": "ȷ"}
_DOT_LOST = re.compile("[ij](?=[\u0315-\u0333]*[\u0300-\u0314])")  # marks below, then one above
_FRACTION = re.compile("([0-9]+)⁄([0-9]+)")
_SPELLED_OUT = ("<compat>", "<noBreak>", "<wide>")
_RAISED, _LOWERED, _READY_MADE = "<super>", "<sub>", "<fraction>"
_TOKEN = re.compile(
    r"""(?P<over>[0-9]+)⁄(?P<under>[0-9]+)
    | (?P<gap>(?<=[0-9])\ (?=[0-9]+⁄[0-9]|[¼-¾⅐-⅞↉]))
    | (?P<letter>.)""",
    re.VERBOSE | re.DOTALL,
)


class _Place(StrEnum):
    """Where a mark is set on a letter."""

    ABOVE = "above"
    BESIDE = "beside"
    BELOW = "below"
    TAIL = "tail"


class _Glyph(Value):
    """Something drawn, and how far the next letter stands from its origin."""

    width: float
    lines: tuple[Line, ...]


def text_width(text: str, height: float) -> float:
    """How far a text reaches from its start, side bearings included.

    >>> text_width("HI", 21)
    30.0

    Raises:
        ValueError: the height is not a positive number.
    """
    _check(height)
    return sum(glyph.width for glyph in _glyphs(text)) / _CAPITAL * height


@lru_cache(maxsize=1024)
def text_strokes(text: str, height: float) -> tuple[Line, ...]:
    """The polylines of a text, letter by letter from the left.

    >>> text_strokes("I", 21)
    (((4.0, 21.0), (4.0, 0.0)),)

    Raises:
        ValueError: the height is not a positive number.
    """
    _check(height)
    return tuple(
        tuple((x / _CAPITAL * height, y / _CAPITAL * height) for x, y in line)
        for line in _row(_glyphs(text)).lines
    )


def missing_letters(text: str) -> tuple[str, ...]:
    """The letters that the font lacks, each once, in order of appearance.

    >>> missing_letters("Größe 木 2 1⁄16″ 木")
    ('木',)
    """
    composed = unicodedata.normalize("NFC", text)
    return tuple(dict.fromkeys(c for c in composed if c != _LACKING and _spelled(c) == _LACKING))


def _check(height: float) -> None:
    if not 0 < height < math.inf:
        raise ValueError(f"text height must be over 0 mm, got {height}")


# --- from text to glyphs


# A drawing sets the same few words over and over: to find its extent, to write it, to check it.
@lru_cache(maxsize=1024)
def _glyphs(text: str) -> tuple[_Glyph, ...]:
    spelled = "".join(map(_spelled, unicodedata.normalize("NFC", text)))
    spelled = _DOT_LOST.sub(lambda found: _DOTLESS[found[0]], spelled)
    glyphs: list[_Glyph] = []
    for token in _TOKEN.finditer(spelled):
        letter = token["letter"]
        if letter and unicodedata.combining(letter):
            base = glyphs.pop() if glyphs else _glyph(" ")
            glyphs.append(_marked(base, letter))
        elif letter:
            glyphs.append(_glyph(letter))
        elif token["gap"]:
            glyphs.append(_Glyph(_MIXED_GAP, ()))
        else:
            glyphs.append(_fraction(token["over"], token["under"]))
    return tuple(glyphs)


@cache
def _spelled(letter: str) -> str:
    """What a letter is drawn with: itself, a letter and its marks, or the box."""
    letters = _letters()
    if letter in letters:
        source, *rest = letters[letter].split()
        return "".join(map(_character, rest)) if source == "=" else letter
    tag = _tag(letter)
    parts = unicodedata.normalize("NFKD" if tag else "NFD", letter)
    if not all(part in letters for part in parts):
        return _LACKING
    if tag == _READY_MADE:
        return letter if _FRACTION.fullmatch(parts) else _LACKING
    if tag in (_RAISED, _LOWERED):
        return letter
    if tag and tag not in _SPELLED_OUT:
        return _LACKING
    return "".join(map(_spelled, parts))


def _tag(letter: str) -> str:
    """How Unicode says that a letter is a form of others: `<super>`, `<fraction>`; or empty."""
    first, *_ = unicodedata.decomposition(letter).split() or [""]
    return first if first.startswith("<") else ""


@cache
def _glyph(letter: str) -> _Glyph:
    """One letter as `_spelled` gives it; not a mark."""
    if letter in _letters():
        _, width, *points = _letters()[letter].split()
        return _Glyph(float(width), _lines(points))
    parts = unicodedata.normalize("NFKD", letter)
    if found := _FRACTION.fullmatch(parts):
        return _fraction(*found.groups())
    small = _row(_glyphs(parts))
    up = _CAPITAL * (1 - _SMALL) if _tag(letter) == _RAISED else 0.0
    return _Glyph(small.width * _SMALL, _moved(small.lines, 0.0, up, _SMALL))


@cache
def _fraction(over: str, under: str) -> _Glyph:
    """Raised figures, a slash from baseline to capital height, figures on the baseline.

    The figures keep `_SLASH_GAP` from the slash where it passes them nearest: the ones on top at
    their feet, the ones below at their heads.
    """
    top, bottom = _tight(over), _tight(under)
    slash = _SLASH_GAP + top.width + _SLASH_GAP - _SLASH_RUN * (1 - _SMALL)
    below = slash + _SLASH_RUN * _SMALL + _SLASH_GAP
    lines = (
        *_moved(top.lines, _SLASH_GAP, _CAPITAL * (1 - _SMALL)),
        ((slash, 0.0), (slash + _SLASH_RUN, _CAPITAL)),
        *_moved(bottom.lines, below, 0.0),
    )
    return _Glyph(below + bottom.width + _SLASH_GAP, lines)


def _tight(figures: str) -> _Glyph:
    """Small figures without room at their sides."""
    lines = _row(map(_glyph, figures)).lines
    left, right = _ends(lines)
    return _Glyph((right - left) * _SMALL, _moved(lines, -left * _SMALL, 0.0, _SMALL))


# --- from letters and marks to accented letters


def _marked(base: _Glyph, mark: str) -> _Glyph:
    """A letter with one more mark set on it, made wider where the mark needs it."""
    _, word, *points = _letters()[mark].split()
    place = _Place(word)
    lines = base.lines + _moved(_lines(points), *_seat(base, place))
    left, right = _ends(lines)
    room = max(0.0, _ACCENT_MARGIN - left)
    margin = _BESIDE_GAP if place is _Place.BESIDE else _ACCENT_MARGIN
    return _Glyph(max(base.width, right + margin) + room, _moved(lines, room, 0.0))


def _seat(base: _Glyph, place: _Place) -> Point:
    """Where a mark's origin goes on a letter.

    Above and below, that is the middle of the letter's upper or lower half and not of the whole
    letter, so that the hook of a j or the foot of an L draws no accent aside.
    """
    points = [p for line in base.lines for p in line] or [(base.width / 2, _SMALL_LETTER)]
    top, bottom = max(y for _, y in points), min(y for _, y in points)
    upper = [x for x, y in points if y >= min(top, _SMALL_LETTER / 2)]
    lower = [x for x, y in points if y <= max(bottom, _SMALL_LETTER / 2)]
    foot = [x for x, y in points if y <= bottom + 1.0]
    match place:
        case _Place.ABOVE:
            return (min(upper) + max(upper)) / 2, top + _ABOVE_GAP
        case _Place.BESIDE:
            return max(upper), top
        case _Place.BELOW:
            return (min(lower) + max(lower)) / 2, min(bottom, 0.0)
        case _Place.TAIL:
            return max(foot), min(bottom, 0.0)
        case _:
            assert_never(place)


# --- lines


def _row(glyphs: Iterable[_Glyph]) -> _Glyph:
    """Glyphs side by side."""
    x = 0.0
    lines: list[Line] = []
    for glyph in glyphs:
        lines += _moved(glyph.lines, x, 0.0)
        x += glyph.width
    return _Glyph(x, tuple(lines))


def _moved(lines: Iterable[Line], dx: float, dy: float, scale: float = 1.0) -> tuple[Line, ...]:
    return tuple(tuple((x * scale + dx, y * scale + dy) for x, y in line) for line in lines)


def _ends(lines: Iterable[Line]) -> tuple[float, float]:
    xs = [x for line in lines for x, _ in line]
    return min(xs), max(xs)


# --- the data file


@cache
def _letters() -> dict[str, str]:
    """Each letter and mark of the font with the rest of its line in the data file."""
    data = Path(__file__).with_name("strokes.txt").read_text(encoding="utf-8")
    return dict(_entries(data))


def _entries(data: str) -> Iterator[tuple[str, str]]:
    for line in data.splitlines():
        if line.startswith("U+"):
            code, _, rest = line.split(" ", 2)
            yield _character(code), rest


def _character(code: str) -> str:
    return chr(int(code.removeprefix("U+"), 16))


def _lines(points: Iterable[str]) -> tuple[Line, ...]:
    """Polylines from `x,y` words parted by `/`."""
    lines: list[list[Point]] = [[]]
    for point in points:
        if point == "/":
            lines.append([])
        else:
            x, y = point.split(",")
            lines[-1].append((float(x), float(y)))
    return tuple(tuple(line) for line in lines if line)
