"""The single-line font: published shapes, widths and letters it lacks."""

from __future__ import annotations

import itertools
import math
import subprocess
import sys
import unicodedata
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutpaths.shapes import Point
from cutpaths.strokes import missing_letters, text_strokes, text_width

PACKAGE = Path(__file__).parents[1] / "cutpaths"
CAPITAL = 21  # units of the published tables; texts drawn at this height read in those units

# Paul Bourke, "Hershey Vector Font", October 1997, the table `simplex`: for each letter its width,
# then x, y pairs, with -1, -1 where the pen is lifted. A printing of the coordinates of NBS
# Special Publication 424 other than the one that the data file was made from.
PUBLISHED = {
    "#": "21 11,25,4,-7,-1,-1,17,25,10,-7,-1,-1,4,12,18,12,-1,-1,3,6,17,6",
    "2": "20 4,16,4,17,5,19,6,20,8,21,12,21,14,20,15,19,16,17,16,15,15,13,13,10,3,0,17,0",
    "4": "20 13,21,3,7,18,7,-1,-1,13,21,13,0",
    "?": "18 3,16,3,17,4,19,5,20,7,21,11,21,13,20,14,19,15,17,15,15,14,13,13,12,9,10,9,7,"
    "-1,-1,9,2,8,1,9,0,10,1,9,2",
    "A": "18 9,21,1,0,-1,-1,9,21,17,0,-1,-1,4,7,14,7",
    "C": "21 18,16,17,18,15,20,13,21,9,21,7,20,5,18,4,16,3,13,3,8,4,5,5,3,7,1,9,0,13,0,15,1,"
    "17,3,18,5",
    "H": "22 4,21,4,0,-1,-1,18,21,18,0,-1,-1,4,11,18,11",
    "K": "21 4,21,4,0,-1,-1,18,21,4,7,-1,-1,9,12,18,0",
    "M": "24 4,21,4,0,-1,-1,4,21,12,0,-1,-1,20,21,12,0,-1,-1,20,21,20,0",
    "Q": "22 9,21,7,20,5,18,4,16,3,13,3,8,4,5,5,3,7,1,9,0,13,0,15,1,17,3,18,5,19,8,19,13,"
    "18,16,17,18,15,20,13,21,9,21,-1,-1,12,4,18,-2",
    "W": "24 2,21,7,0,-1,-1,12,21,7,0,-1,-1,12,21,17,0,-1,-1,22,21,17,0",
    "g": "19 15,14,15,-2,14,-5,13,-6,11,-7,8,-7,6,-6,-1,-1,15,11,13,13,11,14,8,14,6,13,4,11,"
    "3,8,3,6,4,3,6,1,8,0,11,0,13,1,15,3",
    "i": "8 3,21,4,20,5,21,4,22,3,21,-1,-1,4,14,4,0",
    "m": "30 4,14,4,0,-1,-1,4,10,7,13,9,14,12,14,14,13,15,10,15,0,-1,-1,15,10,18,13,20,14,"
    "23,14,25,13,26,10,26,0",
    "y": "16 2,14,8,0,-1,-1,14,14,8,0,6,-4,4,-6,2,-7,1,-7",
}


def published_lines(numbers: str) -> tuple[tuple[Point, ...], ...]:
    """The polylines of a row of the published table."""
    values = [float(word) for word in numbers.split(",")]
    lines: list[list[Point]] = [[]]
    for point in zip(values[::2], values[1::2], strict=True):
        if point == (-1, -1):
            lines.append([])
        else:
            lines[-1].append(point)
    return tuple(map(tuple, lines))


def rounded(lines: tuple[tuple[Point, ...], ...]) -> tuple[tuple[Point, ...], ...]:
    """Lines in font units, free of the last digits of dividing by 21 and multiplying again."""
    return tuple(tuple((round(x, 9), round(y, 9)) for x, y in line) for line in lines)


def ys(text: str, height: float) -> tuple[float, float]:
    """Lowest and highest point of a text."""
    values = [y for line in text_strokes(text, height) for _, y in line]
    return min(values), max(values)


def held_letters() -> list[str]:
    """Every letter of the first planes of Unicode that the font can draw by itself."""
    return [c for c in map(chr, range(0x20, 0x3000)) if not missing_letters(c)]


@pytest.mark.parametrize("letter", PUBLISHED)
def test_letters_have_the_published_strokes_and_widths(letter: str) -> None:
    """Stroke for stroke and in width, a letter is the one in the published table."""
    width, numbers = PUBLISHED[letter].split(" ")
    assert rounded(text_strokes(letter, CAPITAL)) == published_lines(numbers)
    assert round(text_width(letter, CAPITAL), 9) == float(width)


@pytest.mark.parametrize("height", [0.1, 1.8, 2.5, 3.0, 3.3, 5.0, 7.7, 25.4, 1000.0])
def test_capitals_stand_on_the_baseline_and_are_exactly_as_tall_as_asked(height: float) -> None:
    """Every capital and figure (Q has a tail) runs from 0 to the height, to the last bit.

    The published cap line, +12, stands 21 over the base line, -9 (notes of James Hurt's format).
    """
    for letter in "ABCDEFGHIJKLMNOPRSTUVWXYZ0123456789":
        assert ys(letter, height) == (0.0, height)


def test_widths_are_exact() -> None:
    """Widths are the sums of the letters' published widths, scaled."""
    assert text_width("H", 21) == 22.0
    assert text_width("HI", 42) == 60.0
    assert text_width("HI H", 21) == 22 + 8 + 16 + 22
    assert text_width("0123456789", 10.5) == 100.0
    assert text_width("PATCH-1", 21) == 21 + 18 + 16 + 21 + 22 + 14 + 20
    assert text_width("", 5) == 0.0
    assert text_strokes("", 5) == ()


def test_letters_follow_one_another_by_their_widths() -> None:
    """A letter stands where the width of what is before it ends."""
    alone = text_strokes("H", 21)
    second = text_strokes("gH", 21)[2:]
    assert rounded(second) == rounded(
        tuple(tuple((x + 19.0, y) for x, y in line) for line in alone)
    )


def test_space_draws_nothing() -> None:
    """A space has width and no lines."""
    assert text_strokes(" \u00a0\u2009", 21) == ()
    assert text_width(" \u00a0\u2009", 21) == 16 + 16 + 6


def test_all_of_ascii_and_the_latin_letters_are_there() -> None:
    """Nothing is lacking in ASCII, Latin-1, Latin Extended-A and Vietnamese, nor of our signs."""
    assert missing_letters("".join(map(chr, range(0x20, 0x7F)))) == ()
    assert missing_letters("".join(map(chr, range(0xA0, 0x180)))) == ("\u00ad",)  # soft hyphen
    assert missing_letters("".join(map(chr, range(0x1EA0, 0x1EFA)))) == ()
    assert missing_letters("ơƯșȚẞȷ×°′″–—·•±→←↑↓↔√≤≥≠≈µ“”‘’„‚‹›†‡€™…−⁄") == ()
    assert missing_letters("½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒ 15⁄32 x² H₂O") == ()


def test_missing_letters_are_named_once_in_order() -> None:
    """What the font lacks is named as it was written, each once, in order of appearance."""
    assert missing_letters("b木aД木\tq\u0489 ⅟①") == ("木", "Д", "\t", "\u0489", "⅟", "①")


def test_a_missing_letter_is_drawn_as_a_hollow_box() -> None:
    """A missing letter takes its place as a box of capital height and moves what follows."""
    box = ((3.0, 0.0), (13.0, 0.0), (13.0, 21.0), (3.0, 21.0), (3.0, 0.0))
    assert rounded(text_strokes("木", 21)) == (box,)
    assert text_width("木木I", 21) == 16 + 16 + 8
    assert rounded(text_strokes("木I", 21)) == (box, ((20.0, 21.0), (20.0, 0.0)))


def test_a_box_that_is_written_is_not_missing() -> None:
    """The box itself is a letter of the font."""
    assert missing_letters("□") == ()


@pytest.mark.parametrize("height", [0.0, -3.0, math.nan, math.inf])
def test_a_height_that_cannot_be_drawn_is_refused(height: float) -> None:
    """Widths and strokes refuse the same heights in the same words."""
    message = f"text height must be over 0 mm, got {height}"
    for ask in (text_width, text_strokes):
        with pytest.raises(ValueError, match=f"^{message}$"):
            ask("H", height)


def test_no_letter_has_a_segment_without_length() -> None:
    """Every line of every letter has two points or more and never the same one twice in a row."""
    letters = held_letters()
    assert {"A", "é", "½", "²", "″", "□"} <= set(letters)
    for letter in letters:
        for line in text_strokes(letter, 3.0):
            assert len(line) >= 2, letter
            assert all(a != b for a, b in itertools.pairwise(line)), letter


def test_no_letter_draws_a_segment_twice() -> None:
    """A pen never goes over the same segment of a letter again."""
    for letter in held_letters():
        segments = Counter(
            frozenset(pair)
            for line in rounded(text_strokes(letter, 21))
            for pair in itertools.pairwise(line)
        )
        assert [s for s, count in segments.items() if count > 1] == [], letter


def test_ink_keeps_within_the_width() -> None:
    """No letter reaches left of its start nor right of its width: texts can be set apart."""
    for letter in held_letters():
        xs = [x for line in text_strokes(letter, 21) for x, _ in line]
        assert min(xs, default=0.0) >= 0.0, letter
        assert max(xs, default=0.0) <= text_width(letter, 21), letter


@given(st.text(max_size=12))
def test_any_text_can_be_drawn(text: str) -> None:
    """Every text has a width and proper lines, and what it lacks can be named."""
    assert text_width(text, 3.0) >= 0.0
    for line in text_strokes(text, 3.0):
        assert len(line) >= 2
        assert all(a != b for a, b in itertools.pairwise(line))
    assert set(missing_letters(text)) <= set(unicodedata.normalize("NFC", text))


def test_fresh_interpreters_draw_the_same() -> None:
    """The seed of Python's hashes changes no number."""
    code = "from cutpaths.strokes import *; print(text_strokes('Größe 2 1⁄16″ × ½', 3.3))"
    outputs = {
        subprocess.run(
            [sys.executable, "-X", "utf8", "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(PACKAGE.parent)},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "2")
    }
    assert outputs == {f"{text_strokes('Größe 2 1⁄16″ × ½', 3.3)}\n".encode()}


def test_importing_reads_no_data_and_only_what_values_are_made_of() -> None:
    """The letters are read when the first text is drawn; of other packages msgspec alone loads."""
    code = """
import sys
before, opened = set(sys.modules), []
sys.addaudithook(lambda event, args: opened.append(str(args[0])) if event == "open" else None)
import cutpaths.strokes
print(any(name.endswith("strokes.txt") for name in opened))
loaded = {m.split(".")[0] for m in set(sys.modules) - before} - sys.stdlib_module_names
print(sorted(loaded - {"typing_extensions"}))  # msgspec takes it where it is there
cutpaths.strokes.text_width("H", 3)
print(any(name.endswith("strokes.txt") for name in opened))
"""
    run = subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONPATH": str(PACKAGE.parent)},
        capture_output=True,
        check=True,
        text=True,
    )
    assert run.stdout.split("\n") == ["False", "['cutpaths', 'msgspec']", "True", ""]


def test_the_notice_keeps_what_the_fonts_terms_ask_for() -> None:
    """The acknowledgements that must go with the data are there, word for word."""
    notice = " ".join((PACKAGE / "strokes-notice.txt").read_text(encoding="utf-8").split())
    for words in (
        "The Hershey Fonts were originally created by Dr. A. V. Hershey while working at the "
        "U. S. National Bureau of Standards.",
        "The format of the Font data in this distribution was originally created by James Hurt "
        "Cognition, Inc. 900 Technology Park Drive Billerica, MA 01821 "
        "(mit-eddie!ci-dandelion!hurt)",
        "Copyright (c) 2020 apshu",
    ):
        assert words in notice
