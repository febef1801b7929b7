"""Kits that tests spoil, and what a spoiled kit must fail."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache

from builders import Sewn, folded_over, grid, on_point, outline, panel, project, squares
from damage import Damage

from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project.model import Filling, Opening, Project
from cutpaths.values import Value, replace

OPENING = Opening(length=8 * INCH, side=1, start=3 * INCH)


@cache
def checkers() -> Kit:
    """6 x 7 squares, four borders; its opening is given."""
    borders = 2, Fraction(3, 2), 1, Fraction(5, 2)
    return build(project(squares(6, 7), borders, Sewn(opening=OPENING)))


@cache
def square_panel() -> Kit:
    """A panel that is alike from all sides."""
    return build(project(panel(20, 20), (2, 2, 2, 2)))


@cache
def hexagon_like() -> Kit:
    """Six sides, given by points; waste of four sides."""
    points = (10, 0), (25, 0), (33, 13), (24, 26), (9, 26), (2, 13)
    return build(project(outline(points), (2,) * 6))


@cache
def paired() -> Kit:
    """Squares split into triangles of two fabrics, which are sewn in pairs before cutting."""
    top = grid(6, ["sand/sea sea\\sand", "sea\\sand sand/sea", "sand sea"])
    return build(replace(project(top, (2, 2, 2, 2)), pairs=True))


@cache
def setting() -> Kit:
    """Squares on point, a print with an up among them, set in plain triangles."""
    chart = ("sand", "sea", "sand"), ("sea", "sand"), ("sand", "sea", "sand")
    return build(project(on_point(4, chart), (2, 2, 2, 2)))


@cache
def folded() -> Kit:
    """The same squares folded over, with two widths of border."""
    borders = 2, Fraction(3, 2), 2, Fraction(3, 2)
    return build(project(squares(6, 7), borders, folded_over()))


@cache
def narrow_folds() -> Kit:
    """Folded over with borders so narrow that a card has no room for slots, or for one only."""
    eighth = Fraction(1, 8)
    sewn = Sewn(allowance=Fraction(1, 16), basting=Fraction(1, 32), trim=eighth)
    return build(project(panel(6, 8), (eighth, eighth, 2 * eighth, eighth), folded_over(sewn)))


@cache
def filled() -> Kit:
    """Thick cloth in four borders with a filling."""
    borders = 2, Fraction(3, 2), 1, Fraction(5, 2)
    return build(_with_filling(project(panel(20, 24), borders, Sewn(turn=Fraction(1, 8)))))


@cache
def filled_and_folded() -> Kit:
    """A folded-over blanket with a filling."""
    borders = 2, Fraction(3, 2), 2, Fraction(3, 2)
    return build(_with_filling(project(squares(6, 7), borders, folded_over())))


def _with_filling(plain: Project) -> Project:
    return replace(plain, filling=Filling("sand", INCH / 8))


@cache
def tips_too_long() -> Kit:
    """Folded over with a tip of 1.6 borders, which no project file may ask for."""
    return build(project(squares(6, 7), (2, 2, 2, 2), folded_over(Sewn(trim=Fraction(16, 5)))))


class Case(Value):
    """A kit, what is spoiled, the check meant to find it, and what else must fail with it."""

    name: str
    kit: Callable[[], Kit]
    damage: Damage
    check: str
    others: str = ""
