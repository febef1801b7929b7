"""Placement: nothing overlaps, nothing leaves the bed, nothing lacks, and few beds are enough."""

from __future__ import annotations

import random
from collections import Counter
from itertools import combinations

import pytest
import rectpack
from hypothesis import given, settings
from hypothesis import strategies as st
from machine_samples import part, piece, rectangle
from shapely import STRtree
from shapely.geometry import Polygon

from cutpaths.geometry.assembly import Grain
from cutpaths.geometry.polygons import Ring, signed_area
from cutpaths.machine.bed import Feed
from cutpaths.machine.bound import fewest_beds
from cutpaths.machine.nesting import hull, row, step_right
from cutpaths.machine.parts import Part, _turns
from cutpaths.machine.placement import Placement, placed, too_large
from cutpaths.shapes import shift

HALF_SQUARE: Ring = ((0.0, 0.0), (100.0, 0.0), (0.0, 100.0))
QUARTER_SQUARE: Ring = ((0.0, 0.0), (140.0, 0.0), (70.0, 70.0))

sizes = st.integers(min_value=15, max_value=180).map(float)
boxes = st.builds(
    lambda w, h, n, turns: part(rectangle(w, h), n, (0, 1) if turns else (0,)),
    sizes,
    sizes,
    st.integers(min_value=1, max_value=8),
    st.booleans(),
)
triangles = st.builds(
    lambda ring, n, quarters: part(ring, n, quarters),
    st.sampled_from([HALF_SQUARE, QUARTER_SQUARE]),
    st.integers(min_value=1, max_value=9),
    st.sampled_from([(0,), (0, 2), (1, 3), (0, 1, 2, 3)]),
)


def require_sound(
    parts: list[Part], found: Placement, room: tuple[float, float], gap: float
) -> None:
    """Judges a placement by shapely alone."""
    counts: Counter[int] = Counter()
    for bed in found.beds:
        shapes = [Polygon(each.motion.ring(parts[each.part].outline)) for each in bed]
        counts.update(each.part for each in bed)
        for each, shape in zip(bed, shapes, strict=True):
            assert not each.motion.mirrored
            left, bottom, right, top = shape.bounds
            assert left > -1e-6
            assert bottom > -1e-6
            assert right < room[0] + 1e-6
            assert top < room[1] + 1e-6
        tree = STRtree(shapes)
        for n, shape in enumerate(shapes):
            for m in tree.query(shape.buffer(gap + 1.0)):
                if m > n:
                    assert shape.distance(shapes[m]) > gap - 1e-6
                    assert shape.intersection(shapes[m]).area < 1e-6
    assert counts == Counter({n: each.count for n, each in enumerate(parts)})
    assert len(found.beds) >= found.fewest


@settings(max_examples=40, deadline=None)
@given(st.lists(boxes | triangles, min_size=1, max_size=6), st.sampled_from([0.0, 0.1, 5.0]))
def test_no_two_overlap_none_leaves_all_are_there(parts: list[Part], gap: float) -> None:
    """Whatever is laid: spacing kept, bed kept, each part as often as asked, never mirrored."""
    room = 400.0, 300.0
    require_sound(parts, placed(parts, room, gap), room, gap)


def best_of_rectpack(
    sizes_: list[tuple[int, int]], room: tuple[int, int], *, rotation: bool
) -> int:
    """The fewest bins that rectpack finds in any of its usual modes."""
    fewest = len(sizes_)
    for bins in (rectpack.PackingBin.BNF, rectpack.PackingBin.BFF, rectpack.PackingBin.BBF):
        for algo in (
            rectpack.MaxRectsBssf,
            rectpack.MaxRectsBl,
            rectpack.MaxRectsBaf,
            rectpack.SkylineMwf,
            rectpack.GuillotineBssfSas,
        ):
            for sort in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE):
                packer = rectpack.newPacker(
                    bin_algo=bins, pack_algo=algo, sort_algo=sort, rotation=rotation
                )
                for width, height in sizes_:
                    packer.add_rect(width, height)
                packer.add_bin(*room, count=float("inf"))
                packer.pack()
                fewest = min(fewest, len(packer))
    return fewest


@pytest.mark.parametrize("seed", range(12))
def test_never_more_beds_than_a_packing_library(seed: int) -> None:
    """On the same job rectpack (0.2.2, a test oracle only) never needs fewer beds."""
    lot = random.Random(seed)  # noqa: S311 - jobs, no secret
    rotation = bool(seed % 2)
    jobs = [
        (lot.randint(20, 250), lot.randint(20, 250), lot.randint(1, 8))
        for _ in range(lot.randint(2, 9))
    ]
    room = lot.choice([(600, 400), (900, 600), (300, 300)])
    parts = [
        part(rectangle(float(w), float(h)), n, (0, 1) if rotation else (0,)) for w, h, n in jobs
    ]
    found = placed(parts, (float(room[0]), float(room[1])), 0.0)
    require_sound(parts, found, (float(room[0]), float(room[1])), 0.0)
    flat = [(w, h) for w, h, n in jobs for _ in range(n)]
    assert len(found.beds) <= best_of_rectpack(flat, room, rotation=rotation)


@pytest.mark.parametrize(
    ("side", "count"),
    [(2, 396), (2.5, 238), (3.5, 120), (4, 99), (5, 56), (6.5, 30), (10, 12)],
)
def test_squares_from_a_yard(side: float, count: int) -> None:
    """As many squares as quilter's charts (2002) print lie on 44 x 36 in; one more does not.

    The charts print 35 squares of 7 in, which is an erratum.
    """
    room = 44 * 25.4, 36 * 25.4
    whole = placed([part(rectangle(side * 25.4, side * 25.4), count)], room, 0.0)
    assert (len(whole.beds), whole.fewest) == (1, 1)
    more = placed([part(rectangle(side * 25.4, side * 25.4), count + 1)], room, 0.0)
    assert (len(more.beds), more.fewest) == (2, 2)


def test_alike_shapes_lie_in_rows() -> None:
    """Twelve squares on a bed for a grid of four by three stand at four x and three y."""
    found = placed([part(rectangle(100.0, 100.0), 12)], (420.0, 320.0), 5.0)
    corners = [each.motion.point((0.0, 0.0)) for each in found.beds[0]]
    assert sorted({round(x, 6) for x, _ in corners}) == [0.0, 105.0, 210.0, 315.0]
    assert sorted({round(y, 6) for _, y in corners}) == [0.0, 105.0, 210.0]


def test_triangles_are_nested_in_pairs() -> None:
    """Eight half-square triangles fit where four squares do, with spacing between their legs."""
    found = placed([part(HALF_SQUARE, 8, (0, 2))], (210.0, 210.0), 0.0)
    assert len(found.beds) == 1
    apart = placed([part(HALF_SQUARE, 8, (0,))], (210.0, 210.0), 0.0)
    assert len(apart.beds) == 2


def test_a_row_of_triangles_takes_half_a_width_each() -> None:
    """Quarter-square triangles in turn take 70 mm each after the first 140 mm."""
    turned = tuple((140.0 - x, 70.0 - y) for x, y in QUARTER_SQUARE)
    assert row((QUARTER_SQUARE, turned), 500.0, 0.0, 99) == pytest.approx(
        (0, 70, 140, 210, 280, 350)
    )


@given(st.sampled_from([0.0, 1.0, 7.5]), st.sampled_from([HALF_SQUARE, QUARTER_SQUARE]))
def test_the_step_keeps_the_distance(gap: float, ring: Ring) -> None:
    """A shape set down a step to the right stands exactly the gap away, by shapely."""
    right = hull(tuple((150.0 - x, 100.0 - y) for x, y in ring))
    moved = shift(step_right(ring, right, gap), 0.0).ring(right)
    assert Polygon(ring).distance(Polygon(moved)) >= gap - 1e-9


def test_the_hull_leaves_dents_out() -> None:
    """A dented outline's hull is convex and counter-clockwise."""
    dented = ((0.0, 0.0), (90.0, 0.0), (90.0, 60.0), (50.0, 20.0), (0.0, 60.0))
    assert signed_area(hull(dented)) == 90.0 * 60.0


@pytest.mark.parametrize(
    ("parts", "room", "fewest"),
    [
        # More than half of both sides: one a bed, though area alone says 2.
        ([part(rectangle(51.0, 51.0), 5)], (100.0, 100.0), 5),
        # Two side by side at most, each with a shelf of small ones: by size, not by area.
        ([part(rectangle(40.0, 60.0), 4)], (100.0, 100.0), 2),
        ([part(rectangle(50.0, 50.0), 8)], (100.0, 100.0), 2),
        ([part(HALF_SQUARE, 5, (0, 2))], (100.0, 100.0), 3),
    ],
)
def test_the_bound_is_what_no_layout_beats(
    parts: list[Part], room: tuple[float, float], fewest: int
) -> None:
    """Lower bounds worked out by hand."""
    assert fewest_beds(parts, room, 0.0) == fewest
    assert len(placed(parts, room, 0.0).beds) == fewest


def test_what_fits_no_way_is_named() -> None:
    """A part is too large only where no way to lie helps."""
    parts = [part(rectangle(50.0, 120.0), 1), part(rectangle(50.0, 120.0), 1, (0, 1))]
    assert too_large(parts, (200.0, 100.0)) == (0,)


@pytest.mark.parametrize(
    ("grain", "feed", "angles"),
    [
        (Grain((0.0, 1.0), headed=False), Feed.UP, [0.0, 180.0]),
        (Grain((0.0, 1.0), headed=True), Feed.UP, [0.0]),
        (Grain((1.0, 0.0), headed=True), Feed.UP, [90.0]),
        (Grain((0.0, 1.0), headed=True), Feed.ACROSS, [-90.0]),
        (None, Feed.UP, [0.0, 90.0, 180.0, -90.0]),
    ],
)
def test_grain_says_how_a_piece_may_lie(
    grain: Grain | None, feed: Feed, angles: list[float]
) -> None:
    """Threads lie along the feed; a print's up goes the way of the feed; card lies as it likes."""
    ring = ((0.0, 0.0), (100.0, 0.0), (30.0, 60.0))
    turns = list(_turns(piece(ring, grain=grain).outline, grain, feed))
    assert [(turn.degrees + 180.0) % 360.0 for turn in turns] == [
        (angle + 180.0) % 360.0 for angle in angles
    ]
    assert not any(turn.mirrored for turn in turns)


def test_the_same_parts_lie_the_same_way_each_time() -> None:
    """The search counts its work and not the time, and its lot is always the same."""
    lot = random.Random(4)  # noqa: S311 - jobs, no secret
    parts = [
        part(rectangle(float(lot.randint(40, 200)), float(lot.randint(40, 200))), 3)
        for _ in range(9)
    ]
    first, again = (placed(parts, (400.0, 300.0), 4.0) for _ in range(2))
    assert first == again


def test_boxes_never_share_room() -> None:
    """Each pair of boxes is apart across or along by the spacing."""
    parts = [part(rectangle(70.0, 45.0), 9), part(rectangle(33.0, 90.0), 7)]
    for bed in placed(parts, (300.0, 200.0), 6.0).beds:
        frames = [Polygon(each.motion.ring(parts[each.part].outline)).bounds for each in bed]
        for a, b in combinations(frames, 2):
            across = max(a[0] - b[2], b[0] - a[2])
            along = max(a[1] - b[3], b[1] - a[3])
            assert max(across, along) > 6.0 - 1e-6


def test_a_triangle_that_fits_one_way_only_is_laid() -> None:
    """Where rows do not fit, each part still lies the way that does."""
    flat: Ring = ((0.0, 0.0), (300.0, 0.0), (0.0, 80.0))
    parts = [part(flat, 3, (0, 1, 2, 3))]
    found = placed(parts, (100.0, 320.0), 2.0)
    require_sound(parts, found, (100.0, 320.0), 2.0)
    assert len(found.beds) == 3
