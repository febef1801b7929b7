"""A piece longer than a roll-fed bed, cut in feed lengths with alignment marks; mm.

Sections follow one another along the feed. Where two meet, a mark stands in each side margin: a
tick and a stem drawn with the first, the stem's other half with the second; in line they make a
cross.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from cutpaths.geometry.polygons import between
from cutpaths.machine.blade import ring_of
from cutpaths.machine.job import Job
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point

MARK_MM = 5.0
LEAST_MARGIN = Fraction(6)  # mm, each side margin, so that a mark has room
_SAME_MM = 1e-7


def sections(
    jobs: Sequence[Job], count: int, length: float, sides: tuple[float, float], axis: int
) -> tuple[tuple[Job, ...], ...]:
    """The jobs of each section, where it lies on the bed.

    Args:
        jobs: on a bed long enough for all of them.
        count: number of sections.
        length: of one section.
        sides: middles of both side margins.
        axis: 1 where the feed runs up, 0 where it runs across.
    """
    made = []
    for n in range(count):
        low, high = n * length, (n + 1) * length
        back = (0.0, -low) if axis else (-low, 0.0)
        cut = [
            Job(job.role, job.key, Path(tuple((x + back[0], y + back[1]) for x, y in part)))
            for job in jobs
            for part in _within(_points(job.shape), low, high, axis, last=n == count - 1)
        ]
        made.append((*cut, *_marks(n, count, length, sides, axis)))
    return tuple(made)


def _points(shape: Path | Circle) -> tuple[Point, ...]:
    path = ring_of(shape) if isinstance(shape, Circle) else shape
    return path.points + path.points[:1] if path.closed else path.points


def _within(
    points: Sequence[Point], low: float, high: float, axis: int, *, last: bool
) -> Iterator[tuple[Point, ...]]:
    """The stretches of a line that lie in a band; what runs along its end belongs to the next."""
    stretch: list[Point] = []
    for p, q in pairwise(points):
        cut = _clipped(p, q, low, high, axis, last=last)
        if cut is None:
            if len(stretch) > 1:
                yield tuple(stretch)
            stretch = []
            continue
        if stretch and stretch[-1] != cut[0]:
            yield tuple(stretch)
            stretch = []
        stretch = stretch or [cut[0]]
        stretch.append(cut[1])
    if len(stretch) > 1:
        yield tuple(stretch)


def _clipped(
    p: Point, q: Point, low: float, high: float, axis: int, *, last: bool
) -> tuple[Point, Point] | None:
    a, b = p[axis], q[axis]
    if abs(a - b) < _SAME_MM:
        inside = low - _SAME_MM <= a < high - _SAME_MM or (
            last and a <= high + _SAME_MM and a >= low
        )
        return (p, q) if inside else None
    t0, t1 = sorted(((low - a) / (b - a), (high - a) / (b - a)))
    t0, t1 = max(t0, 0.0), min(t1, 1.0)
    if (t1 - t0) * abs(b - a) < _SAME_MM:
        return None
    start = p if t0 == 0.0 else between(p, q, t0)
    end = q if t1 == 1.0 else between(p, q, t1)
    return start, end


def _marks(
    n: int, count: int, length: float, sides: tuple[float, float], axis: int
) -> Iterator[Job]:
    """The halves of alignment marks at both ends of a section."""
    half = MARK_MM / 2
    for side in sides:
        if n + 1 < count:
            yield _mark((side - half, length), (side + half, length), axis)
            yield _mark((side, length - MARK_MM), (side, length), axis)
        if n:
            yield _mark((side, 0.0), (side, MARK_MM), axis)


def _mark(start: Point, end: Point, axis: int) -> Job:
    """A line of a mark, given as it is where the feed runs up."""
    ends = (start, end) if axis else (start[::-1], end[::-1])
    return Job(Role.MATCH, "section", Path(((ends[0][0], ends[0][1]), (ends[1][0], ends[1][1]))))
