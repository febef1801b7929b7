"""The order of a bed's work.

Pens before blades, cut-outs before outlines, inner lines before those round them, of two outlines
near each other the smaller first (a piece that is cut free may shift); within each such group the
shortest travel found.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import groupby

from cutpaths.geometry.polygons import Ring, box, edges
from cutpaths.machine.bed import Bed
from cutpaths.machine.job import Job
from cutpaths.machine.tour import Stop, toured
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point

NEAR_MM = 20.0  # pieces that lie no farther apart hold each other (common practice, no source)
LARGER = 2.0  # times the area
STARTS_MOST = 8  # places where a closed line may be begun that are looked at

_LEVEL = {Role.CUTOUT: 1, Role.CUT: 2}
_Box = tuple[float, float, float, float]


def in_order(jobs: Sequence[Job], bed: Bed, home: Point = (0.0, 0.0)) -> tuple[Job, ...]:
    """The jobs in the order of work; closed lines may start elsewhere, open ones at either end."""
    turns = {tool.name: n for n, tool in enumerate(bed.tools)}
    stage = [(turns[bed.roles[job.role].name], _level(job, bed)) for job in jobs]
    done: list[Job] = []
    by_stage = sorted(range(len(jobs)), key=lambda n: stage[n])
    for _, members in groupby(by_stage, key=lambda n: stage[n]):
        for group in _groups([jobs[n] for n in members]):
            here = done[-1].end if done else home
            done += _shortest(group, here)
    return tuple(done)


def _level(job: Job, bed: Bed) -> int:
    return 0 if bed.roles[job.role].draws else _LEVEL.get(job.role, 0)


def _groups(jobs: list[Job]) -> Iterator[list[Job]]:
    """Jobs of one stage: those inside others first, and of neighbours the smaller."""
    if jobs[0].role not in _LEVEL:
        yield jobs
        return
    ranks = _ranks(jobs)
    by_rank = sorted(range(len(jobs)), key=lambda n: ranks[n])
    for _, members in groupby(by_rank, key=lambda n: ranks[n]):
        yield [jobs[n] for n in members]


def _ranks(jobs: list[Job]) -> list[int]:
    """For each job how many must come before it, one after the other, at least."""
    boxes = [_box(job) for job in jobs]
    areas = [
        (b[2] - b[0]) * (b[3] - b[1]) if _closed(j) else 0.0
        for j, b in zip(jobs, boxes, strict=True)
    ]
    by_area = sorted(range(len(jobs)), key=lambda n: areas[n])
    by_left = sorted(range(len(jobs)), key=lambda n: boxes[n][0])
    widest = max(b[2] - b[0] for b in boxes)
    lefts = [boxes[n][0] for n in by_left]
    ranks = [0] * len(jobs)
    for n in by_area:
        if not areas[n]:
            continue
        for m in _beside(boxes, n, by_left, lefts, widest):
            if m != n and areas[m] and _comes_first(jobs, boxes, areas, m, n):
                ranks[n] = max(ranks[n], ranks[m] + 1)
    return ranks


def _beside(
    boxes: list[_Box], n: int, by_left: list[int], lefts: list[float], widest: float
) -> Iterator[int]:
    """The jobs whose box is near to that of job n, itself among them."""
    left, bottom, right, top = boxes[n]
    low = bisect_left(lefts, left - NEAR_MM - widest)
    high = bisect_right(lefts, right + NEAR_MM)
    for m in by_left[low:high]:
        b = boxes[m]
        if b[2] >= left - NEAR_MM and b[1] <= top + NEAR_MM and b[3] >= bottom - NEAR_MM:
            yield m


def _comes_first(jobs: list[Job], boxes: list[_Box], areas: list[float], m: int, n: int) -> bool:
    """Whether job m, near to job n, lies inside it or is much smaller."""
    if areas[n] >= LARGER * areas[m]:
        return True
    inner, outer = boxes[m], boxes[n]
    boxed = (
        inner[0] > outer[0] and inner[1] > outer[1] and inner[2] < outer[2] and inner[3] < outer[3]
    )
    return boxed and _holds(_ring(jobs[n]), jobs[m].start)


def _holds(ring: Ring, point: Point) -> bool:
    """Whether a point lies inside a ring, by the edges crossed on the way to the right."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in edges(ring):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def _closed(job: Job) -> bool:
    return isinstance(job.shape, Circle) or job.shape.closed


def _ring(job: Job) -> Ring:
    match job.shape:
        case Path(points):
            return points
        case Circle((x, y), r):
            return (x - r, y), (x, y - r), (x + r, y), (x, y + r)


def _box(job: Job) -> _Box:
    return box(_ring(job))


def _shortest(jobs: list[Job], here: Point) -> Iterator[Job]:
    """A group in the order of the shortest travel found, each line begun at its best end."""
    stops = [_stop(job) for job in jobs]
    for n, start in toured(stops, here):
        yield _begun(jobs[n], start)


def _stop(job: Job) -> Stop:
    match job.shape:
        case Path(points, closed=True):
            step = max(1, -(-len(points) // STARTS_MOST))
            return Stop(points[::step], points[::step])
        case _:
            ends = (job.start,) if job.start == job.end else (job.start, job.end)
            return Stop(ends, ends[::-1])


def _begun(job: Job, start: int) -> Job:
    """A job begun at one of its stop's places."""
    match job.shape:
        case Path(points, closed=True):
            first = start * max(1, -(-len(points) // STARTS_MOST))
            return Job(job.role, job.key, Path(points[first:] + points[:first], closed=True))
        case Path(points) if start:
            return Job(job.role, job.key, Path(points[::-1]))
        case _:
            return job
