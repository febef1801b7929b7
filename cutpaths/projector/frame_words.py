"""How to lay the cloth for each placement, in words; directions are those of the picture."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark
from cutpaths.geometry.polygons import box, middle, right_of, sub, unit
from cutpaths.lengths import Ruler, Unit, in_unit, nearest
from cutpaths.projector.frames import Placement, Plan
from cutpaths.projector.lining_up import Hold, lettered_edges
from cutpaths.shapes import Motion, Point

_TURNS = {
    1: "Turn the cloth a quarter turn counter-clockwise",
    2: "Turn the cloth half round",
    3: "Turn the cloth a quarter turn clockwise",
}
_LEAST_MM = 10.0  # what lining up finds by itself


def words_of(plan: Plan, ruler: Ruler) -> tuple[tuple[str, ...], ...]:
    """For each placement: how to get there, and what to line up."""
    found = []
    before: Placement | None = None
    for placement in plan.placements:
        move = (
            _first(plan.piece, placement.motion)
            if before is None
            else _move(plan.piece, before, placement, ruler)
        )
        found.append((move, lay(plan.piece, placement, ruler)))
        before = placement
    return tuple(found)


def lay(piece: Piece, placement: Placement, ruler: Ruler) -> str:
    """What to line up on what."""
    held = placement.lining_up
    match held.hold:
        case Hold.CORNER:
            return f"Lay raw edges {held.edges[0]} and {held.edges[1]} on the cut lines."
        case Hold.EDGE_AND_MARK:
            return (
                f"Lay raw edge {held.edges[0]} on its cut line, and {_mark(held.marks[0])} on it."
            )
        case Hold.EDGE_AND_PIN:
            return _pin(piece, placement, ruler)
        case Hold.TWO_MARKS:
            first, second = held.marks
            return f"No raw edge is in view: lay {_mark(first)} and {_mark(second)} on theirs."


def pin_of(piece: Piece, placement: Placement) -> tuple[Point, float]:
    """Where a pin goes on a raw edge: in the middle of what is in view; and how far along."""
    (letter,) = placement.lining_up.edges
    start, end = lettered_edges(piece)[letter]
    left, bottom, right, top = placement.window.box
    way, heart = unit(sub(end, start)), middle((left, bottom), (right, top))
    far = (heart[0] - start[0]) * way[0] + (heart[1] - start[1]) * way[1]
    return (start[0] + far * way[0], start[1] + far * way[1]), far


def _pin(piece: Piece, placement: Placement, ruler: Ruler) -> str:
    letter = placement.lining_up.edges[0]
    _, far = pin_of(piece, placement)
    start, end = lettered_edges(piece)[letter]
    from_start = far <= math.hypot(*sub(end, start)) / 2
    length = far if from_start else math.hypot(*sub(end, start)) - far
    text = ruler.text(Fraction(f"{length:.1f}"))
    where = "start" if from_start else "end"
    return (
        f"Put a pin {text} along raw edge {letter} from its {where} (seen from the front, "
        f"counter-clockwise), lay the edge on its cut line and the pin on the pin line."
    )


def _mark(mark: Mark) -> str:
    return f"the {mark.kind.value} {mark.at.replace(':', ' ')} that you drew"


def _first(piece: Piece, motion: Motion) -> str:
    return f"Lay the {piece.key.lower()} {piece.face.value}, {foot_said(piece, motion)}."


def foot_said(piece: Piece, motion: Motion) -> str:
    """How the piece lies, by its sides.

    Args:
        piece: the backing or the top.
        motion: from its frame to the picture.
    """
    return f"side {_side_at_foot(piece, motion)} toward the picture's foot"


def _side_at_foot(piece: Piece, motion: Motion) -> str:
    """The side that faces down in the picture."""
    turn = Motion(motion.cos, motion.sin, 0.0, 0.0, motion.mirrored)
    found = {
        letter: turn.point(right_of(unit(sub(end, start))))[1]
        for letter, (start, end) in lettered_edges(piece).items()
    }
    return min(found, key=lambda letter: round(found[letter], 6))


def _move(piece: Piece, before: Placement, after: Placement, ruler: Ruler) -> str:
    """The turn, and the way of the cloth's middle."""
    turn = after.motion.degrees - before.motion.degrees
    quarters = round(turn / 90) % 4
    left, bottom, right, top = box(piece.outline)
    heart = middle((left, bottom), (right, top))
    start, end = before.motion.point(heart), after.motion.point(heart)
    slide = _slide(sub(end, start), ruler)
    parts: Sequence[str] = [part for part in (_TURNS.get(quarters, ""), slide) if part]
    if not parts:
        return "Leave the cloth as it lies."
    foot = foot_said(piece, after.motion)
    if len(parts) == 2:
        return f"{parts[0]}, {foot}, then slide its middle {slide}."
    return f"{parts[0]}, {foot}." if quarters else f"Slide the cloth {slide}."


def _slide(way: Point, ruler: Ruler) -> str:
    steps = []
    for mm, names in ((way[0], ("right", "left")), (way[1], ("up", "down"))):
        if abs(mm) >= _LEAST_MM:
            steps.append(f"{_about(abs(mm), ruler)} {names[0] if mm > 0 else names[1]}")
    return " and ".join(steps)


def _about(mm: float, ruler: Ruler) -> str:
    """A length for moving cloth: to the inch, or to the centimetre."""
    step = ruler.unit.mm if ruler.unit is Unit.INCH else Fraction(10)
    return f"about {in_unit(nearest(Fraction(f'{mm:.3f}'), step), ruler.unit)} {ruler.unit.value}"
