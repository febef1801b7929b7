"""Calibration: true rigs are found, what is misread is named, and errors are as predicted.

Values from outside: four point pairs and their homography as printed in ImageMagick's examples,
"Distorting Images"; scipy judges every least-squares fit.
"""

from __future__ import annotations

import json
import math
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
import rigs
from scipy.optimize import least_squares

from cutpaths.projector.calibrate import calibrate, first_readings
from cutpaths.projector.fit import fit, readings_of, view_from
from cutpaths.projector.homography import through
from cutpaths.projector.rig import Rig
from cutpaths.projector.view import Matrix, View, apply

CASES = Path(__file__).parent.parent / "fixtures" / "rigs" / "cases.json"
PRINTED = (
    ((7.0, 40.0), (4.0, 30.0)),
    ((4.0, 124.0), (4.0, 123.0)),
    ((85.0, 122.0), (100.0, 123.0)),
    ((85.0, 2.0), (100.0, 30.0)),
)


def off_by(view: View, truth: Matrix, rig: Rig) -> float:
    """The largest error of a distance between two crosses, in mm."""
    ours, true = [view.table(p) for p in rig.crosses], [apply(truth, p) for p in rig.crosses]
    return max(
        abs(math.dist(ours[i], ours[j]) - math.dist(true[i], true[j]))
        for i, j in combinations(range(len(ours)), 2)
    )


def test_the_homography_of_four_printed_pairs() -> None:
    """It is the one that ImageMagick's examples print, to the last digit there."""
    found = through(PRINTED)
    printed = (1.945622, 0.071451, -12.187838, 0.799032, 1.276214, -24.470275, 0.006258, 0.000715)
    assert [round(value, 6) for value in found] == [*printed, 1.0]
    for start, end in PRINTED:
        assert apply(found, start) == pytest.approx(end, abs=1e-9)


def test_more_pairs_than_four_agree_with_a_known_homography() -> None:
    """Twelve exact pairs give the homography that made them."""
    truth = rigs.CAMERAS["off-centre"]
    points = rigs.rig().crosses
    found = through([(p, apply(truth, p)) for p in points])
    assert max(math.dist(apply(found, p), apply(truth, p)) for p in points) < 1e-8


@pytest.mark.parametrize("side", [0, 1])
def test_three_points_of_four_on_a_line_are_refused(side: int) -> None:
    """No homography takes three points on a line to three that are not."""
    line = ((0.0, 0.0), (50.0, 50.0), (100.0, 100.0), (100.0, 0.0))
    apart = ((0.0, 0.0), (90.0, 10.0), (100.0, 100.0), (10.0, 80.0))
    pairs = (
        list(zip(line, apart, strict=True)) if side == 0 else list(zip(apart, line, strict=True))
    )
    with pytest.raises(ValueError, match=r"^no homography: points 1, 2, 3 are on one line$"):
        through(pairs)


def test_three_pairs_are_too_few() -> None:
    """Four points determine a homography, fewer do not."""
    with pytest.raises(ValueError, match=r"^a homography needs four points, got 3$"):
        through(PRINTED[:3])


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
@pytest.mark.parametrize("pairs", [rigs.SIX, rigs.NINE, (*rigs.SIDES, (1, 12))], ids=len)
def test_exact_readings_give_the_true_picture(
    name: str, pairs: tuple[tuple[int, int], ...]
) -> None:
    """Every distance between crosses comes out right to a millionth of a mm, whatever the rig."""
    truth = rigs.CAMERAS[name]
    rig = rigs.measured(rigs.rig(), truth, pairs)
    assert off_by(calibrate(rig).view, truth, rig) < 1e-6


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_crosses_on_a_mat_give_the_true_picture(name: str) -> None:
    """Four crosses read off a mat that lies askew are enough."""
    truth = rigs.CAMERAS[name]
    rig = rigs.on_mat(rigs.rig(), truth, (1, 4, 12, 9))
    assert off_by(calibrate(rig).view, truth, rig) < 1e-6


def test_tape_and_mat_together() -> None:
    """Readings of both kinds make one fit, with what is left over as a check."""
    truth = rigs.CAMERAS["tilted"]
    rig = rigs.on_mat(rigs.measured(rigs.rig(), truth, rigs.SIX), truth, (6, 7, 11))
    found = calibrate(rig)
    assert off_by(found.view, truth, rig) < 1e-6
    assert found.spare == 6 + 2 * 3 - 8


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_scipy_finds_no_better_fit(name: str) -> None:
    """From our numbers and from its own start, scipy's least squares ends where ours did."""
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS[name], rigs.NINE, noise=1.5, seed=4)
    readings = readings_of(rig)
    found = fit(readings)

    def rest(numbers: np.ndarray) -> np.ndarray:
        a, b, e, g, h = numbers
        x, y = readings.crosses[:, 0], readings.crosses[:, 1]
        depth = g * x + h * y + 1
        spots = np.stack([(a * x + b * y) / depth, e * y / depth], axis=1)
        across = spots[readings.pairs[:, 0]] - spots[readings.pairs[:, 1]]
        return np.asarray(np.hypot(across[:, 0], across[:, 1]) - readings.lengths)

    judge = least_squares(rest, [1.0, 0.0, 1.0, 0.0, 0.0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert np.abs(judge.x - found.numbers).max() < 1e-7
    assert found.squares <= 2 * judge.cost * (1 + 1e-9)


@pytest.mark.parametrize("name", ["keystoned", "off-centre"])
def test_errors_are_within_the_predicted_band(name: str) -> None:
    """Over 200 taped calibrations the true errors of the picture are as large as predicted.

    The root mean square over the picture, each laid on the truth where it fits best, comes within
    a seventh of the prediction; its own scatter over so many runs is a twentieth.
    """
    truth = rigs.CAMERAS[name]
    exact = calibrate(rigs.measured(rigs.rig(), truth, rigs.NINE))
    grid = [(1920 * i / 8, 1080 * j / 4) for j in range(5) for i in range(9)]
    true = np.array([exact.view.table(p) for p in grid])
    squares = []
    for seed in range(200):
        rig = rigs.measured(rigs.rig(), truth, rigs.NINE, noise=1.0, seed=seed)
        readings = readings_of(rig)
        view = view_from(fit(readings).numbers, readings.unit, rig)
        squares.append(_laid(np.array([view.table(p) for p in grid]), true))
    found = np.sqrt(np.mean(squares, axis=0))
    predicted = np.array(exact.errors).ravel()
    assert np.sqrt((found**2).mean()) == pytest.approx(np.sqrt((predicted**2).mean()), rel=1 / 7)
    assert np.abs(found / predicted - 1).max() < 0.25


def _laid(ours: np.ndarray, true: np.ndarray) -> np.ndarray:
    """Squared distances once one set is shifted and turned onto the other."""
    p, q = ours - ours.mean(axis=0), true - true.mean(axis=0)
    turn = math.atan2(float((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum()), float((p * q).sum()))
    cos, sin = math.cos(turn), math.sin(turn)
    left = p @ np.array([[cos, sin], [-sin, cos]]) - q
    return np.asarray((left**2).sum(axis=1))


def test_what_to_measure_first() -> None:
    """The sides, the diagonals, then what helps most; each further reading lowers the error."""
    plain = rigs.rig()
    order = first_readings(plain, 9)
    assert order[:6] == ((1, 4), (4, 12), (9, 12), (1, 9), (1, 12), (4, 9))
    truth = rigs.CAMERAS["tilted"]
    errors = [calibrate(rigs.measured(plain, truth, order[:n])).usual for n in range(5, 10)]
    assert errors == sorted(errors, reverse=True)
    assert errors[-1] < 0.8 * errors[0]


def test_what_to_measure_next_is_the_best_of_all() -> None:
    """No other distance would make the picture more certain than the one that is named."""
    truth, plain = rigs.CAMERAS["keystoned"], rigs.rig()
    found = calibrate(rigs.measured(plain, truth, rigs.SIX))
    usual = {
        pair: calibrate(rigs.measured(plain, truth, (*rigs.SIX, pair))).usual
        for pair in combinations(range(1, 13), 2)
        if pair not in rigs.SIX and pair[::-1] not in rigs.SIX
    }
    assert usual[found.following] == pytest.approx(min(usual.values()), rel=1e-9)


def test_shared_cases() -> None:
    """The cases that the page's script is tested with come out the same here, to 1e-6 px and mm.

    Their pixels, and what each reading is off by, were found by scipy's least squares from the
    readings alone.
    """
    for case in json.loads(CASES.read_text()):
        rig = case_rig(case)
        readings = readings_of(rig)
        view = view_from(fit(readings).numbers, readings.unit, rig)
        for place, pixel in case["places"]:
            assert math.dist(view.pixel(tuple(place)), pixel) < 1e-6, case["name"]
        off = [residual.off for residual in calibrate(rig).residuals]
        assert off == pytest.approx(case["off"], abs=1e-6), case["name"]


def case_rig(case: dict[str, object]) -> Rig:
    """The rig of a shared case."""
    from fractions import Fraction

    from cutpaths.projector.rig import Distance, Position

    assert isinstance(case["distances"], list)
    assert isinstance(case["positions"], list)
    return rigs.rig(
        distances=tuple(Distance(i, j, Fraction(str(mm))) for i, j, mm in case["distances"]),
        positions=tuple(
            Position(n, Fraction(str(x)), Fraction(str(y))) for n, x, y in case["positions"]
        ),
    )
