"""Outlines by their points: judged exactly, turned counter-clockwise, straight points left out.

Points are exact millimetres, x right, y up, seen from the front. Side i of a written outline runs
from point i to the next one; letters follow the points as written.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from math import atan2, degrees, hypot, pi, tan
from string import ascii_uppercase

from cutpaths.project.model import SIDES_MOST
from cutpaths.values import Value

SHARPEST, FLATTEST = 60, 170  # degrees, inside a corner
CORNER_SLACK = 0.001  # degrees; an equilateral triangle computes as 59.99999999999999

Point = tuple[Fraction, Fraction]


class Ring(Value):
    """A convex outline, counter-clockwise, with no corner of 180 degrees.

    Attributes:
        points: corners; the first side runs from the first to the second.
        sides: for each side the written sides that it is made of, in their order along the ring.
        turned: whether the points were written clockwise.
    """

    points: tuple[Point, ...]
    sides: tuple[tuple[int, ...], ...]
    turned: bool


def faults(points: Sequence[Point]) -> Iterator[tuple[int | None, str, str]]:
    """What keeps points from being an outline: which point, the problem, the hint.

    Only the first kind of fault is told, since each makes the later questions meaningless.
    """
    for found in (_counts(points), _repeats(points), _crossings(points), _bends(points)):
        listed = list(found)
        yield from listed
        if listed:
            return
    ring = ring_of(points)
    for start, corner in zip(ring.points, corners(ring.points), strict=True):
        if not SHARPEST - CORNER_SLACK <= corner <= FLATTEST + CORNER_SLACK:
            rule = f"must be a corner of {SHARPEST} to {FLATTEST} degrees"
            yield points.index(start), f"{rule}, is one of {corner:.1f}", ""


def _counts(points: Sequence[Point]) -> Iterator[tuple[None, str, str]]:
    if len(points) < 3:
        yield None, f"must be at least 3, got {len(points)}", ""
    if len(points) > SIDES_MOST:
        yield None, f"must be at most {SIDES_MOST}, one for each letter, got {len(points)}", ""


def _repeats(points: Sequence[Point]) -> Iterator[tuple[int, str, str]]:
    for index, point in enumerate(points):
        first = points.index(point)
        if first != index:
            hint = "Leave it out: the outline closes itself" if first == 0 else "Leave one out"
            yield index, f"must not be the same as point {first + 1}", hint


def _crossings(points: Sequence[Point]) -> Iterator[tuple[None, str, str]]:
    count = len(points)
    for i, j in combinations(range(count), 2):
        if j - i in (1, count - 1):
            continue
        if _meet(points[i], points[(i + 1) % count], points[j], points[(j + 1) % count]):
            one, other = ascii_uppercase[i], ascii_uppercase[j]
            yield None, f"must not cross or touch itself, side {one} meets side {other}", ""
            return


def _bends(points: Sequence[Point]) -> Iterator[tuple[int | None, str, str]]:
    if twice_area(points) == 0:
        yield None, "must enclose an area, all lie on one line", ""
        return
    sense = 1 if twice_area(points) > 0 else -1
    for index, (before, here, after) in enumerate(_corners(points)):
        if turn(before, here, after) * sense < 0:
            yield index, "must not turn inwards: the outline must be convex", ""


def ring_of(points: Sequence[Point]) -> Ring:
    """The ring of points without `faults` other than those of corners."""
    count = len(points)
    turned = twice_area(points) < 0
    # Backwards, side A runs from the second point to the first; then the last written side follows.
    order = [(1 - i) % count for i in range(count)] if turned else list(range(count))
    names = [-i % count for i in range(count)] if turned else list(range(count))
    ring = [points[i] for i in order]
    kept = [i for i, corner in enumerate(_corners(ring)) if turn(*corner) != 0]
    if kept[0] != 0:  # the first written side starts in the middle of a straight one
        kept = [kept[-1], *kept[:-1]]
    ends = [*kept[1:], kept[0]]
    sides = tuple(
        tuple(names[(start + i) % count] for i in range((end - start) % count))
        for start, end in zip(kept, ends, strict=True)
    )
    return Ring(tuple(ring[i] for i in kept), sides, turned)


def corners(points: Sequence[Point]) -> list[float]:
    """Inside angles of a counter-clockwise ring, in degrees."""
    return [180 - degrees(atan2(turn(*corner), _ahead(*corner))) for corner in _corners(points)]


def is_rectangle(points: Sequence[Point]) -> bool:
    """Whether every corner of a ring is exactly a right angle."""
    return all(_ahead(*corner) == 0 for corner in _corners(points))


def shortest_inside(points: Sequence[Point], inset: Fraction) -> float:
    """Shortest side, mm, of a ring drawn `inset` further in; not above 0 where none is left.

    Each end of a side loses inset / tan(corner / 2).
    """
    halves = [tan(corner * pi / 360) for corner in corners(points)]
    count = len(points)
    lost = [float(inset) * (1 / halves[i] + 1 / halves[(i + 1) % count]) for i in range(count)]
    return min(
        hypot(*(points[(i + 1) % count][axis] - points[i][axis] for axis in (0, 1))) - lost[i]
        for i in range(count)
    )


def twice_area(points: Sequence[Point]) -> Fraction:
    """Twice the signed area of a ring; positive when counter-clockwise."""
    following = [*points[1:], points[0]]
    terms = (a[0] * b[1] - b[0] * a[1] for a, b in zip(points, following, strict=True))
    return sum(terms, Fraction(0))


def turn(before: Point, here: Point, after: Point) -> Fraction:
    """Cross product of the ways in and out of a point; positive where the ring turns left."""
    return (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (
        after[0] - here[0]
    )


def _ahead(before: Point, here: Point, after: Point) -> Fraction:
    """Dot product of the ways in and out of a point; negative where the ring turns back."""
    return (here[0] - before[0]) * (after[0] - here[0]) + (here[1] - before[1]) * (
        after[1] - here[1]
    )


def _corners(points: Sequence[Point]) -> list[tuple[Point, Point, Point]]:
    count = len(points)
    return [(points[i - 1], points[i], points[(i + 1) % count]) for i in range(count)]


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two sides have a point in common, exactly."""
    first, second = turn(a, b, c), turn(a, b, d)
    third, fourth = turn(c, d, a), turn(c, d, b)
    if first == second == third == fourth == 0:
        return all(
            max(min(a[k], b[k]), min(c[k], d[k])) <= min(max(a[k], b[k]), max(c[k], d[k]))
            for k in (0, 1)
        )
    return first * second <= 0 and third * fourth <= 0
