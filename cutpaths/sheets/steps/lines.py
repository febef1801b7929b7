"""What each line of a step picture means, in the words of its key: one style, one meaning.

A solid fine line is marked and not sewn, a dashed one is sewn, a row of dots is folded, dashes and
dots are cut, short heavy dashes are a raw edge that lies hidden, and a double line is the marked
miter.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.polygons import along, distance, right_of, sub, unit
from cutpaths.paint import Paint, from_hex
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import Segment
from cutpaths.sheets.steps.ink import Painted, stroke
from cutpaths.sheets.steps.key import CHIP, Entry

STITCHES = "stitches"
SEAM_MARKED = "seam line, marked"
MITER_MARKED = "miter line, marked"
HIDDEN = "raw edge, hidden below"
FOLD = "fold"
TRIM = "trim line"
CUT = "cut"
CENTER, QUARTER, PATCH = "center mark", "quarter mark", "patch seam"
APART_MM = 0.45  # half the way between the two lines of a miter
DASH_MM, GAP_MM, HIDDEN_MM = 1.1, 0.9, 0.55
HIDDEN_PAINT = Paint(colour=from_hex("#5a5a5a"))
QUARTER_MM = 0.55  # half the way between the two ticks of a quarter mark


def double(start: Point, end: Point) -> tuple[Segment, Segment]:
    """The two lines of a marked miter, on both sides of it."""
    side = right_of(unit(sub(end, start)))
    return (
        (along(start, side, APART_MM), along(end, side, APART_MM)),
        (along(start, side, -APART_MM), along(end, side, -APART_MM)),
    )


def dashes(start: Point, end: Point) -> Iterator[Painted]:
    """The dashes of a hidden edge from place to place."""
    long = distance(start, end)
    way = unit(sub(end, start))
    at = 0.0
    while at < long:
        last = min(at + DASH_MM, long)
        if last - at > HIDDEN_MM / 2:
            yield stroke(along(start, way, at), along(start, way, last), HIDDEN_MM), HIDDEN_PAINT
        at += DASH_MM + GAP_MM


def entry_of_double() -> Entry:
    """The key of a marked miter."""
    level = CHIP[1] / 2
    lines = double((0.0, level), (CHIP[0], level))
    return Entry(MITER_MARKED, (), tuple((Role.MATCH, line) for line in lines))


def entry_of_hidden() -> Entry:
    """The key of a hidden edge."""
    level = CHIP[1] / 2
    return Entry(HIDDEN, tuple(dashes((0.0, level), (CHIP[0], level))))


def tick_lines(edge: Point, inner: Point, kind: str) -> tuple[tuple[Role, Segment], ...]:
    """A tick from the raw edge inward: the center's has a bar, a quarter mark's is double."""
    side = right_of(unit(sub(inner, edge)))
    if kind == CENTER:
        bar = along(inner, side, 1.4), along(inner, side, -1.4)
        return (Role.CENTER, (edge, inner)), (Role.CENTER, bar)
    if kind == QUARTER:
        return tuple(
            (Role.MATCH, (along(edge, side, off), along(inner, side, off)))
            for off in (QUARTER_MM, -QUARTER_MM)
        )
    return ((Role.MATCH, (edge, inner)),)


def entry_of_tick(kind: str) -> Entry:
    """The key of a kind of tick, as it stands on a lower raw edge."""
    x = CHIP[0] / 2
    return Entry(kind, (), tick_lines((x, 0.6), (x, CHIP[1] - 0.6), kind))
