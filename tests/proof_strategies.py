"""Hypothesis strategies for the proof: blankets of every kind, many of them hard to make."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from builders import ANY_OPENING, Inches, Sewn, outline, panel, project, regular, squares
from hypothesis import strategies as st

from cutpaths.lengths import INCH, Unit
from cutpaths.project.measured import Measured
from cutpaths.project.model import BackingCorners, Construction, Opening, Project, Top

SHARPEST, FLATTEST = 60, 170  # degrees


def sixteenths(least: float, most: float) -> st.SearchStrategy[Fraction]:
    """Inches on the marks of a ruler."""
    return st.integers(math.ceil(least * 16), math.floor(most * 16)).map(
        lambda marks: Fraction(marks, 16)
    )


@st.composite
def convex_points(draw: st.DrawFn) -> tuple[tuple[Inches, Inches], ...]:
    """Corners of a convex outline, 60 to 170 degrees each, on an ellipse."""
    across, down = draw(st.integers(10, 40)), draw(st.integers(10, 40))
    turns = st.lists(st.integers(0, 71), min_size=3, max_size=9, unique=True).map(sorted)
    points = draw(turns.map(lambda found: _on_ellipse(found, across, down)).filter(_is_makeable))
    return tuple(points)


def _on_ellipse(turns: list[int], across: int, down: int) -> list[tuple[Inches, Inches]]:
    angles = [turn * math.pi / 36 for turn in turns]
    return [
        (Fraction(round(across * math.cos(a) * 8), 8), Fraction(round(down * math.sin(a) * 8), 8))
        for a in angles
    ]


def _is_makeable(points: list[tuple[Inches, Inches]]) -> bool:
    """Whether each corner is one that a project file may have."""
    for i, (x, y) in enumerate(points):
        (x0, y0), (x1, y1) = points[i - 1], points[(i + 1) % len(points)]
        u, v = (float(x1 - x), float(y1 - y)), (float(x0 - x), float(y0 - y))
        turn = math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1])
        if not SHARPEST <= math.degrees(turn) <= FLATTEST:
            return False
    return True


@st.composite
def ways_of_sewing(draw: st.DrawFn) -> Sewn:
    """Allowances, trims and turns of cloth from narrow to wide."""
    allowance = draw(sixteenths(1 / 8, 5 / 8))
    return Sewn(
        allowance=allowance,
        basting=allowance * draw(st.sampled_from([Fraction(1, 4), Fraction(1, 2)])),
        trim=draw(sixteenths(1 / 8, 3 / 4)),
        turn=draw(st.sampled_from([Fraction(0), Fraction(1, 8), Fraction(1, 5)])),
        opening=ANY_OPENING,
        corners=draw(st.sampled_from(list(BackingCorners))),
    )


@st.composite
def rectangles(draw: st.DrawFn) -> Top:
    """Squares or a panel, some of them narrow."""
    if draw(st.booleans()):
        size = draw(sixteenths(1, 6))
        return squares(draw(st.integers(1, 8)), draw(st.integers(1, 8)), size)
    return panel(draw(sixteenths(3, 60)), draw(sixteenths(3, 60)))


@st.composite
def borders(draw: st.DrawFn, sides: int, sewn: Sewn) -> tuple[Inches, ...]:
    """Borders as narrow as they may be or wider, alike or not."""
    least = max(sewn.allowance + Fraction(sewn.turn) / 2, sewn.trim)
    more = sixteenths(0, draw(st.sampled_from([1, 4])))
    if draw(st.booleans()):
        return (least + draw(more),) * sides
    return tuple(least + draw(more) for _ in range(sides))


@st.composite
def turned_rectangles(draw: st.DrawFn) -> Project:
    """Turned rectangles; the opening given, the top measured, or neither."""
    sewn, top = draw(ways_of_sewing()), draw(rectangles())
    if draw(st.booleans()):
        asked = Opening(
            length=draw(sixteenths(1, 9)) * INCH,
            side=draw(st.integers(0, 3)),
            start=draw(st.none() | sixteenths(2, 9).map(lambda inches: inches * INCH)),
        )
        sewn = replace(sewn, opening=asked)
    found = project(top, draw(borders(4, sewn)), sewn)
    return draw(_measured(found))


@st.composite
def turned_outlines(draw: st.DrawFn) -> Project:
    """Turned polygons, regular or not, by their seam or by their raw edge."""
    sewn = draw(ways_of_sewing())
    if draw(st.booleans()):
        sides = draw(st.integers(3, 12))
        return project(regular(sides, draw(sixteenths(4, 20))), draw(borders(sides, sewn)), sewn)
    points = draw(convex_points())
    outset = draw(st.sampled_from([Fraction(0), Fraction(sewn.allowance)]))
    return project(outline(points, outset), draw(borders(len(points), sewn)), sewn)


@st.composite
def folded_rectangles(draw: st.DrawFn) -> Project:
    """Folded-over rectangles, their tips within what the borders hide."""
    sewn = draw(ways_of_sewing())
    sewn = replace(sewn, construction=Construction.FOLDED_OVER, turn=Fraction(0))
    widths = draw(borders(4, sewn))
    hidden = min(
        2 * a * b / math.hypot(a, b) for a, b in zip(widths, widths[1:] + widths[:1], strict=True)
    )
    trim = min(Fraction(sewn.trim), Fraction(math.floor(hidden * 16), 16))
    return draw(_measured(project(draw(rectangles()), widths, replace(sewn, trim=trim))))


@st.composite
def _measured(draw: st.DrawFn, found: Project) -> Project:
    """A rectangle that was measured once it was sewn, or not; inches or metric."""
    unit = draw(st.sampled_from([Unit.INCH, Unit.CENTIMETRE]))
    found = replace(found, ruler=replace(found.ruler, unit=unit))
    size = found.finished_top
    if size is None or draw(st.booleans()):
        return found
    off = sixteenths(-1 / 4, 1 / 4)
    width, height = (mm + 2 * found.allowance + draw(off) * INCH for mm in size)
    return replace(found, measured=Measured(width=width, height=height))
