"""The turning opening of a project: where it goes, and what to say of it; mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.marks import letter
from cutpaths.geometry.opening import (
    USUAL_INCH,
    USUAL_METRIC,
    PlacedOpening,
    longest,
    place,
)
from cutpaths.geometry.polygons import SAME_PLACE_MM
from cutpaths.lengths import Ruler, Unit
from cutpaths.project.model import Opening, Project


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
        InputError: the opening asked for does not fit; says the longest that would.
    """
    asked = project.opening
    if asked is None:
        return None
    side = order[1] if asked.side is None else asked.side
    found = place(
        side,
        lengths[side],
        seams[side],
        lengths=_usual(project) if asked.length is None else (float(asked.length),),
        step=float(project.ruler.step),
        start=None if asked.start is None else float(asked.start),
    )
    if found is None:
        raise InputError(_opening_finding(project, asked, side, lengths[side]))
    return found


def _usual(project: Project) -> tuple[float, ...]:
    """The usual lengths of an opening, the longest first."""
    return USUAL_INCH if project.ruler.unit is Unit.INCH else USUAL_METRIC


def _opening_finding(project: Project, asked: Opening, side: int, length: float) -> Finding:
    """Says what fits instead of the opening asked for."""
    key, value = ("opening.start", asked.start) if asked.start else ("opening.length", asked.length)
    got = "" if value is None else f", got {project.ruler.text(value)}"
    problem = f"must leave 2 in sewn at each dot of side {letter(side)}{got}"
    most = longest(length)
    hint = "Choose a longer side"
    if most > 0:
        hint = f"The longest opening there is {_about(project.ruler, most)}"
    return Finding(key=key, problem=problem, hint=hint)


def _about(ruler: Ruler, mm: float) -> str:
    """A computed length, down to the ruler's step."""
    return ruler.text((Fraction(mm) / ruler.step + Fraction(1, 10**6)).__floor__() * ruler.step)


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
        notes.append(f"An end of the opening on side {side} is less than 1/2 in from a patch seam.")
    return tuple(notes)
