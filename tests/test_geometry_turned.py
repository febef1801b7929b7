"""The turned construction from coordinates; the proof judges it more widely."""

from __future__ import annotations

import math

import pytest

from cutpaths.errors import InputError
from cutpaths.geometry.blanket import Blanket, CornerType, Layers, sewing_order
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import Ring, distance, signed_area
from cutpaths.geometry.turned import lay_out

INCH = 25.4


def _laid(
    seam: Ring,
    borders: tuple[float, ...],
    *,
    allowance: float = 0.25,
    trim: float = 0.25,
    trimmed: bool = False,
) -> Blanket:
    """Lays out a blanket given in inches."""
    sides = len(seam)
    return lay_out(
        Layers(
            seam=tuple((x * INCH, y * INCH) for x, y in seam),
            allowance=allowance * INCH,
            borders=tuple(border * INCH for border in borders),
            equal_corners=tuple(borders[i - 1] == borders[i] for i in range(sides)),
            trim=trim * INCH,
            basting=INCH / 8,
            edge_seams=((),) * sides,
            opening=None,
            corners_trimmed=trimmed,
        )
    )


def _inches(point: tuple[float, float]) -> tuple[float, float]:
    return round(point[0] / INCH, 6), round(point[1] / INCH, 6)


def test_rectangle_with_equal_borders() -> None:
    """Dots at (2b + s, s), fold point at (b + s, b + s), from the backing's corner."""
    corner = _laid(rectangle(29.5, 29.5), (2.5,) * 4).corners[0]
    assert _inches(corner.backing_point) == (-5.25, -5.25)
    first, second = (_inches(place) for place in corner.miter)
    assert first == (-5.0, 0.0)
    assert second == (0.0, -5.0)
    assert _inches(corner.fold_point) == (-2.5, -2.5)
    assert corner.kind is CornerType.RIGHT_EQUAL


def test_trim_line_of_equal_borders() -> None:
    """It is the line x + y = 2(b + s) - t sqrt 2 from the corner, and the waste a triangle."""
    corner = _laid(rectangle(29.5, 29.5), (2.5,) * 4).corners[0]
    reach = 2 * 2.75 - 0.25 * math.sqrt(2)
    for x, y in corner.trim:
        assert (x + y) / INCH + 2 * 5.25 == pytest.approx(reach, abs=1e-9)
    assert len(corner.waste) == 3
    assert signed_area(corner.waste) / INCH**2 == pytest.approx(reach**2 / 2, abs=1e-9)


def test_unequal_borders_at_a_right_angle() -> None:
    """Dots still meet the fold at equal lengths, the waste is still a triangle."""
    corner = _laid(rectangle(30, 30), (1, 2, 3, 1.5)).corners[2]
    lengths = [distance(place, corner.fold_point) for place in corner.miter]
    assert lengths[0] == pytest.approx(lengths[1], abs=1e-9)
    assert corner.kind is CornerType.RIGHT_UNEQUAL
    assert len(corner.waste) == 3


@pytest.mark.parametrize("sides", [3, 5, 6, 8, 12])
def test_miter_meets_fold_at_180_less_the_corner(sides: int) -> None:
    """On a regular polygon the stitching line stands at 180 - corner degrees to the fold."""
    corner = _laid(regular(sides, 9), (1.5,) * sides).corners[0]
    (dot_x, dot_y), (fold_x, fold_y) = corner.miter[0], corner.fold_point
    end_x, end_y = corner.fold_end
    line = math.atan2(dot_y - fold_y, dot_x - fold_x)
    fold = math.atan2(end_y - fold_y, end_x - fold_x)
    degrees = abs(math.degrees(line - fold)) % 360
    assert min(degrees, 360 - degrees) == pytest.approx(180 - corner.angle, abs=1e-9)


@pytest.mark.parametrize(
    ("sides", "border", "trim", "waste"),
    [
        pytest.param(3, 1.0, 0.25, 4, id="triangle: four sides with a dent"),
        pytest.param(6, 1.5, 0.25, 4, id="hexagon: four sides"),
        pytest.param(12, 0.5, 0.5, 0, id="twelve sides: the trim lines meet off the cloth"),
        pytest.param(26, 1.0, 0.25, 4, id="twenty-six sides: still on the cloth"),
    ],
)
def test_waste_of_other_corners(sides: int, border: float, trim: float, waste: int) -> None:
    """Four sides, or nothing where the trim lines meet beyond the cloth."""
    blanket = _laid(regular(sides, 20), (border,) * sides, trim=trim)
    assert {len(corner.waste) for corner in blanket.corners} == {waste}


def test_alternating_borders_of_a_hexagon() -> None:
    """Side 10, s = t = 1/4: borders of 1 and 2 in turn can be made (derived by a second reader)."""
    blanket = _laid(regular(6, 10), (1, 2) * 3)
    assert {corner.kind for corner in blanket.corners} == {CornerType.OTHER}


def test_borders_that_throw_a_dot_off_the_cloth() -> None:
    """Borders of 1 and 3 in turn on the same hexagon cannot be made (derived likewise)."""
    with pytest.raises(InputError) as caught:
        _laid(regular(6, 10), (1, 3) * 3)
    assert str(caught.value.findings[0]) == (
        "`border.width` must leave room for every miter, but corner FA has a dot, or the allowance"
        " beside it, off the backing. Make the wider border next to it narrower, or the borders"
        " more alike"
    )


def test_trimmed_corners_take_the_waste_off_the_outline() -> None:
    """Trimmed beforehand, the backing is smaller by its waste, and has no trim mark."""
    whole = _laid(rectangle(30, 36), (2, 1, 3, 2))
    cut = _laid(rectangle(30, 36), (2, 1, 3, 2), trimmed=True)
    waste = sum(signed_area(corner.waste) for corner in whole.corners)
    assert signed_area(cut.backing) == pytest.approx(signed_area(whole.backing) - waste)
    assert select(cut.backing_marks, MarkKind.MITER_TRIM) == ()
    assert len(select(whole.backing_marks, MarkKind.MITER_TRIM)) == 4


def test_sewing_order() -> None:
    """A rectangle is sewn A C B D, anything else around."""
    assert sewing_order(rectangle(30, 36)) == (0, 2, 1, 3)
    assert sewing_order(regular(6, 9)) == (0, 1, 2, 3, 4, 5)


def test_quarter_marks_stand_on_sides_over_24_in() -> None:
    """A side of 24 in has none, a longer one has two on each piece."""
    short = _laid(rectangle(24, 24), (2,) * 4)
    long = _laid(rectangle(24.5, 24), (2,) * 4)
    assert select(short.backing_marks, MarkKind.QUARTER) == ()
    assert [mark.at for mark in select(long.top_marks, MarkKind.QUARTER)] == [
        "A:1",
        "A:3",
        "C:1",
        "C:3",
    ]
