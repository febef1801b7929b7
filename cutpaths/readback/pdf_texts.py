"""Compares the texts of a PDF page with those of its sheet; mm.

A text may stand in several runs, one after the other: where the script changes, for one. It must
read the same, stand at its place, be no wider than the single-line font would draw it, and have
capitals of its height; upside down or mirrored letters have a negative height.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from cutpaths.readback.found import Point
from cutpaths.readback.pdf_content import Run
from cutpaths.shapes import Anchor, Text
from cutpaths.strokes import text_width

PLACE_MM = 0.02  # glyphs advance by thousandths of the font's size
HEIGHT_MM = 0.01
ANGLE_DEGREES = 0.02

_PART = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}


def text_differences(texts: Iterable[Text], runs: Sequence[Run]) -> Iterator[str]:
    """Each difference in one line; texts are taken in the order of the sheet."""
    at = 0
    for number, text in enumerate(texts, start=1):
        string, first = _plain(text.string), at
        read = ""
        while at < len(runs) and len(read) < len(string):
            read += _plain(runs[at].string)
            at += 1
        if read != string:
            found = "".join(run.string for run in runs[first:at])
            yield f"text {number} must read {text.string!r}, found {found!r}"
            return
        for words in _placed(text, runs[first:at]):
            yield f"text {number}, {text.string!r}: {words}"
    if at < len(runs):
        yield f"there is more text than there must be: {runs[at].string!r}"


def _placed(text: Text, runs: Sequence[Run]) -> Iterator[str]:
    """What is wrong with the place, the size or the way of a text."""
    start, end = runs[0].start, runs[-1].end
    part = _PART[text.anchor]
    place = start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part
    if not math.dist(place, text.at) <= PLACE_MM:
        yield f"must stand at {_numbers(text.at)} mm, found at {_numbers(place)}"
    room, width = text_width(text.string, text.height), math.dist(start, end)
    if not width <= room + PLACE_MM:
        yield f"must be {room:.3f} mm wide at most, found {width:.3f}"
    angle = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    if not abs((angle - text.angle + 180.0) % 360.0 - 180.0) <= ANGLE_DEGREES:
        yield f"must stand at {text.angle:.3f} degrees, found {angle:.3f}"
    for run in runs:
        if not abs(run.height - text.height) <= HEIGHT_MM:
            yield f"must have capitals of {text.height:.3f} mm, found {run.height:.3f}"
            return


def _plain(text: str) -> str:
    """A text with its letters taken apart: fractions may be written either way."""
    return unicodedata.normalize("NFKD", text)


def _numbers(point: Point) -> str:
    return f"({point[0]:.3f}, {point[1]:.3f})"
