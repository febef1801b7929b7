"""The turning opening of a project: where it goes, and what to say of it; mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.marks import letter
from cutpaths.geometry.opening import (
    DOT_CLEARANCE,
    FILLED_INCH,
    FILLED_METRIC,
    SEAM_CLEARANCE,
    USUAL_INCH,
    USUAL_METRIC,
    PlacedOpening,
    longest,
    place,
)
from cutpaths.geometry.polygons import SAME_PLACE_MM
from cutpaths.lengths import Ruler, Unit
from cutpaths.project.model import Opening, Project
from cutpaths.values import Value

_LARGER = "Make the sides longer; a folded-over blanket needs no opening"


def opening_of(
    project: Project,
    order: Sequence[int],
    lengths: Sequence[float],
    seams: Sequence[Sequence[float]],
) -> PlacedOpening | None:
    """The turning opening, on the side asked for or the second sewn; None when folded over.

    Args:
        project: what was asked for.
        order: sides in sewing order.
        lengths: of the sides, from dot to dot.
        seams: for each side, where patch seams meet it.

    Raises:
        InputError: no such opening fits; says which would.
    """
    asked = project.opening
    if asked is None:
        return None
    side = order[1] if asked.side is None else asked.side
    wanted = _usual(project) if asked.length is None else (float(asked.length),)
    found = place(
        side,
        lengths[side],
        seams[side],
        lengths=wanted,
        step=float(project.ruler.step),
        start=None if asked.start is None else float(asked.start),
    )
    if found is None:
        raise InputError(_finding(project, asked, _Tried(side, min(wanted), lengths)))
    return found


def _usual(project: Project) -> tuple[float, ...]:
    """The usual lengths of an opening, the longest first."""
    inches = project.ruler.unit is Unit.INCH
    if project.filling is not None:
        return FILLED_INCH if inches else FILLED_METRIC
    return USUAL_INCH if inches else USUAL_METRIC


class _Tried(Value):
    """What did not fit: on which side, the shortest opening there, and how long all sides are."""

    side: int
    shortest: float
    lengths: Sequence[float]

    @property
    def most(self) -> float:
        """The longest opening of the side; negative where there is none."""
        return longest(self.lengths[self.side])

    @property
    def roomy(self) -> str:
        """Letter of the longest side where the opening would fit on it, else empty."""
        best = max(range(len(self.lengths)), key=lambda side: self.lengths[side])
        return letter(best) if _fits(self.shortest, longest(self.lengths[best])) else ""


def _fits(length: float, most: float) -> bool:
    return length <= most + SAME_PLACE_MM


def _finding(project: Project, asked: Opening, tried: _Tried) -> Finding:
    """Says what keeps an opening from its side: its place, its length, or the side itself."""
    ruler = project.ruler
    clear = _about(ruler, DOT_CLEARANCE, up=True)
    rule = f"must leave {clear} sewn at each dot of side {letter(tried.side)}"
    if asked.start is not None and _fits(tried.shortest, tried.most):
        problem = f"{rule}, got {ruler.text(asked.start)}"
        return Finding(key="opening.start", problem=problem, hint=_places(ruler, tried))
    if asked.length is not None:
        hint = f"The longest opening there is {_about(ruler, tried.most)}"
        if tried.most < float(ruler.step):
            hint = "Choose a longer side" if tried.roomy else _LARGER
        problem = f"{rule}, got {ruler.text(asked.length)}"
        return Finding(key="opening.length", problem=problem, hint=hint)
    return _short_side(ruler, asked, tried)


def _short_side(ruler: Ruler, asked: Opening, tried: _Tried) -> Finding:
    """Says that a side is too short for the shortest of the usual openings."""
    needed = _about(ruler, tried.shortest + 2 * DOT_CLEARANCE, up=True)
    size = _about(ruler, tried.lengths[tried.side])
    chosen, clear = letter(tried.side), _about(ruler, DOT_CLEARANCE, up=True)
    why = f"{_about(ruler, tried.shortest)} to turn it through and {clear} sewn at each dot"
    instead = f'Write `side = "{tried.roomy}"` in the table [opening]' if tried.roomy else _LARGER
    if asked.side is not None:
        problem = f"must be a side of at least {needed}, for {why}; {chosen} is {size} long"
        return Finding(key="opening.side", problem=problem, hint=instead)
    problem = f"must have a side {chosen} of at least {needed}, for {why}; it is {size} long"
    return Finding(key="top", problem=problem, hint=instead)


def _places(ruler: Ruler, tried: _Tried) -> str:
    """Where the first end of an opening may lie."""
    first = _on_ruler(ruler, DOT_CLEARANCE, up=True)
    last = _on_ruler(ruler, DOT_CLEARANCE + tried.most - tried.shortest)
    if first > last:
        return "Leave `start` out"
    if first == last:
        return f"Only a `start` of {ruler.text(first)} fits"
    return f"Choose a `start` from {ruler.text(first)} to {ruler.text(last)}"


def _about(ruler: Ruler, mm: float, *, up: bool = False) -> str:
    """A computed length, down or up to the ruler's step."""
    return ruler.text(_on_ruler(ruler, mm, up=up))


def _on_ruler(ruler: Ruler, mm: float, *, up: bool = False) -> Fraction:
    steps, slack = Fraction(mm) / ruler.step, Fraction(1, 10**6)
    whole = (steps - slack).__ceil__() if up else (steps + slack).__floor__()
    return whole * ruler.step


def opening_notes(project: Project, opening: PlacedOpening | None) -> tuple[str, ...]:
    """What to say of an opening that is not what a person would expect."""
    if opening is None or project.opening is None:
        return ()
    notes = []
    side = letter(opening.side)
    most = _usual(project)[0]
    if project.opening.length is None and opening.length < most - SAME_PLACE_MM:
        usual, size = (_about(project.ruler, mm) for mm in (most, opening.length))
        notes.append(f"Side {side} has no room for the usual {usual} opening: it is {size} long.")
    if not opening.clear_of_seams:
        near = _about(project.ruler, SEAM_CLEARANCE, up=True)
        notes.append(f"An end of the opening on side {side} is less than {near} from a patch seam.")
    return tuple(notes)
