"""A piece longer than the bed: its sections laid end to end are the piece."""

from __future__ import annotations

from itertools import pairwise

import pytest
from machine_samples import rectangle
from shapely import LineString
from shapely.ops import unary_union

from cutpaths.machine.job import Job
from cutpaths.machine.sections import MARK_MM, sections
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, shift

BACKING = Job(Role.CUT, "backing", Path(shift(15.0, 0.0).ring(rectangle(300.0, 1000.0)), True))
MITER = Job(Role.STITCH, "backing", Path(((20.0, 100.0), (290.0, 900.0))))
DOT = Job(Role.DOT, "backing", Circle((100.0, 400.0), 1.5))
LEVEL = Job(Role.FOLD, "backing", Path(((20.0, 400.0), (290.0, 400.0))))
JOBS = (BACKING, MITER, DOT, LEVEL)


def turned(job: Job) -> Job:
    """A job with x and y exchanged."""
    match job.shape:
        case Circle((x, y), radius):
            return Job(job.role, job.key, Circle((y, x), radius))
        case Path(points, closed):
            return Job(job.role, job.key, Path(tuple((y, x) for x, y in points), closed))


def lines(jobs: tuple[Job, ...]) -> dict[Role, list[LineString]]:
    """Lines by role, without the alignment marks."""
    found: dict[Role, list[LineString]] = {}
    for job in jobs:
        if job.key != "section" and isinstance(job.shape, Path):
            points = job.shape.points + (job.shape.points[:1] if job.shape.closed else ())
            found.setdefault(job.role, []).append(LineString(points))
    return found


@pytest.mark.parametrize("axis", [1, 0])
def test_sections_together_are_the_piece(axis: int) -> None:
    """Laid end to end they cover every line once, and each keeps to its feed length."""
    jobs = JOBS if axis else tuple(map(turned, JOBS))
    made = sections(jobs, 3, 400.0, (7.5, 400.0), axis)
    joined: dict[Role, list[LineString]] = {}
    for n, section in enumerate(made):
        for role, parts in lines(section).items():
            for part in parts:
                low, high = part.bounds[axis], part.bounds[axis + 2]
                assert low >= -1e-9
                assert high <= 400.0 + 1e-9
                back = (0.0, 400.0 * n) if axis else (400.0 * n, 0.0)
                joined.setdefault(role, []).append(
                    LineString([(x + back[0], y + back[1]) for x, y in part.coords])
                )
    for role, whole in lines(jobs).items():
        assert sum(part.length for part in joined[role]) == pytest.approx(whole[0].length)
        assert unary_union(joined[role]).hausdorff_distance(whole[0]) < 1e-9
    # The dot on the line between two sections is round again.
    assert sum(part.length for part in joined[Role.DOT]) == pytest.approx(9.4248, abs=0.02)


def test_what_runs_along_the_join_is_done_once() -> None:
    """A fold that lies on the join belongs to the second section alone."""
    made = sections(JOBS, 3, 400.0, (7.5, 400.0), 1)
    assert [len(lines(section).get(Role.FOLD, [])) for section in made] == [0, 1, 0]


def test_marks_of_neighbours_make_a_cross() -> None:
    """Each join has a tick and a stem on both sides; the stems go on in one line."""
    made = sections(JOBS, 3, 400.0, (7.5, 400.0), 1)
    for n, (first, second) in enumerate(pairwise(made)):
        marks = [[job for job in each if job.key == "section"] for each in (first, second)]
        before = [job for job in marks[0] if 400.0 in (job.start[1], job.end[1])]
        after = [job for job in marks[1] if 0.0 in (job.start[1], job.end[1])]
        assert (len(before), len(after)) == (4, 2), n
        stems = [job for job in before if job.start[0] == job.end[0]]
        assert [job.start[0] for job in stems] == [job.start[0] for job in after] == [7.5, 400.0]
        assert {job.length for job in (*before, *after)} == {MARK_MM}
        assert all(job.role is Role.MATCH for job in (*before, *after))
    assert [sum(job.key == "section" for job in section) for section in made] == [4, 6, 2]
