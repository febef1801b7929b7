"""A backing that is joined of panels, because it is wider than its cloth; mm.

Panels lie wrong side up in the backing's own frame. They are numbered from the left, or from the
foot. Each is cut one allowance beyond its joining seams; nap and print run the same way in all.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.assembly import Assembly, Face, Piece, PieceKind, Seam
from cutpaths.geometry.blanket import Blanket
from cutpaths.geometry.clip import clipped
from cutpaths.geometry.grain_line import grain_line
from cutpaths.geometry.joining import Clear, blocked, cross_section, kept_clear
from cutpaths.geometry.marks import Mark, MarkKind, Mate
from cutpaths.geometry.polygons import Ring, box
from cutpaths.lengths import INCH
from cutpaths.project.model import Project
from cutpaths.project.stock import Join
from cutpaths.shapes import Point, shift
from cutpaths.values import replace

FROM_EDGE = 2 * INCH  # a joining seam from a finished edge that runs along it; common practice


def panels_of(project: Project, blanket: Blanket, backing: Piece) -> Assembly | None:
    """The backing as panels and the seams between them, in its own frame; None for one cloth.

    Raises:
        InputError: a seam would lie on a mark that it must keep off, or there is no room.
    """
    join = project.join
    if join is None:
        return None
    clear = clear_of(blanket, backing, join)
    places = _places(project, backing, join, clear)
    return joined(backing, join, places)


def clear_of(blanket: Blanket, backing: Piece, join: Join) -> Clear:
    """Where along the backing a joining seam must not lie."""
    home = backing.places[0].inverse()
    finished = tuple(home.point(p) for p in blanket.finished)
    return kept_clear(
        backing.marks,
        finished,
        down=join.down,
        clearance=float(join.allowance),
        from_edge=float(FROM_EDGE),
    )


def joined(backing: Piece, join: Join, places: Sequence[float]) -> Assembly:
    """Panels with their seams at these places, from the left or from the foot."""
    left, bottom, right, top = box(backing.outline)
    ends = (left, right) if join.down else (bottom, top)
    limits = [ends[0], *places, ends[1]]
    reach = float(join.allowance)
    parts = []
    for number in range(1, len(limits)):
        low = limits[number - 1] - (reach if number > 1 else 0.0)
        high = limits[number] + (reach if number < len(limits) - 1 else 0.0)
        parts.append(_panel(backing, join, number, (low, high), places))
    seams = tuple(Seam(*cross_section(backing.outline, at, down=join.down)) for at in places)
    return Assembly(outline=backing.outline, parts=tuple(parts), seams=seams, places=backing.places)


def _panel(
    backing: Piece, join: Join, number: int, reach: tuple[float, float], places: Sequence[float]
) -> Piece:
    """One panel, from where to where along the backing it is cut."""
    ring = clipped(backing.outline, _window(backing.outline, reach, down=join.down))
    left, bottom, _, _ = box(ring)
    home = shift(-left, -bottom)
    marks = [
        Mark(
            MarkKind.STITCH,
            str(seam),
            tuple(home.point(p) for p in _ends(backing.outline, places[seam - 1], join)),
            (Mate(f"PANEL-{other}", MarkKind.STITCH, str(seam)),),
        )
        for seam, other in ((number - 1, number - 1), (number, number + 1))
        if 1 <= seam <= len(places)
    ]
    outline = home.ring(ring)
    if backing.grain is not None:
        marks.append(Mark(MarkKind.GRAIN, "", grain_line(outline, backing.grain.way)))
    return replace(
        backing,
        key=f"PANEL-{number}",
        kind=PieceKind.PANEL,
        face=Face.WRONG,
        outline=outline,
        marks=tuple(marks),
        places=(shift(left, bottom),),
    )


def _ends(outline: Ring, at: float, join: Join) -> tuple[Point, Point]:
    return cross_section(outline, at, down=join.down)


def _window(outline: Ring, reach: tuple[float, float], *, down: bool) -> Ring:
    left, bottom, right, top = box(outline)
    low, high = reach
    if down:
        return (low, bottom), (high, bottom), (high, top), (low, top)
    return (left, low), (right, low), (right, high), (left, high)


def _places(project: Project, backing: Piece, join: Join, clear: Clear) -> tuple[float, ...]:
    """The places asked for, or those nearest to panels of one width."""
    if join.at is None:
        found = even_places(backing, join, clear, float(project.ruler.step))
        if found is None:
            raise InputError(_finding(join, "must leave its seams room beside dots and centers"))
        return found
    for at in join.at:
        if (why := blocked(clear, float(at))) is not None:
            problem = f"must keep off {why}, got {project.ruler.text(at)}"
            raise InputError(_finding(join, problem, "at"))
    return tuple(map(float, join.at))


def _finding(join: Join, problem: str, key: str = "seams") -> Finding:
    hint = f"Leave `at` out to have it chosen, or try {3 - join.seams} seam"
    return Finding(key=f"backing.join.{key}", problem=problem, hint=hint + "s" * (join.seams == 1))


def even_places(backing: Piece, join: Join, clear: Clear, step: float) -> tuple[float, ...] | None:
    """Clear places nearest to those that make all panels alike; None where there are none."""
    across = across_seams(backing, join)
    wanted = [across * seam / (join.seams + 1) for seam in range(1, join.seams + 1)]
    return _rising([clear.nearest(at, across, step) for at in wanted])


def wide_places(
    backing: Piece, join: Join, clear: Clear, widest: float, step: float
) -> tuple[float, ...] | None:
    """Clear places that make every panel but the last as wide as its cloth; None without any."""
    reach = float(join.allowance)
    found: list[float | None] = []
    at: float | None = reach
    for seam in range(join.seams):
        # The first panel has one seam, the next has two.
        more = widest - (1 if seam == 0 else 2) * reach
        at = clear.last((0.0 if seam == 0 else at or 0.0) + more, step)
        found.append(at)
    across = across_seams(backing, join)
    places = _rising(found)
    return places if places is not None and places[-1] < across else None


def across_seams(backing: Piece, join: Join) -> float:
    """The backing's size across the seams."""
    width, height = backing.size
    return width if join.down else height


def _rising(places: Sequence[float | None]) -> tuple[float, ...] | None:
    """The places, if each lies beyond the one before."""
    found = tuple(at for at in places if at is not None)
    rising = len(found) == len(places) and all(a < b for a, b in pairwise(found))
    return found if rising else None
