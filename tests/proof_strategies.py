"""Hypothesis strategies for the proof: blankets of every kind, many of them hard to make.

Nearly all can be made: an opening is asked for where the usual one has no room, and borders at
corners that are not right are nearly alike, so that what is drawn is proved and not refused.
"""

from __future__ import annotations

import math
from fractions import Fraction

from builders import ANY_OPENING, Inches, Sewn, outline, panel, project, regular, squares
from hypothesis import assume
from hypothesis import strategies as st

from cutpaths.lengths import INCH, Unit
from cutpaths.project.measured import Measured
from cutpaths.project.model import (
    BackingCorners,
    Construction,
    Filling,
    Opening,
    Project,
    Top,
)
from cutpaths.values import replace

SHARPEST, FLATTEST = 60, 170  # degrees
SEWN = 4  # inches of a side beside an opening, 2 at each dot
USUAL = Fraction(17, 2)  # inches of a side that has room for the shortest usual opening, and more
OFF = Fraction(1, 4)  # inches by which a measured top may be off on either axis


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
def rectangles(draw: st.DrawFn, across: float, down: float) -> Top:
    """Squares or a panel, some of them narrow: at least so many inches across and down."""
    if draw(st.booleans()):
        size = draw(sixteenths(1, 6))
        columns, rows = (draw(st.integers(math.ceil(least / size), 8)) for least in (across, down))
        return squares(columns, rows, size)
    return panel(draw(sixteenths(across, 60)), draw(sixteenths(down, 60)))


@st.composite
def openings(draw: st.DrawFn, sides: tuple[float, ...], usual: int) -> Opening | None:
    """An opening that has room; often one that is left to be chosen, if its usual side has room.

    Args:
        draw: draws from other strategies.
        sides: lengths from dot to dot at least, in inches; the longest has room for an inch.
        usual: index of the side that is chosen.
    """
    if sides[usual] >= USUAL and draw(st.booleans()):
        return ANY_OPENING
    side = draw(st.sampled_from([i for i, length in enumerate(sides) if length >= SEWN + 1]))
    length = draw(sixteenths(1, min(9.0, sides[side] - SEWN)))
    places = sixteenths(2, sides[side] - 2 - float(length))
    start = draw(st.none() | places.map(lambda inches: inches * INCH))
    return Opening(length=length * INCH, side=side, start=start)


@st.composite
def borders(
    draw: st.DrawFn, sides: int, sewn: Sewn, *, most: float = 5.5, unlike: float = 4.0
) -> tuple[Inches, ...]:
    """Borders as narrow as they may be or wider, up to so many inches, alike or not.

    Args:
        draw: draws from other strategies.
        sides: how many.
        sewn: what lies under them.
        most: how wide they may be.
        unlike: how far they may differ.
    """
    least = max(sewn.allowance + Fraction(sewn.turn) / 2, Fraction(sewn.trim))
    room = min(draw(st.sampled_from([1.0, 4.0])), most - float(least))
    narrowest = least + draw(sixteenths(0, room))
    if draw(st.booleans()):
        return (narrowest,) * sides
    more = sixteenths(0, min(unlike, most - float(narrowest)))
    return tuple(narrowest + draw(more) for _ in range(sides))


@st.composite
def turned_rectangles(draw: st.DrawFn) -> Project:
    """Turned rectangles; the opening given, the top measured, a filling in it, or none of these."""
    room, narrow = SEWN + 1 + 2 * OFF, Fraction(1)
    least = draw(st.sampled_from([(room, narrow), (narrow, room)]))
    sewn, top = draw(ways_of_sewing()), draw(rectangles(*map(float, least)))
    found = project(top, draw(borders(4, sewn)), sewn)
    across, down = (float(mm / INCH - 2 * OFF) for mm in found.finished_top or ())
    opening = draw(openings((across, down, across, down), 2))
    return draw(_filled(draw(_measured(replace(found, opening=opening)))))


@st.composite
def turned_outlines(draw: st.DrawFn) -> Project:
    """Turned polygons, regular or not, by their seam or by their raw edge; filled or not."""
    sewn = draw(ways_of_sewing())
    top: Top
    if draw(st.booleans()):
        side = draw(sixteenths(SEWN + 1, 20))
        lengths = (float(side),) * draw(st.integers(3, 12))
        top = regular(len(lengths), side)
    else:
        points = draw(convex_points())
        outset = draw(st.sampled_from([Fraction(0), Fraction(sewn.allowance)]))
        # Between the sharpest corners a side loses most where the seam lies inside the points.
        lost = 2 * float(outset) / math.tan(math.radians(SHARPEST / 2))
        ends = zip(points, points[1:] + points[:1], strict=True)
        lengths = tuple(math.hypot(x1 - x, y1 - y) - lost for (x, y), (x1, y1) in ends)
        assume(max(lengths) >= SEWN + 1)
        top = outline(points, outset)
    unlike = draw(st.sampled_from([1 / 8, 1 / 4, 1 / 2]))
    opening = draw(openings(lengths, 1))
    widths = draw(borders(len(lengths), sewn, unlike=unlike))
    return draw(_filled(project(top, widths, replace(sewn, opening=opening))))


@st.composite
def folded_rectangles(draw: st.DrawFn) -> Project:
    """Folded-over rectangles, their tips within what the borders hide."""
    sewn = draw(ways_of_sewing())
    sewn = replace(sewn, construction=Construction.FOLDED_OVER, turn=Fraction(0))
    top = draw(rectangles(3.0, 3.0))
    raw = project(top, (1,) * 4, sewn).finished_top
    # At both its ends a corner fold takes twice the width of the border there off a side.
    shortest = float(min(raw or ()) / INCH + 2 * sewn.allowance - OFF)
    widths = draw(borders(4, sewn, most=shortest / 4))
    hidden = min(
        2 * a * b / math.hypot(a, b) for a, b in zip(widths, widths[1:] + widths[:1], strict=True)
    )
    trim = min(Fraction(sewn.trim), Fraction(math.floor(hidden * 16), 16))
    found = draw(_measured(project(top, widths, replace(sewn, trim=trim))))
    return draw(_filled(found))


@st.composite
def _filled(draw: st.DrawFn, found: Project) -> Project:
    """A blanket with a filling, or without: it ends under the narrowest border or in the fold."""
    less = draw(sixteenths(0, float(min(found.borders) / INCH) - 1 / 16))
    return draw(st.sampled_from([found, replace(found, filling=Filling("sand", less * INCH))]))


@st.composite
def _measured(draw: st.DrawFn, found: Project) -> Project:
    """A rectangle that was measured once it was sewn, or not; inches or metric."""
    unit = draw(st.sampled_from([Unit.INCH, Unit.CENTIMETRE]))
    found = replace(found, ruler=replace(found.ruler, unit=unit))
    size = found.finished_top
    if size is None or draw(st.booleans()):
        return found
    off = sixteenths(-float(OFF), float(OFF))
    width, height = (mm + 2 * found.allowance + draw(off) * INCH for mm in size)
    return replace(found, measured=Measured(width=width, height=height))
