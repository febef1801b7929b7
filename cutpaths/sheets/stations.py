"""Frames for the page: how each is laid in the picture; mm.

With a rig they come from its plan. Without one the picture's size is not known yet, and each
corner and each center is a frame of its own, in the middle of the picture.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.polygons import box, middle
from cutpaths.lengths import Ruler
from cutpaths.projector.cover import holds
from cutpaths.projector.frame_words import foot_said, pin_of, words_of
from cutpaths.projector.frames import Placement, Plan
from cutpaths.projector.lining_up import Hold
from cutpaths.projector.needs import Box, Wanted, needs_of
from cutpaths.roles import Role
from cutpaths.shapes import Motion, Path, shift
from cutpaths.sheets.light import CUT_LINE, Ray, rays
from cutpaths.values import Value

PIN_REACH = 20.0


class Station(Value, kw_only=True):
    """One frame as it is stepped through.

    Attributes:
        title: a few words.
        words: how to lay the cloth.
        home: from the piece's frame to one about the middle of what is shown.
        room: from there to the table.
        steps: of the work, in order.
        error: what a mark may be off by, in mm; None while that is not known.
        extra: lines of light of this frame alone.
    """

    title: str
    words: tuple[str, ...]
    home: Motion
    room: Motion
    steps: tuple[str, ...]
    error: float | None = None
    extra: tuple[Ray, ...] = ()


def planned(plan: Plan, wanted: Wanted, ruler: Ruler) -> tuple[Station, ...]:
    """A station for each placement of a plan."""
    room = plan.room
    center = room.width / 2, room.height / 2
    table = shift(*center).then(room.motion)
    count = len(plan.placements)
    light = _reaches(plan.piece, wanted)
    found = []
    for number, (placement, words) in enumerate(
        zip(plan.placements, words_of(plan, ruler), strict=True), 1
    ):
        home = placement.motion.then(table.inverse())
        foot = foot_said(plan.piece, placement.motion)
        found.append(
            Station(
                title=f"{plan.piece.key.lower()}, placement {number} of {count}, {foot}",
                words=words,
                home=home,
                room=table,
                steps=_steps(light, placement.window.box),
                error=placement.error,
                extra=_extra(plan.piece, placement),
            )
        )
    return tuple(found)


def unplanned(piece: Piece, wanted: Wanted) -> tuple[Station, ...]:
    """A station for each corner and each center, in the picture's middle."""
    return tuple(_alone(piece, wanted))


def _alone(piece: Piece, wanted: Wanted) -> Iterator[Station]:
    light, foot = _reaches(piece, wanted), foot_said(piece, Motion())
    for need in needs_of(piece, Wanted.CORNERS, 0.0):
        left, bottom, right, top = need.box
        heart = middle((left, bottom), (right, top))
        corner = need.name.startswith("corner")
        sides = " and ".join(need.name.split()[-1])
        lay = f"Lay raw edge{'s' if corner else ''} {sides} on the cut line{'s' if corner else ''}"
        rest = "." if corner else ", and a mark that you drew, or the corner, on its place."
        yield Station(
            title=f"{piece.key.lower()}, {need.name}",
            words=(f"Lay the {piece.key.lower()} {piece.face.value}, {foot}.", lay + rest),
            home=shift(-heart[0], -heart[1]),
            room=Motion(),
            steps=_steps(light, (left - 1.0, bottom - 1.0, right + 1.0, top + 1.0)),
        )


def _reaches(piece: Piece, wanted: Wanted) -> tuple[tuple[str, Box], ...]:
    """The step of each ray of a piece, and the box round it."""
    return tuple([(ray.step, box(ray.path.points)) for ray in rays(piece, wanted)])


def _steps(light: tuple[tuple[str, Box], ...], window: Box) -> tuple[str, ...]:
    """The steps that have something in a window, the cut line first."""
    seen = dict.fromkeys([CUT_LINE])
    for step, reach in light:
        if _touches(reach, window):
            seen.setdefault(step)
    return tuple(seen)


def _touches(reach: Box, window: Box) -> bool:
    left, bottom, right, top = reach
    apart = left > window[2] or right < window[0] or bottom > window[3] or top < window[1]
    return not apart and (
        holds(window, (left, bottom, right, top)) or max(right - left, top - bottom) > PIN_REACH
    )


def _extra(piece: Piece, placement: Placement) -> tuple[Ray, ...]:
    """The line for a pin, where one holds the frame."""
    if placement.lining_up.hold is not Hold.EDGE_AND_PIN:
        return ()
    (x, y), _ = pin_of(piece, placement)
    arms = (((-1, 0), (1, 0)), ((0, -1), (0, 1)))
    return tuple(
        Ray(
            Role.SCALE,
            CUT_LINE,
            Path(tuple((x + dx * PIN_REACH, y + dy * PIN_REACH) for dx, dy in arm)),
        )
        for arm in arms
    )
