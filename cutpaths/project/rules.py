"""Rules of the tables that have none of their own module: head of the file, opening, filling."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.project.borders import Edge, borders_of
from cutpaths.project.fabrics import filling_fabric
from cutpaths.project.flaws import Flaw
from cutpaths.project.model import Filling
from cutpaths.project.shape import FileTable
from cutpaths.project.words import word_flaws

# Marks of rulers on sale (common practice, no source); inches are halved, metric ones decimal.
RULER_INCH = tuple(INCH / parts for parts in (1, 2, 4, 8, 16, 32, 64))
RULER_METRIC_LEAST = Fraction(1, 10)
RULER_METRIC_MOST = Fraction(10)
# How much smaller than the finished blanket a filling is cut; common practice, no source.
FILLING_LESS = INCH / 8
FILLING_LESS_METRIC = Fraction(3)


def ruler_of(file: FileTable) -> Ruler:
    """The ruler of the file: 1/8 in, or 1 mm in metric files, where it gives none."""
    default = INCH / 8 if file.units is Unit.INCH else Fraction(1)
    return Ruler(file.units, file.ruler or default)


def head_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of the keys at the head of the file."""
    yield from word_flaws(("title",), file.title)
    if file.ruler is None:
        return
    if file.units is Unit.INCH:
        fits, rule = file.ruler in RULER_INCH, "1, 1/2, 1/4, 1/8, 1/16, 1/32 or 1/64 in"
    else:
        tenths = (file.ruler / RULER_METRIC_LEAST).denominator == 1
        fits = tenths and file.ruler <= RULER_METRIC_MOST
        rule = "a whole number of tenths of a mm, 10 mm at most"
    if not fits:
        got = ruler_of(file)
        yield Flaw(("ruler",), f"must be {rule}, got {_written(got)}")


def _written(ruler: Ruler) -> str:
    """The step itself, which its own ruler shows without rounding."""
    return ruler.text(ruler.step)


def opening_flaws(file: FileTable, edge: Edge) -> Iterator[Flaw]:
    """Rules of [opening] that need no geometry: whether its side exists."""
    opening = file.opening
    if opening is None or opening.side is None:
        return
    if opening.side not in edge.letters:
        problem = f"must be one of {', '.join(edge.letters)}, got {opening.side}"
        yield Flaw(("opening", "side"), problem)
    elif edge.ring is not None and opening.start is not None:
        written = edge.letters.index(opening.side)
        whole = next(sides for sides in edge.ring.sides if written in sides)
        if len(whole) > 1:
            problem = f"cannot be counted on side {opening.side}, which is part of a straight side"
            hint = "Leave out the point in the middle of it"
            yield Flaw(("opening", "start"), problem, hint)


def filling_of(file: FileTable) -> Filling | None:
    """The filling that a file asks for, 1/8 in smaller on every side where it does not say."""
    table = file.filling
    if table is None:
        return None
    default = FILLING_LESS if file.units is Unit.INCH else FILLING_LESS_METRIC
    return Filling(filling_fabric(table), default if table.less is None else table.less)


def filling_flaws(file: FileTable, edge: Edge) -> Iterator[Flaw]:
    """Rules of [filling]: it reaches under the border, whose stitching holds it."""
    filling, narrowest = filling_of(file), min(borders_of(file.border, edge))
    if filling is not None and filling.less >= narrowest > 0:
        problem = (
            f"must be less than the narrowest border, {edge.seams.text(narrowest)}, whose "
            f"stitching holds the filling, got {edge.seams.text(filling.less)}"
        )
        yield Flaw(("filling", "less"), problem)
