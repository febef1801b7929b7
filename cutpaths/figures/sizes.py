"""The main sizes of a project, exact, without making any piece; mm.

Turned: backing = top raw + 2 (borders at both ends) + 2 c, finished = top raw - 2 s + borders.
Folded over: backing = top raw + 2 (borders at both ends), finished = top raw.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from cutpaths.lengths import Ruler, nearest
from cutpaths.project.model import Construction, Project
from cutpaths.project.sizes import backing, finished, raw_top
from cutpaths.values import Value

Pair = tuple[Fraction, Fraction]
_Axis = Callable[[Fraction, Fraction, Fraction], Fraction]


class Sizes(Value, kw_only=True):
    """Width and height of the top (seen and raw), the backing and the finished blanket."""

    seen: Pair
    raw: Pair
    backing: Pair
    finished: Pair


def sizes(project: Project) -> Sizes | None:
    """The sizes of a rectangular project; None for other outlines, which have no exact ones."""
    seen = project.sewn_top
    if seen is None:
        return None
    foot, right, head, left = project.borders
    return _sizes(project, seen, (left + right, head + foot))


def _sizes(project: Project, seen: Pair, borders: Pair) -> Sizes:
    raw = raw_top(seen[0], project.allowance), raw_top(seen[1], project.allowance)
    turned = project.construction is Construction.TURNED
    return Sizes(
        seen=seen,
        raw=raw,
        backing=_pair(backing, raw, borders, project.turn_of_cloth),
        finished=_pair(finished, raw, borders, project.allowance) if turned else raw,
    )


def _pair(of: _Axis, raw: Pair, borders: Pair, amount: Fraction) -> Pair:
    return of(raw[0], borders[0], amount), of(raw[1], borders[1], amount)


def filling_size(project: Project) -> Pair | None:
    """The cut filling of a rectangular project; None for other outlines, or without one."""
    settled, filling = sizes(project), project.filling
    if settled is None or filling is None:
        return None
    width, height = settled.finished
    return width - 2 * filling.less, height - 2 * filling.less


class Suggestion(Value):
    """The border nearest to the project's own for which every size falls on the ruler."""

    border: Fraction
    sizes: Sizes


def on_the_ruler(project: Project, ruler: Ruler) -> Suggestion | None:
    """The nearest equal border that leaves no size off the ruler; None where there is none.

    Only for a project of one border width, some size of which is off the ruler's step.
    """
    now = sizes(project)
    if now is None or len(set(project.borders)) != 1 or _all_on(now, project.borders[0], ruler):
        return None
    middle = nearest(project.borders[0], ruler.step)
    least = max(project.allowance + project.turn_of_cloth / 2, project.trim)
    steps = sorted(range(-16, 17), key=lambda k: (abs(k), -k))
    for border in (middle + k * ruler.step for k in steps):
        found = _sizes(project, now.seen, (2 * border, 2 * border))
        if border >= least and _all_on(found, border, ruler):
            return Suggestion(border, found)
    return None


def _all_on(found: Sizes, border: Fraction, ruler: Ruler) -> bool:
    return all(ruler.on_step(mm) for mm in (border, *found.backing, *found.finished))
