"""If the sewn top comes out small or large: what then to cut, or what the same backing gives; mm.

A top that is d larger each way, in the middle of the same backing, leaves each border d / 4
narrower (backing = top + 4 borders), so a dot moves d / 2 along its raw edge. That is less than
most rulers show, so the table has a finer one, to 1/32 in or 0.1 mm, and marks with `~` what is
rounded.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.figures.model import Figure, words
from cutpaths.figures.sizes import sizes
from cutpaths.lengths import INCH, Ruler, Unit, exact_text
from cutpaths.project.model import Construction, Project

# What is worth a line of the table; common practice, no source.
_INCHES = tuple(INCH * n / 8 for n in (1, 2, 3, 4))
_METRIC = tuple(Fraction(3 * n) for n in (1, 2, 3, 4))
# A quarter of the least of them.
_FINE_INCH = INCH / 32
_FINE_METRIC = Fraction(1, 10)


def heading(project: Project) -> str:
    """What stands over the table: how fine it is."""
    fine = _fine(project)
    return f"If the sewn top comes out (told to {fine.text(fine.step)}, ~ where rounded)"


def deviations(project: Project) -> tuple[Figure, ...]:
    """A line for each deviation; none for outlines, and none once the top was measured."""
    if project.measured is not None or sizes(project) is None:
        return ()
    steps = _INCHES if project.ruler.unit is Unit.INCH else _METRIC
    return tuple(
        _line(project, sign * step, f"{word}.{n}")
        for word, sign in (("small", -1), ("large", 1))
        for n, step in enumerate(steps, 1)
    )


def _line(project: Project, off: Fraction, key: str) -> Figure:
    way = "small" if off < 0 else "large"
    text = f"cut the backing {_backing(project, off)}, {', '.join(_same_backing(project, off))}"
    return words(f"deviation.{key}", f"{exact_text(abs(off), project.ruler.unit)} {way}", text)


def _fine(project: Project) -> Ruler:
    """The ruler of the table: the project's own where that is finer."""
    ruler = project.ruler
    fine = _FINE_INCH if ruler.unit is Unit.INCH else _FINE_METRIC
    return Ruler(ruler.unit, min(ruler.step, fine))


def _backing(project: Project, off: Fraction) -> str:
    found = sizes(project)
    width, height = found.backing if found else (Fraction(0), Fraction(0))
    return " x ".join(_fine(project).text(size + off) for size in (width, height))


def _same_backing(project: Project, off: Fraction) -> Iterator[str]:
    """What the backing as designed gives: its borders, then its dots or folds."""
    fine = _fine(project)
    borders = [border - off / 4 for border in project.borders]
    folded = project.construction is Construction.FOLDED_OVER
    least = project.allowance if folded else _least(project)
    if min(borders) < least or (folded and min(borders) == least):
        yield f"or a wider one: the same leaves a border of only {fine.text(min(borders))}"
        return
    if len(set(borders)) > 1:
        wider = "wider" if off < 0 else "narrower"
        moved = "farther from" if off < 0 else "nearer to"
        marks = "second folds {} {} the raw edges" if folded else "dots {} {} the corners"
        yield f"or keep it: each border {fine.text(abs(off) / 4)} {wider}"
        yield marks.format(fine.text(abs(off) / 2), moved)
        return
    border = borders[0]
    yield f"or keep it: border {fine.text(border)}"
    if folded:
        yield f"folds at {fine.text(border)} and {fine.text(2 * border)}"
        return
    along = 2 * border + project.turn_of_cloth + project.allowance
    yield f"dots {fine.text(along)} from the corner"


def _least(project: Project) -> Fraction:
    """The narrowest border that hides the seam's allowance and the miter's."""
    return max(project.allowance + project.turn_of_cloth / 2, project.trim)
