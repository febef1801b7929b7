"""How a piece larger than the picture is laid, frame by frame; mm.

The fewest placements of the cloth whose frames hold all that is wanted, each lined up on raw edges
where any are in view, in an order in which what lines a placement up is there when it is needed.
Placements that show the same share one frame: the cloth is turned, the picture stays.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.errors import InputError
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.largest_rectangle import largest_rectangle
from cutpaths.geometry.polygons import Ring, box, distance, edges, middle, offset, sub, unit
from cutpaths.projector.cover import balanced, bound, fits, windows
from cutpaths.projector.cover_search import fewest
from cutpaths.projector.finding import finding
from cutpaths.projector.lining_up import (
    Earlier,
    LiningUp,
    line_up,
    pointed_in,
)
from cutpaths.projector.looks import Look, into_room, look, same
from cutpaths.projector.needs import Need, Wanted, needs_of
from cutpaths.projector.view import View
from cutpaths.projector.window import Window
from cutpaths.shapes import Motion, Point
from cutpaths.values import Value


class Room(Value):
    """The part of the picture that frames use: a rectangle, and where it lies on the table."""

    width: float
    height: float
    motion: Motion


class Placement(Value, kw_only=True):
    """One laying of the cloth.

    Attributes:
        window: what of the piece is in the picture, in the piece's frame.
        motion: from the piece's frame to the table.
        frame: number of the frame shown, from 1; earlier placements may share it.
        shows: names of what is wanted and in it.
        lining_up: what holds it.
        error: what a mark in it may be off by, in mm, all earlier placements counted.
    """

    window: Window
    motion: Motion
    frame: int
    shows: tuple[str, ...]
    lining_up: LiningUp
    error: float


class Plan(Value, kw_only=True):
    """All the placements of a piece.

    Attributes:
        piece: what is laid.
        room: of the picture.
        placements: in their order.
        least: the count of placements below which it cannot go.
    """

    piece: Piece
    room: Room
    placements: tuple[Placement, ...]
    least: int

    @property
    def frames(self) -> int:
        """How many different frames there are."""
        return len({placement.frame for placement in self.placements})


def room_of(view: View, margin: float) -> Room:
    """The largest rectangle in the picture, a margin kept free.

    Raises:
        InputError: no room is left, or the picture is turned or keystoned past use.
    """
    ring: Ring = view.outline
    inner = offset(ring, [-margin] * 4)
    lengths = [distance(p, q) for p, q in edges(ring)]
    if margin * 2 >= min(lengths):
        raise InputError(finding("cloth.margin", "leaves nothing of the picture"))
    try:
        found = largest_rectangle(inner)
    except ValueError as error:
        problem = "is too much askew for frames"
        raise InputError(finding("picture", problem, "Set the projector straighter")) from error
    width, height = found.size
    if min(width, height) <= 0:
        raise InputError(finding("cloth.margin", "leaves nothing of the picture"))
    corner, along = found.ring[0], unit(sub(found.ring[1], found.ring[0]))
    return Room(width, height, Motion(along[0], along[1], *corner))


def plan(piece: Piece, room: Room, wanted: Wanted, calibration: float) -> Plan:
    """The placements of a piece.

    Args:
        piece: the piece.
        room: what a frame holds.
        wanted: which marks.
        calibration: what a mark may be off by from the picture itself, in mm.

    Raises:
        InputError: something is larger than the picture, or cannot be lined up.
    """
    needs = needs_of(piece, wanted, min(room.width, room.height))
    size = room.width, room.height
    _require_fits(piece, needs, size)
    boxes = [need.box for need in needs]
    candidates = windows(size, boxes, box(piece.outline))
    able = [each for each in candidates if line_up(piece, each.box, ()) is not None]
    everything = (1 << len(boxes)) - 1
    if _all(able) != everything:
        able = candidates
    most = max(each.holds.bit_count() for each in candidates)
    least = bound(size, boxes, most)
    cover = fewest(able, everything, least)
    least = cover.least
    if len(able) < len(candidates):  # windows that nothing lines up count for the bound
        least = fewest(candidates, everything, bound(size, boxes, most)).least
    chosen = _at_edges(cover.windows, able, everything)
    chosen = balanced(chosen, able, boxes, box(piece.outline))
    placed = _in_order(piece, chosen, needs, calibration)
    return Plan(
        piece=piece, room=room, placements=_turned(piece, room, placed, wanted), least=least
    )


class _Step(Value):
    window: Window
    lining_up: LiningUp
    shows: tuple[str, ...]
    error: float


def _require_fits(piece: Piece, needs: Sequence[Need], size: tuple[float, float]) -> None:
    for need in needs:
        if not fits(size, need.box):
            left, bottom, right, top = need.box
            room = f"{size[0]:.0f} x {size[1]:.0f} mm"
            asked = f"{right - left:.0f} x {top - bottom:.0f} mm"
            problem = f"holds {room}, and {need.name} of the {piece.key} needs {asked}"
            raise InputError(finding("picture", problem, "Raise the projector"))


def _all(found: Sequence[Window]) -> int:
    bits = 0
    for each in found:
        bits |= each.holds
    return bits


def _at_edges(
    chosen: Sequence[Window], candidates: Sequence[Window], everything: int
) -> tuple[Window, ...]:
    """The same count of windows, those at the cloth's edges put in where they hold as much.

    Candidates come with those at the edges first, so that alike corners get alike windows.
    """
    better = list(chosen)
    for n in range(len(better)):
        others = _all([each for m, each in enumerate(better) if m != n])
        lacking = everything & ~others
        better[n] = next(each for each in candidates if lacking & ~each.holds == 0)
    return tuple(better)


def _in_order(
    piece: Piece, chosen: Sequence[Window], needs: Sequence[Need], calibration: float
) -> list[_Step]:
    """Best held first, and of those the nearest to the one before.

    Raises:
        InputError: nothing holds one of them.
    """
    left, steps = list(chosen), list[_Step]()
    earlier: list[Earlier] = []
    here = (0.0, 0.0)
    while left:
        held = [(each, line_up(piece, each.box, earlier)) for each in left]
        able = [(each, found) for each, found in held if found is not None]
        if not able:
            names = ", ".join(_names(left[0], needs)[:3])
            problem = f"shows neither a raw edge nor two earlier marks beside {names}"
            hint = "Raise the projector, or ask for corners and centers only"
            raise InputError(finding("picture", problem, hint))
        window, found = min(
            able, key=lambda one: (one[1].hold, round(distance(_heart(one[0]), here), 6))
        )
        error = found.error_at(_reach(piece, window), calibration)
        steps.append(_Step(window, found, _names(window, needs), error))
        earlier += [Earlier(mark, error) for mark in pointed_in(piece.marks, window.box)]
        here = _heart(window)
        left.remove(window)
    return steps


def _names(window: Window, needs: Sequence[Need]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(need.name for n, need in enumerate(needs) if window.holds >> n & 1))


def _reach(piece: Piece, window: Window) -> float:
    """Across what of the cloth is in a window."""
    left, bottom, right, top = (
        choose(a, b)
        for choose, a, b in zip((max, max, min, min), window.box, box(piece.outline), strict=True)
    )
    return distance((left, bottom), (right, top))


def _heart(window: Window) -> Point:
    left, bottom, right, top = window.box
    return middle((left, bottom), (right, top))


def _turned(
    piece: Piece, room: Room, steps: Sequence[_Step], wanted: Wanted
) -> tuple[Placement, ...]:
    """Chooses which way round each window lies, so that it can share a frame shown before."""
    shown: list[Look] = []
    placements: list[Placement] = []
    for step in steps:
        first = 1 if step.window.turned else 0
        looks = {turn: look(piece, step.window, turn, wanted) for turn in (first, first + 2)}
        frame, turn = next(
            (
                (n + 1, turn)
                for n, known in enumerate(shown)
                for turn in looks
                if same(known, looks[turn])
            ),
            (len(shown) + 1, first),
        )
        if frame > len(shown):
            shown.append(looks[turn])
        placements.append(
            Placement(
                window=step.window,
                motion=into_room(step.window, turn).then(room.motion),
                frame=frame,
                shows=step.shows,
                lining_up=step.lining_up,
                error=step.error,
            )
        )
    return tuple(placements)
