"""Rigid motions: exact quarters, undone and followed; texts stay readable."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutpaths.shapes import IDENTITY, Anchor, Circle, Motion, Path, Point, Text, shift

NEAR_MM = 1e-9

numbers = st.floats(-1e3, 1e3)
points = st.tuples(numbers, numbers)
motions = st.builds(
    lambda turn, dx, dy, mirrored: Motion(math.cos(turn), math.sin(turn), dx, dy, mirrored),
    st.floats(-math.pi, math.pi),
    numbers,
    numbers,
    st.booleans(),
)


@pytest.mark.parametrize(
    ("count", "mirrored", "expected"),
    [
        (0, False, (3.0, 1.0)),
        (1, False, (-1.0, 3.0)),
        (2, False, (-3.0, -1.0)),
        (3, False, (1.0, -3.0)),
        (-1, False, (1.0, -3.0)),
        (0, True, (-3.0, 1.0)),
        (1, True, (-1.0, -3.0)),
    ],
)
def test_quarter_turns_are_exact(count: int, mirrored: bool, expected: Point) -> None:
    """A quarter turn, mirrored first where asked, moves a point without any rounding."""
    assert Motion.quarters(count, mirrored=mirrored).point((3.0, 1.0)) == expected


def test_a_quarter_turn_reads_as_ninety_degrees() -> None:
    """The turn of a quarter is 90 degrees exactly, as it is written into files."""
    assert [Motion.quarters(n).degrees for n in range(4)] == [0.0, 90.0, 180.0, -90.0]


@given(motions, points)
def test_inverse_undoes_a_motion(motion: Motion, point: Point) -> None:
    """A motion followed by its inverse leaves every point where it was."""
    assert math.dist(motion.inverse().point(motion.point(point)), point) < NEAR_MM


@given(motions, motions, points)
def test_then_is_one_motion_after_the_other(first: Motion, after: Motion, point: Point) -> None:
    """Two motions as one move a point as the two do in turn, mirrors included."""
    assert math.dist(first.then(after).point(point), after.point(first.point(point))) < NEAR_MM


@given(motions, points, points)
def test_a_motion_keeps_distances(motion: Motion, one: Point, other: Point) -> None:
    """A motion neither stretches nor shrinks."""
    moved = math.dist(motion.point(one), motion.point(other))
    assert abs(moved - math.dist(one, other)) < NEAR_MM


@given(motions)
def test_a_moved_ring_stays_counter_clockwise(motion: Motion) -> None:
    """The signed area of a ring keeps its sign, mirrored or not."""
    ring = motion.ring(((0.0, 0.0), (4.0, 0.0), (0.0, 3.0)))
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    assert abs(twice / 2 - 6.0) < NEAR_MM * 1e3


def test_shapes_move_with_their_points() -> None:
    """A path keeps its flag and its order, a circle its radius."""
    path = Path(((0.0, 0.0), (1.0, 0.0), (1.0, 2.0)), closed=True)
    motion = Motion.quarters(1, 10.0, 20.0)
    assert motion.line(path) == Path(((10.0, 20.0), (10.0, 21.0), (8.0, 21.0)), closed=True)
    assert shift(1.0, 2.0).line(Circle((1.0, 1.0), 3.0)) == Circle((2.0, 3.0), 3.0)
    assert IDENTITY.line(path) == path


def _room(text: Text, width: float) -> list[Point]:
    """The corners of the space that a text of a width takes."""
    back = {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    turn = math.radians(text.angle)
    frame = Motion(math.cos(turn), math.sin(turn), *text.at)
    return [frame.point((x - back, y)) for x in (0.0, width) for y in (0.0, text.height)]


@pytest.mark.parametrize("anchor", list(Anchor))
@pytest.mark.parametrize("mirrored", [False, True])
def test_the_room_of_a_text_moves_with_it(anchor: Anchor, mirrored: bool) -> None:
    """A moved text takes the moved room, mirrored too, though its letters never turn over."""
    text = Text(string="A", at=(5.0, 7.0), height=4.0, angle=30.0, anchor=anchor)
    motion = Motion(math.cos(0.4), math.sin(0.4), 3.0, -2.0, mirrored)
    expected = [motion.point(p) for p in _room(text, 20.0)]
    room = _room(motion.text(text), 20.0)
    gaps = [min(math.dist(corner, other) for other in room) for corner in expected]
    assert max(gaps) < NEAR_MM
