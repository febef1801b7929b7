"""Order of work and common cuts: the rules kept, nothing lost, nothing cut twice."""

from __future__ import annotations

import random
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from machine_samples import bench, rectangle
from shapely import LineString
from shapely.geometry import Polygon
from shapely.ops import polygonize, unary_union

from cutpaths.geometry.polygons import Ring, distance
from cutpaths.machine.common_cuts import shared
from cutpaths.machine.job import Job, travel
from cutpaths.machine.order import LARGER, NEAR_MM, in_order
from cutpaths.machine.tour import Stop, toured
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, shift

BED = bench()


def at(ring: Ring, x: float, y: float, role: Role = Role.CUT) -> Job:
    """An outline set down somewhere."""
    return Job(role, "patch-1", Path(shift(x, y).ring(ring), closed=True))


def mixed(seed: int, count: int) -> list[Job]:
    """Outlines with holes and marks, strewn over a bed in no order."""
    lot = random.Random(seed)  # noqa: S311 - jobs, no secret
    jobs = []
    for n in range(count):
        x, y = lot.uniform(0, 800), lot.uniform(0, 500)
        side = lot.choice([20.0, 30.0, 90.0])
        jobs.append(at(rectangle(side, side), x, y))
        if n % 3 == 0:
            jobs.append(Job(Role.CUTOUT, "patch-1", Circle((x + 10, y + 10), 2.0)))
        if n % 2 == 0:
            jobs.append(Job(Role.STITCH, "patch-1", Path(((x + 3, y + 3), (x + side - 3, y + 3)))))
    lot.shuffle(jobs)
    return jobs


def course(job: Job) -> object:
    """What a job works on, wherever it starts."""
    match job.shape:
        case Circle() as circle:
            return job.role, circle
        case Path(points, closed):
            return job.role, closed, frozenset(points), len(points)


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10**6), st.integers(min_value=1, max_value=25))
def test_ordering_loses_nothing(seed: int, count: int) -> None:
    """Every line is done once, as long as before; only its start and its turn are others."""
    jobs = mixed(seed, count)
    done = in_order(jobs, BED)
    assert sorted(map(repr, map(course, jobs))) == sorted(map(repr, map(course, done))) or {
        course(job) for job in jobs
    } == {course(job) for job in done}
    assert len(done) == len(jobs)
    assert sum(j.length for j in done) == pytest.approx(sum(j.length for j in jobs), rel=1e-12)


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10**6), st.integers(min_value=1, max_value=25))
def test_pens_come_before_cut_outs_before_outlines(seed: int, count: int) -> None:
    """Draw, then holes, then outlines, over the whole bed."""
    rank = {Role.STITCH: 0, Role.CUTOUT: 1, Role.CUT: 2}
    ranks = [rank[job.role] for job in in_order(mixed(seed, count), BED)]
    assert ranks == sorted(ranks)


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10**6), st.integers(min_value=2, max_value=25))
def test_small_comes_before_large_near_by(seed: int, count: int) -> None:
    """Of two outlines near each other, judged by shapely, the much smaller is cut first."""
    cuts = [job for job in in_order(mixed(seed, count), BED) if job.role is Role.CUT]
    shapes = [Polygon(job.shape.points) for job in cuts if isinstance(job.shape, Path)]
    for first, second in combinations(shapes, 2):
        if first.distance(second) < NEAR_MM and first.area > second.area:
            assert first.area < LARGER * second.area


def test_inner_comes_before_outer() -> None:
    """Rings one inside the other are cut from the inside out."""
    rings = [at(rectangle(side, side), -side / 2, -side / 2) for side in (300.0, 100.0, 200.0)]
    assert [job.length for job in in_order(rings, BED)] == [400.0, 800.0, 1200.0]
    near = [at(rectangle(99.0, 99.0), 0.5, 0.5), at(rectangle(100.0, 100.0), 0.0, 0.0)][::-1]
    assert [job.length for job in in_order(near, BED)] == [396.0, 400.0]


def test_a_thousand_lines_take_much_less_travel() -> None:
    """At least 30 % less travel than in the order of the file."""
    lot = random.Random(2)  # noqa: S311 - jobs, no secret
    jobs = [at(rectangle(15.0, 15.0), 28.0 * (n % 32), 18.0 * (n // 32)) for n in range(1000)]
    lot.shuffle(jobs)
    done = in_order(jobs, BED)
    assert travel(done) < 0.7 * travel(jobs)
    # Row by row, the order in which they lie, is hard to beat; the search does not fall behind.
    rows = sorted(jobs, key=lambda job: (job.start[1], job.start[0]))
    assert travel(done) < travel(rows)


def test_travel_is_what_the_lifted_tool_goes() -> None:
    """From home to the first start, from each end to the next start; worked out by hand."""
    jobs = [
        Job(Role.STITCH, "a", Path(((3.0, 4.0), (3.0, 10.0)))),
        at(rectangle(10.0, 10.0), 3.0, 20.0),
        Job(Role.CUTOUT, "a", Circle((13.0, 20.0), 5.0)),
    ]
    assert travel(jobs) == 5.0 + 10.0 + 15.0
    assert [job.length for job in jobs[:2]] == [6.0, 40.0]


def test_a_tour_enters_each_stop_at_its_best_place() -> None:
    """Lines laid end to end, given in no order and both ways round, cost no travel at all."""
    ends = [((x, 0.0), (x + 10.0, 0.0)) for x in range(0, 100, 10)]
    stops = [
        Stop(pair[::-1] if n % 2 else pair, pair if n % 2 else pair[::-1])
        for n, pair in enumerate(ends)
    ]
    lot = random.Random(7)  # noqa: S311 - jobs, no secret
    lot.shuffle(stops)
    way, here = 0.0, (0.0, 0.0)
    for n, entry in toured(stops, here):
        way += distance(here, stops[n].entries[entry])
        here = stops[n].exits[entry]
    assert way == 0.0


def grid(columns: int, rows: int, side: float) -> list[Job]:
    """Squares that touch."""
    return [
        at(rectangle(side, side), column * side, row * side)
        for row in range(rows)
        for column in range(columns)
    ]


def segments(jobs: list[Job] | tuple[Job, ...]) -> list[LineString]:
    """Every straight cut."""
    found = []
    for job in jobs:
        assert isinstance(job.shape, Path)
        points = job.shape.points + (job.shape.points[:1] if job.shape.closed else ())
        found += [LineString(pair) for pair in pairwise(points)]
    return found


def test_a_grid_is_cut_by_lines_right_across() -> None:
    """Six by seven squares take eight lines across and seven up, each from edge to edge."""
    cuts = shared(grid(6, 7, 127.0))
    assert sorted(job.length for job in cuts) == pytest.approx([762.0] * 8 + [889.0] * 7)
    faces = list(polygonize(unary_union(segments(cuts))))
    assert len(faces) == 42
    assert sum(face.area for face in faces) == pytest.approx(42 * 127.0**2, rel=1e-12)


def test_no_line_is_cut_twice() -> None:
    """All cuts together are as long as their union, also where triangles share a long edge."""
    triangle = (0.0, 0.0), (100.0, 0.0), (0.0, 100.0)
    other = (100.0, 100.0), (0.0, 100.0), (100.0, 0.0)
    jobs = [at(ring, 100.0 * n, 0.0) for n in range(5) for ring in (triangle, other)]
    jobs += [at(rectangle(80.0, 100.0), 30.0, 100.0), at(rectangle(60.0, 60.0), 900.0, 900.0)]
    cuts = shared(jobs)
    lines = segments(cuts)
    assert sum(line.length for line in lines) == pytest.approx(unary_union(lines).length)
    before = segments(jobs)
    assert sum(line.length for line in before) > unary_union(before).length + 900.0
    assert unary_union(lines).hausdorff_distance(unary_union(before)) < 1e-9


def test_what_shares_nothing_stays_closed() -> None:
    """Outlines that touch at a corner, or not at all, are cut as they are."""
    jobs = [at(rectangle(50.0, 50.0), 0.0, 0.0), at(rectangle(50.0, 50.0), 50.0, 50.0)]
    holes = [Job(Role.CUTOUT, "a", Circle((25.0, 25.0), 2.0))]
    assert shared([*jobs, *holes]) == (*jobs, *holes)


def test_a_line_stops_where_no_piece_goes_on() -> None:
    """Two pairs on one line with a space between them are two cuts."""
    pairs = [at(rectangle(50.0, 50.0), x, y) for x in (0.0, 80.0) for y in (0.0, 50.0)]
    across = [
        job
        for job in shared(pairs)
        if job.start[1] == job.end[1] == 50.0  # the shared edges
    ]
    assert sorted((job.start, job.end) for job in across) == [
        ((0.0, 50.0), (50.0, 50.0)),
        ((80.0, 50.0), (130.0, 50.0)),
    ]
