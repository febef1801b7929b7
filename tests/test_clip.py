"""Clipping of convex rings, against shapely."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from cutpaths.geometry.clip import clipped
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Motion

AREA_SLACK = 1e-3  # mm², of points that are taken for lying on the edge within 1e-6 mm
WINDOW = rectangle(100.0, 60.0)


@st.composite
def _rings(draw: st.DrawFn) -> Ring:
    """A regular polygon somewhere about the window."""
    turn = draw(st.floats(0.0, math.tau))
    place = Motion(
        math.cos(turn), math.sin(turn), draw(st.floats(-80, 160)), draw(st.floats(-80, 120))
    )
    return place.ring(regular(draw(st.integers(3, 8)), draw(st.floats(1.0, 90.0))))


@given(_rings(), st.sampled_from([WINDOW, regular(6, 50.0), regular(3, 90.0)]))
def test_what_is_left_is_the_intersection(ring: Ring, window: Ring) -> None:
    """The same area as shapely's intersection, counter-clockwise, inside both."""
    found, wanted = clipped(ring, window), Polygon(ring).intersection(Polygon(window)).area
    area = Polygon(found).area if len(found) > 2 else 0.0
    assert abs(area - wanted) < AREA_SLACK
    if wanted > 1.0:
        assert Polygon(found).exterior.is_ccw
        assert Polygon(window).buffer(1e-5).covers(Polygon(found))


def test_what_lies_inside_stays_as_it_is() -> None:
    """Also where it touches the window's edge, or misses it by the rounding of floats."""
    for low in (0.0, -1e-9):
        ring = ((low, low), (30.0, low), (30.0, 60.0), (low, 60.0 - low))
        assert clipped(ring, WINDOW) == ring


def test_what_lies_outside_is_nothing() -> None:
    """Beside the window, and along its edge from outside."""
    assert clipped(((101.0, 0.0), (110.0, 0.0), (110.0, 9.0)), WINDOW) == ()
    assert clipped(((100.0, 0.0), (110.0, 0.0), (100.0, 9.0)), WINDOW) == ()
