"""Hypothesis strategies: lengths, outlines, project tables and projects. All lengths in mm."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import cos, pi, sin
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st

from cutpaths.lengths import INCH, Unit, mixed
from cutpaths.project import Project, read
from cutpaths.project.outlines import Point, faults

# The same examples on every machine, however slow it is.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

TITLES = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1)


def lengths(
    least: Fraction = INCH / 16, most: Fraction = 100 * INCH, step: Fraction = INCH / 16
) -> st.SearchStrategy[Fraction]:
    """Exact lengths on a ruler's marks."""
    return st.integers(-(-least // step), most // step).map(lambda marks: marks * step)


@st.composite
def written_lengths(draw: st.DrawFn) -> tuple[str, Fraction]:
    """A length as a person may write it, with its value."""
    sign = draw(st.sampled_from(["", "+", "-"]))
    number, value = draw(st.one_of(_decimals(), _fractions(), _glyphs()))
    unit, mm = draw(st.sampled_from(list(_UNITS.items())))
    space = draw(st.sampled_from(["", " ", "  "]))
    return f"{sign}{number}{space}{unit}", value * mm * (-1 if sign == "-" else 1)


_UNITS = {
    "mm": Fraction(1),
    "MM": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "inches": Fraction(254, 10),
    '"': Fraction(254, 10),
    "″": Fraction(254, 10),
    "yd": Fraction(9144, 10),
    "Yard": Fraction(9144, 10),
}
_GLYPHS = {"½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4)}
_GLYPHS |= {"¾": Fraction(3, 4), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8)}
_GLYPHS |= {"⅞": Fraction(7, 8)}


@st.composite
def _decimals(draw: st.DrawFn) -> tuple[str, Fraction]:
    whole, places = draw(st.integers(0, 10**9 - 1)), draw(st.integers(0, 9))
    part = draw(st.integers(0, 10**places - 1))
    if not places:
        return str(whole), Fraction(whole)
    return f"{whole}.{part:0{places}d}", whole + Fraction(part, 10**places)


@st.composite
def _fractions(draw: st.DrawFn) -> tuple[str, Fraction]:
    whole = draw(st.integers(0, 999))
    over, under = draw(st.integers(0, 999)), draw(st.integers(1, 999))
    slash = draw(st.sampled_from(["/", "⁄", " / "]))
    gap = draw(st.sampled_from([" ", "-", " - "]))
    if draw(st.booleans()):
        return f"{over}{slash}{under}", Fraction(over, under)
    return f"{whole}{gap}{over}{slash}{under}", whole + Fraction(over, under)


@st.composite
def _glyphs(draw: st.DrawFn) -> tuple[str, Fraction]:
    glyph, part = draw(st.sampled_from(list(_GLYPHS.items())))
    if draw(st.booleans()):
        return glyph, part
    whole = draw(st.integers(0, 999))
    return f"{whole}{draw(st.sampled_from(['', ' ', '-']))}{glyph}", whole + part


@st.composite
def outlines(draw: st.DrawFn, most_sides: int = 12) -> tuple[Point, ...]:
    """Convex counter-clockwise outlines, corners 60 to 170 degrees, sides of 9 in or more.

    Points lie near a circle, so that no side of a border round it runs out of its corner.
    """
    sides = draw(st.integers(4, most_sides))
    radius = draw(st.integers(2 * sides + 4, 40))
    shifts = draw(st.lists(st.integers(-12, 12), min_size=sides, max_size=sides))
    turn = draw(st.integers(0, 359))
    eighth = INCH / 8
    points = []
    for index, shift in enumerate(shifts):
        angle = (index + shift / 100) * 2 * pi / sides + turn * pi / 180
        x, y = (round(8 * radius * part(angle)) * eighth for part in (cos, sin))
        points.append((x, y))
    found = tuple(points)
    return found if not list(faults(found)) else _regular_points(sides, radius)


def _regular_points(sides: int, radius: int) -> tuple[Point, ...]:
    """The same without shifts, which never has faults."""
    step = INCH / 64
    angles = [(index - 0.5) * 2 * pi / sides for index in range(sides)]
    return tuple(
        (round(64 * radius * sin(angle)) * step, -round(64 * radius * cos(angle)) * step)
        for angle in angles
    )


@st.composite
def project_tables(draw: st.DrawFn, *, folded_over: bool | None = None) -> dict[str, Any]:
    """Tables of a project file that is right: every layout, construction, unit and border form.

    Sides are long enough for an opening or for their corner folds, so all can be made.
    """
    folded = draw(st.booleans()) if folded_over is None else folded_over
    allowance = draw(st.sampled_from([INCH / 4, INCH / 2, INCH * 3 / 8, Fraction(6)]))
    top, sides = draw(_tops(folded))
    table: dict[str, Any] = {
        "format": 1,
        "title": draw(TITLES.map(lambda title: title[:40])),
        "units": draw(st.sampled_from(["in", "mm", "cm"])),
        "top": top,
        "border": {"width": draw(_widths(sides, folded))},
        "seams": {"allowance": written(allowance), "miter": written(allowance)},
        "backing": {"corners": draw(st.sampled_from(["left-on", "trimmed"]))},
    }
    if folded:
        table["construction"] = "folded-over"
    elif draw(st.booleans()):
        table["turn_of_cloth"] = draw(st.sampled_from([0, "1/16 in", "2 mm"]))
    if draw(st.booleans()):
        table["filling"] = draw(st.sampled_from([{}, {"less": 0}, {"less": "1/2 in"}]))
    return table


def projects(*, folded_over: bool | None = None) -> st.SearchStrategy[Project]:
    """Checked projects; every top, construction, unit and border form."""
    return project_tables(folded_over=folded_over).map(lambda table: read(toml_text(table)))


@st.composite
def _tops(draw: st.DrawFn, folded: bool) -> tuple[dict[str, Any], int]:
    """A [top] table and how many sides it has."""
    kinds = ["squares", "panel"] if folded else ["squares", "panel", "outline", "regular"]
    match draw(st.sampled_from(kinds)):
        case "squares":
            key = draw(st.sampled_from(["cut", "finished"]))
            patch = {key: written(draw(lengths(4 * INCH, 12 * INCH)))}
            grid = {"columns": draw(st.integers(3, 9)), "rows": draw(st.integers(3, 9))}
            return {"layout": "squares", "patch": patch, **grid}, 4
        case "panel":
            key = "cut" if folded else draw(st.sampled_from(["cut", "seen"]))
            side = lengths(10 * INCH, 90 * INCH)
            size = {"width": written(draw(side)), "height": written(draw(side))}
            return {"layout": "panel", key: size}, 4
        case "outline":
            points = draw(outlines())
            size = draw(st.sampled_from(["seen", "cut"]))
            corners = [[written(x), written(y)] for x, y in points]
            return {"layout": "outline", "points": corners, "size": size}, len(points)
    sides = draw(st.integers(3, 16))
    length = written(draw(lengths(9 * INCH, 20 * INCH)))
    return {"layout": "outline", "regular": {"sides": sides, "side": length}}, sides


@st.composite
def _widths(draw: st.DrawFn, sides: int, folded: bool) -> str | dict[str, str]:
    """One border, or one for each side; close to each other where corners are obtuse."""
    narrow = draw(lengths(INCH * 3 / 4, INCH * 3 / 2 if folded else 4 * INCH))
    if draw(st.booleans()):
        return written(narrow)
    wide = 2 * narrow if sides == 4 and not folded else narrow + INCH / 16
    each = [draw(lengths(narrow, wide)) for _ in range(sides)]
    return {chr(ord("A") + index): written(width) for index, width in enumerate(each)}


def written(mm: Fraction) -> str:
    """A length as a project file may write it, with its unit, exactly."""
    if (mm / INCH).denominator <= 64:
        return f"{mixed(mm / INCH)} in"
    return f"{mixed(mm)} mm"


def toml_text(table: Mapping[str, Any]) -> str:
    """A table as TOML, each key at the head of the file on a line of its own."""
    return "".join(f"{_text(key)} = {_toml(value)}\n" for key, value in table.items())


def _toml(value: Any) -> str:
    match value:
        case str():
            return _text(value)
        case bool():
            return str(value).lower()
        case Mapping():
            pairs = (f"{_text(key)} = {_toml(each)}" for key, each in value.items())
            return "{ " + ", ".join(pairs) + " }"
        case Sequence():
            return "[" + ", ".join(map(_toml, value)) + "]"
    return repr(value)


def _text(text: str) -> str:
    """A TOML string: as in JSON, and with DEL written as an escape."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


UNITS = st.sampled_from(list(Unit))
