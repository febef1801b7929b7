"""Placing the turning opening; lengths in inches, turned to mm for the function."""

from __future__ import annotations

import pytest

from cutpaths.geometry.opening import USUAL_INCH, longest, place

INCH = 25.4


def _placed(
    side: float,
    seams: tuple[float, ...] = (),
    length: float | None = None,
    start: float | None = None,
) -> tuple[float, float, bool] | None:
    found = place(
        0,
        side * INCH,
        [seam * INCH for seam in seams],
        lengths=USUAL_INCH if length is None else (length * INCH,),
        step=INCH / 8,
        start=None if start is None else start * INCH,
    )
    if found is None:
        return None
    return round(found.start / INCH, 6), round(found.end / INCH, 6), found.clear_of_seams


@pytest.mark.parametrize(
    ("side", "expected"),
    [
        # Between center 20 and the far dot's clearance 38: the middle of that stretch.
        pytest.param(40, (25.0, 33.0, True), id="beyond the center"),
        # From center 10 to 18 there are just 8.
        pytest.param(20, (10.0, 18.0, True), id="just beyond the center"),
        # 18 has 9 - 2 = 7 beyond its center: the usual 8 lies in the middle instead.
        pytest.param(18, (5.0, 13.0, True), id="centered"),
        # 9 has 5 between its two clearances.
        pytest.param(9, (2.0, 7.0, True), id="shorter than usual"),
        pytest.param(7.9, None, id="no room for the shortest"),
    ],
)
def test_the_default_takes_the_longest_that_fits(
    side: float, expected: tuple[float, float, bool] | None
) -> None:
    """8 in where it fits, then 7, 6, 5, 4; beyond the center mark where it fits there."""
    assert _placed(side) == expected


def test_ends_keep_clear_of_patch_seams() -> None:
    """An end too near to a seam moves by just what the half inch asks; ties go to the center."""
    assert _placed(40, seams=(24.75,)) == (25.25, 33.25, True)
    assert _placed(40, seams=(25.0,)) == (24.5, 32.5, True)


def test_the_place_that_is_chosen_falls_on_the_ruler() -> None:
    """From 20.1 to 30.2 the middle is 25.15, between two eighths: the nearer one is taken."""
    assert _placed(40.2) == (25.125, 33.125, True)
    # What a person asks for stays where it is asked for.
    assert _placed(40.2, length=8, start=25.06) == (25.06, 33.06, True)


def test_seams_too_close_to_keep_clear_of() -> None:
    """With a seam every half inch no end is clear: the wish stays, and it says so."""
    seams = tuple(n / 2 for n in range(1, 80))
    assert _placed(40, seams=seams) == (25.0, 33.0, False)


def test_what_is_asked_for_is_taken() -> None:
    """A length and a start that fit are used as they are."""
    assert _placed(40, length=10, start=2) == (2.0, 12.0, True)
    assert _placed(40, length=36, start=2) == (2.0, 38.0, True)


@pytest.mark.parametrize(
    ("length", "start"), [(37.0, None), (10.0, 1.9), (10.0, 28.1), (36.1, 2.0)]
)
def test_what_does_not_fit_is_refused(length: float, start: float | None) -> None:
    """An opening that comes nearer than 2 in to a dot is not placed, and not shortened."""
    assert _placed(40, length=length, start=start) is None


def test_longest_leaves_two_inches_at_each_dot() -> None:
    """The longest opening of a side is 4 in shorter than the side."""
    assert longest(40 * INCH) == pytest.approx(36 * INCH)
