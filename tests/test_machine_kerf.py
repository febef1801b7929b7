"""Kerf and blade: what is left after a simulated cut is the drawn part."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from machine_samples import rectangle
from shapely import LineString, Polygon
from shapely.geometry import Point as Dot

from cutpaths.geometry.polygons import Ring, distance
from cutpaths.machine.blade import knife_way, ring_of
from cutpaths.machine.kerf import grown, smallest
from cutpaths.shapes import Circle, Path, Point

TRIANGLE: Ring = ((0.0, 0.0), (180.0, 0.0), (0.0, 180.0))
TRAPEZIUM: Ring = ((0.0, 0.0), (160.0, 0.0), (120.0, 60.0), (40.0, 60.0))
NOTCHED: Ring = (
    (0.0, 0.0),
    (90.0, 0.0),
    (90.0, 60.0),
    (50.0, 60.0),
    (45.0, 50.0),
    (40.0, 60.0),
    (0.0, 60.0),
)
SHAPES = [rectangle(114.3, 114.3), TRIANGLE, TRAPEZIUM, NOTCHED]


@pytest.mark.parametrize("kerf", [0.1, 0.2, 1.0])
@pytest.mark.parametrize("ring", SHAPES)
def test_an_outline_cut_with_a_kerf_has_its_drawn_size(ring: Ring, kerf: float) -> None:
    """Sheet less the swept kerf leaves the drawn part, corner by corner, to 0.01 mm."""
    line = grown(Path(ring, closed=True), kerf / 2)
    assert isinstance(line, Path)
    swept = LineString((*line.points, line.points[0])).buffer(
        kerf / 2, join_style="mitre", mitre_limit=50
    )
    part = Polygon(line.points).difference(swept)
    assert part.geom_type == "Polygon"
    assert part.hausdorff_distance(Polygon(ring)) < 0.01
    assert abs(part.area - Polygon(ring).area) < 0.01 * Polygon(ring).length
    # Nothing is lost at sharp corners either: without the kerf the part would be smaller.
    wrong = Polygon(ring).difference(LineString((*ring, ring[0])).buffer(kerf / 2))
    assert wrong.hausdorff_distance(Polygon(ring)) > 0.01


@pytest.mark.parametrize("kerf", [0.1, 0.5])
def test_a_hole_cut_with_a_kerf_has_its_drawn_size(kerf: float) -> None:
    """A hole's line lies half the kerf inside, so that the beam's outer edge is the hole."""
    hole = grown(Circle((10.0, 10.0), 1.5), -kerf / 2)
    assert hole == Circle((10.0, 10.0), 1.5 - kerf / 2)
    slot = grown(Path(rectangle(30.0, 2.0), closed=True), -kerf / 2)
    assert isinstance(slot, Path)
    swept = LineString((*slot.points, slot.points[0])).buffer(kerf / 2, join_style="mitre")
    assert (
        Polygon(slot.points).union(swept).hausdorff_distance(Polygon(rectangle(30.0, 2.0))) < 0.01
    )


def test_a_clockwise_hole_shrinks_too() -> None:
    """The way round that a line is drawn does not matter."""
    hole = grown(Path(rectangle(30.0, 2.0)[::-1], closed=True), -0.25)
    assert isinstance(hole, Path)
    assert Polygon(hole.points).bounds == pytest.approx((0.25, 0.25, 29.75, 1.75), abs=1e-12)


@pytest.mark.parametrize(
    ("shape", "size"),
    [(Circle((0.0, 0.0), 1.5), 3.0), (Path(rectangle(30.0, 2.0), closed=True), 2.0)],
)
def test_the_smallest_feature_is_known(shape: Path | Circle, size: float) -> None:
    """The diameter of a circle, the shortest edge of an outline; as much kerf leaves nothing."""
    assert smallest(shape) == size
    with pytest.raises(ValueError, match="kerf"):
        grown(shape, -size / 2)


def trailed(axis: tuple[Point, ...], offset: float, tip: Point) -> list[Point]:
    """Where a knife's point goes while its axis goes along a line: drawn after it by a rod."""
    tips = [tip]
    for start, end in pairwise(axis):
        steps = max(1, math.ceil(distance(start, end) / 0.01))
        for n in range(1, steps + 1):
            x = start[0] + (end[0] - start[0]) * n / steps
            y = start[1] + (end[1] - start[1]) * n / steps
            away = math.hypot(tip[0] - x, tip[1] - y)
            tip = x + (tip[0] - x) * offset / away, y + (tip[1] - y) * offset / away
            tips.append(tip)
    return tips


@pytest.mark.parametrize("offset", [0.25, 0.45, 1.0])
@pytest.mark.parametrize("ring", SHAPES)
def test_a_drag_knife_closes_its_corners(ring: Ring, offset: float) -> None:
    """A simulated trailing point covers the drawn outline and nothing else, to 0.02 mm.

    It comes down turned a quarter away from the line, which the overcut makes good.
    """
    way = knife_way(Path(ring, closed=True), offset, 8 * offset)
    assert isinstance(way, Path)
    assert not way.closed
    (x, y), (x1, y1) = way.points[0], way.points[1]
    along = (x1 - x) / distance((x, y), (x1, y1)), (y1 - y) / distance((x, y), (x1, y1))
    tips = trailed(way.points, offset, (x + along[1] * offset, y - along[0] * offset))
    settled = [tip for n, tip in enumerate(tips) if n > 800 * offset]
    drawn = LineString((*ring, ring[0]))
    cut = LineString(settled)
    for corner in ring:
        assert cut.distance(Dot(corner)) < 0.02
    assert drawn.hausdorff_distance(cut) < 0.02
    # Without the swings the point rounds each corner off.
    plain = trailed((*ring, ring[0], ring[1]), offset, ring[0])
    assert max(LineString(plain).distance(Dot(corner)) for corner in ring[1:]) > 0.1 * offset


def test_an_overcut_goes_on_past_the_start() -> None:
    """A closed line becomes an open one that ends an overcut beyond its first point."""
    way = knife_way(Path(rectangle(50.0, 30.0), closed=True), 0.0, 3.0)
    assert way == Path((*rectangle(50.0, 30.0), (0.0, 0.0), (3.0, 0.0)))
    short = knife_way(Path(rectangle(2.0, 30.0), closed=True), 0.0, 3.0)
    assert isinstance(short, Path)
    assert short.points[-1] == (2.0, 0.0)


def test_an_open_cut_ends_where_it_is_drawn() -> None:
    """The axis runs the offset past the end, so that the point stops on it; nothing is added."""
    assert knife_way(Path(((0.0, 0.0), (50.0, 0.0))), 0.5, 3.0) == Path(((0.5, 0.0), (50.5, 0.0)))


def test_a_tool_without_offset_or_overcut_keeps_the_line() -> None:
    """Lasers and pens follow what is drawn."""
    for shape in (Circle((5.0, 5.0), 2.0), Path(TRIANGLE, closed=True)):
        assert knife_way(shape, 0.0, 0.0) is shape


def test_a_circle_of_chords_is_as_near_inside_as_outside() -> None:
    """Chords stray from the circle by 0.005 mm at most, either way."""
    ring = ring_of(Circle((10.0, 20.0), 1.5))
    outer = [distance(p, (10.0, 20.0)) - 1.5 for p in ring.points]
    middle = [
        math.hypot((a[0] + b[0]) / 2 - 10.0, (a[1] + b[1]) / 2 - 20.0) - 1.5
        for a, b in pairwise(ring.points)
    ]
    assert max(outer) == pytest.approx(-min(middle), abs=1e-12)
    assert 0 < max(outer) < 0.005
