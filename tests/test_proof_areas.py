"""Areas as the proof measures them, against exact sums and closed forms made here."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from builders import Sewn, panel, project, regular
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_strategies import sixteenths
from shapely import Polygon

from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.proof.borders import finished_ring
from cutpaths.proof.paper import paper_of_turned
from cutpaths.proof.tolerances import area_slack
from cutpaths.proof.waste import found_waste, untrimmed

Exact = tuple[Fraction, Fraction]


def _area(ring: tuple[Exact, ...]) -> Fraction:
    """Exact area by the sum of cross products (trapezoid formula)."""
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return sum((a[0] * b[1] - a[1] * b[0] for a, b in pairs), Fraction(0)) / 2


def _rectangle(width: Fraction, height: Fraction) -> tuple[Exact, ...]:
    zero = Fraction(0)
    return (zero, zero), (width, zero), (width, height), (zero, height)


@settings(max_examples=25)
@given(sixteenths(12, 60), sixteenths(12, 60), st.tuples(*[sixteenths(1 / 2, 3)] * 4))
def test_rectangles_are_exact(
    width: Fraction, height: Fraction, borders: tuple[Fraction, ...]
) -> None:
    """Finished outline, untrimmed backing and waste have the areas of exact fractions."""
    foot, right, head, left = borders
    paper = paper_of_turned(build(project(panel(width, height), borders)))
    finished = _rectangle(width + left + right, height + foot + head)
    assert _close(Polygon(finished_ring(paper)), _area(finished))
    backing = _rectangle(
        width + 2 * (left + right) + Fraction(1, 2), height + 2 * (foot + head) + Fraction(1, 2)
    )
    assert _close(Polygon(paper.backing.outline), _area(backing))
    assert untrimmed(paper).area == pytest.approx(Polygon(paper.backing.outline).area)


def _close(found: Polygon, exact: Fraction) -> bool:
    return abs(found.area - float(exact * INCH**2)) <= area_slack(found.length)


@settings(max_examples=25)
@given(sixteenths(1 / 2, 3), sixteenths(1 / 8, 1 / 2))
def test_waste_of_a_right_angle(border: Fraction, trim: Fraction) -> None:
    """Its legs are 2 (b + s) - t sqrt 2 with equal borders (own derivation)."""
    kit = build(project(panel(30, 30), (border,) * 4, Sewn(trim=min(trim, border))))
    waste = found_waste(paper_of_turned(kit))["BC"]
    leg = 2 * (float(border) + 0.25) - float(min(trim, border)) * math.sqrt(2)
    assert waste.area == pytest.approx(leg**2 / 2 * 25.4**2, rel=1e-12)


@pytest.mark.parametrize("sides", range(3, 13))
def test_regular_polygons(sides: int) -> None:
    """A regular polygon of inradius r has the area n r^2 tan(pi / n); offsets add to r."""
    kit = build(project(regular(sides, 9), (Fraction(3, 4),) * sides))
    paper = paper_of_turned(kit)
    inradius = 9 / (2 * math.tan(math.pi / sides))
    for ring, out in (
        (paper.seam, 0.0),
        (paper.top.outline, 0.25),
        (finished_ring(paper), 0.75),
        (paper.backing.outline, 1.75),
    ):
        expected = sides * (inradius + out) ** 2 * math.tan(math.pi / sides) * 25.4**2
        assert Polygon(ring).area == pytest.approx(expected, rel=1e-12)
