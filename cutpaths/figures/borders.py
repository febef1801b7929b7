"""Figures of the borders: how wide they are, and where they fold; mm, exact.

A turned border folds half a turn of cloth outside the finished edge as drawn on paper: border, seam
allowance and half a turn in from the backing's raw edge. A folded-over border is folded at once and
twice its width.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.figures.model import Figure, length
from cutpaths.geometry.marks import letter
from cutpaths.project.model import Construction, Project


def borders(project: Project) -> tuple[Figure, ...]:
    """The width of each border; one figure where they are alike."""
    ruler, widths = project.ruler, project.borders
    if len(set(widths)) == 1:
        return (length("border", "border", widths[0], ruler),)
    return tuple(
        length(f"border.{letter(i).lower()}", f"border of side {letter(i)}", border, ruler)
        for i, border in enumerate(widths)
    )


def border_folds(project: Project) -> Iterator[Figure]:
    """Where each distinct border folds, in from the backing's raw edge."""
    for border in dict.fromkeys(project.borders):
        sides = [letter(i) for i, each in enumerate(project.borders) if each == border]
        every = len(sides) == len(project.borders)
        at = "" if every else f".{sides[0].lower()}"
        of = "" if every else f" of side{'s' if len(sides) > 1 else ''} {', '.join(sides)}"
        for name, label, reach in _folds(project, border):
            whole = f"{label}{of}, in from the backing's raw edge"
            yield length(f"{name}{at}", whole, reach, project.ruler)


def _folds(project: Project, border: Fraction) -> Iterator[tuple[str, str, Fraction]]:
    """Key, name and distance of each fold."""
    if project.construction is Construction.FOLDED_OVER:
        yield "first-fold", "first fold", border
        yield "second-fold", "second fold", 2 * border
        return
    yield "border-fold", "border fold", border + project.allowance + project.turn_of_cloth / 2
