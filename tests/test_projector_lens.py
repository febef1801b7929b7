"""Cloth of some thickness under a lens: where a mark must be thrown.

The simulated lens is the judge: it sees the raised mark itself, through no formula of ours.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
import rigs

from cutpaths.errors import InputError
from cutpaths.projector.calibrate import calibrate
from cutpaths.projector.lens import lens_foot, on_cloth, raised
from cutpaths.projector.view import View, apply, inverse, view_of
from cutpaths.shapes import Point
from cutpaths.values import replace


def table_view(name: str) -> View:
    """The true view of a simulated rig."""
    return view_of(1920, 1080, rigs.CAMERAS[name])


def test_two_mm_at_35_degrees_move_a_mark_by_1_4_mm() -> None:
    """2 mm of cloth 35 degrees off the axis: 2 tan 35 = 1.4004 mm (plain trigonometry)."""
    view, height = table_view("straight"), 1800.0
    far = height * math.tan(math.radians(35))
    seen = raised(view, (0.0, 0.0), height, 2.0)
    fallen = view.table(seen.pixel((far - 2 * math.tan(math.radians(35)), 0.0)))
    assert fallen == pytest.approx((far, 0.0), abs=1e-9)
    moved = math.dist(view.table(seen.pixel((far, 0.0))), (far, 0.0))
    assert moved == pytest.approx(2 * math.tan(math.radians(35)) * height / (height - 2), abs=1e-9)
    assert round(moved, 1) == 1.4


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_a_raised_mark_is_hit(name: str) -> None:
    """The ray from the lens through the mark, followed to the table, is where we throw."""
    height = {"straight": 1800, "tilted": 1800, "keystoned": 1500, "off-centre": 2000}[name]
    view, thickness = table_view(name), 3.0
    for mark in ((400.0, 250.0), (-300.0, 120.0), (0.0, 0.0)):
        part = height / (height - thickness)
        behind = mark[0] * part, mark[1] * part  # the lens stands over the origin
        seen = raised(view, (0.0, 0.0), height, thickness)
        assert math.dist(seen.pixel(mark), view.pixel(behind)) < 1e-8


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_the_foot_from_readings_of_the_lens(name: str) -> None:
    """Tape readings from the lens to four crosses give its foot, whatever the lens looks at."""
    height = {"straight": 1800, "tilted": 1800, "keystoned": 1500, "off-centre": 2000}[name]
    truth = rigs.CAMERAS[name]
    plain = rigs.measured(rigs.rig(), truth, rigs.NINE)
    spots = [apply(truth, p) for p in plain.crosses]
    read = [(n, math.hypot(*spots[n - 1], height)) for n in (1, 4, 9, 12)]
    rig = rigs.with_lens(plain, height, read)
    view = calibrate(rig).view
    true_foot = true_place(view, truth, (0.0, 0.0))
    assert math.dist(lens_foot(view, rig), true_foot) < 1e-4


@pytest.mark.parametrize("name", ["straight", "tilted", "keystoned"])
def test_the_foot_of_a_lens_that_looks_through_the_middle(name: str) -> None:
    """Height and keystone alone give the foot where the axis passes the picture's middle."""
    height = {"straight": 1800, "tilted": 1800, "keystoned": 1500}[name]
    truth = rigs.CAMERAS[name]
    rig = rigs.with_lens(rigs.measured(rigs.rig(), truth, rigs.NINE), height)
    view = calibrate(rig).view
    assert math.dist(lens_foot(view, rig), true_place(view, truth, (0.0, 0.0))) < 0.5


def true_place(view: View, truth: tuple[float, ...], place: Point) -> Point:
    """Where a place of the simulated table is on ours: the same pixel."""
    a, b, c, d, e, f, g, h, i = truth
    return view.table(apply(inverse((a, b, c, d, e, f, g, h, i)), place))


def test_thin_cloth_changes_nothing() -> None:
    """Without a thickness, or without a lens, the view of the table is that of the cloth."""
    view = table_view("tilted")
    assert on_cloth(view, rigs.with_lens(rigs.rig(), 1800)) is view
    assert on_cloth(view, replace(rigs.rig(), thickness=Fraction(2))) is view


def test_readings_of_the_lens_that_cannot_be() -> None:
    """Readings that no lens has, and crosses on a line, are one clear line."""
    view = table_view("tilted")
    spots = [view.table(p) for p in rigs.rig().crosses]
    true = {n: math.hypot(*spots[n - 1], 1800) for n in range(1, 13)}
    wrong = rigs.with_lens(rigs.rig(), 1800, [(1, true[1]), (4, true[4] + 300), (12, true[12])])
    crooked = rigs.with_lens(wrong, 1800, [*((n, true[n]) for n in (1, 4, 9)), (12, 2400.0)])
    with pytest.raises(InputError, match=r"^`lens.distances` disagree by \d+ mm: no lens stands"):
        lens_foot(view, crooked)
    line = rigs.with_lens(rigs.rig(), 1800, [(n, true[n]) for n in (1, 2, 3)])
    with pytest.raises(InputError, match=r"^`lens.distances` must be to three crosses that are"):
        lens_foot(view, line)
