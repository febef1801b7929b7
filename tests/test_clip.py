"""Clipping of convex rings, against shapely."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from cutpaths.geometry.clip import clipped, span_inside
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Motion, Point

AREA_SLACK = 1e-3  # mm², of points that are taken for lying on the edge within 1e-6 mm
LENGTH_SLACK = 1e-6  # mm
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


# On no edge of a window, where a hair decides.
_STEPS = st.integers(-640, 1280).map(lambda eighths: eighths / 8 + 0.03)
_PLACES = st.tuples(_STEPS, _STEPS)


@given(_PLACES, _PLACES, st.sampled_from([WINDOW, regular(6, 50.0), regular(3, 90.0)]))
def test_what_is_left_of_a_segment_is_as_long_as_the_intersection(
    start: Point, end: Point, window: Ring
) -> None:
    """The part inside has the length of shapely's intersection; none where that is empty."""
    span = span_inside(start, end, window)
    found = 0.0 if span is None else (span[1] - span[0]) * math.dist(start, end)
    wanted = LineString([start, end]).intersection(Polygon(window)).length
    assert abs(found - wanted) < LENGTH_SLACK


def test_a_segment_along_an_edge_may_lie_a_little_outside() -> None:
    """Within the slack it is inside, beyond it is not."""
    assert span_inside((0.0, -1e-9), (100.0, -1e-9), WINDOW) is None
    assert span_inside((0.0, -1e-9), (100.0, -1e-9), WINDOW, 1e-6) == (0.0, 1.0)
    assert span_inside((0.0, -1e-3), (100.0, -1e-3), WINDOW, 1e-6) is None
