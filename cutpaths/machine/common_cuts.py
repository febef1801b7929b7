"""Outlines that share an edge, taken apart into lines that are each cut once, right across; mm.

Edges on one line that touch or overlap become one cut from end to end. Outlines that share no
edge stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from cutpaths.geometry.polygons import cross, dot, edges, sub, unit
from cutpaths.machine.job import Job
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point
from cutpaths.values import Value

SAME_MM = 1e-4  # lines nearer than this are one; far below the step of any plotter
_WAY_DECIMALS = 7  # of a direction of length 1


class _Edge(Value):
    """An edge along its line: from `low` to `high`, with its ends in that order."""

    job: int
    low: float
    high: float
    start: Point
    end: Point


def shared(jobs: Sequence[Job]) -> tuple[Job, ...]:
    """The jobs with all outlines that share an edge as lines, each cut once."""
    outlines = {
        n: job.shape
        for n, job in enumerate(jobs)
        if job.role is Role.CUT and isinstance(job.shape, Path) and job.shape.closed
    }
    lines = list(_lines(outlines))
    joined = {n for line in lines for n in _sharing(line)}
    kept = [job for n, job in enumerate(jobs) if n not in joined]
    runs = (run for line in lines for run in _runs([e for e in line if e.job in joined]))
    return (*kept, *(Job(Role.CUT, jobs[n].key, Path(ends)) for n, ends in runs))


def _lines(outlines: dict[int, Path]) -> Iterator[list[_Edge]]:
    """The edges of all outlines, those on one line together and in order along it."""
    by_way: dict[Point, list[tuple[float, _Edge]]] = {}
    for n, outline in outlines.items():
        for p, q in edges(outline.points):
            way, aside, edge = _along(n, p, q)
            by_way.setdefault(way, []).append((aside, edge))
    for parallel in by_way.values():
        parallel.sort(key=lambda each: each[0])
        line: list[_Edge] = []
        before = parallel[0][0]
        for aside, edge in parallel:
            if aside - before > SAME_MM:
                yield sorted(line, key=lambda e: e.low)
                line = []
            line.append(edge)
            before = aside
        yield sorted(line, key=lambda e: e.low)


def _along(n: int, p: Point, q: Point) -> tuple[Point, float, _Edge]:
    """An edge's direction, turned to the right or straight up, its distance aside, and itself."""
    way = unit(sub(q, p))
    rounded = round(way[0], _WAY_DECIMALS) + 0.0, round(way[1], _WAY_DECIMALS) + 0.0
    if rounded < (0.0, 0.0):
        p, q, way = q, p, (-way[0], -way[1])
        rounded = 0.0 - rounded[0], 0.0 - rounded[1]
    return rounded, cross(way, p), _Edge(n, dot(way, p), dot(way, q), p, q)


def _sharing(line: Iterable[_Edge]) -> Iterator[int]:
    """The outlines whose edges overlap on a line."""
    last: _Edge | None = None
    for edge in line:
        if last is not None and edge.low < last.high - SAME_MM:
            yield from (last.job, edge.job)
        if last is None or edge.high > last.high:
            last = edge


def _runs(line: list[_Edge]) -> Iterator[tuple[int, tuple[Point, Point]]]:
    """The stretches that the edges of a line cover, each with an outline that it belongs to."""
    start: _Edge | None = None
    end: _Edge | None = None
    for edge in line:
        if start is None or end is None:
            start = end = edge
        elif edge.low > end.high + SAME_MM:
            yield start.job, (start.start, end.end)
            start = end = edge
        elif edge.high > end.high:
            end = edge
    if start is not None and end is not None:
        yield start.job, (start.start, end.end)
