"""Which columns and rows of a project there seems to be cloth enough for; mm, exact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import count

from cutpaths.cloth.bound import rooms_on_hand
from cutpaths.cloth.fit_tops import areas_of, grid_of, grows, least_of, patches_of, resized
from cutpaths.cloth.stock import stock_of
from cutpaths.pieces import build
from cutpaths.project.model import Project
from cutpaths.project.sizes import raw_top
from cutpaths.project.stock import Size
from cutpaths.values import replace

SLIMMEST = 2  # times as wide as high, or as high as wide (common practice, no source)


def sized_projects(project: Project) -> list[Project]:
    """The project in other columns and rows, the largest top first; border and rest as they are."""
    there = {f.name: rooms_on_hand(stock_of(project, f)) for f in project.fabrics}
    made = (_sized(project, *grid) for grid in _grids(project, there))
    return [each for each in made if each is not None and _seems_enough(each, there)]


def area_of(rooms: Sequence[Size]) -> Fraction:
    """All that some cloths have room for."""
    return sum((w * h for w, h in rooms), Fraction(0))


def _grids(project: Project, there: Mapping[str, Sequence[Size]]) -> list[tuple[int, int]]:
    """Columns and rows of tops no larger than the cloth for them, the largest first."""
    patches = build(project).patchwork.pieces()
    area = sum((area_of(there[name]) for name in {piece.fabric for piece in patches}), Fraction(0))
    wider, higher = grows(project.top)
    if wider and higher:  # only those not too slim are tried, so that the area limits each side
        most = SLIMMEST * area
    else:
        most = (area / _side(project, 1 if wider else 0, *grid_of(project.top))) ** 2
    widths = _sides(project, 0, most, more=wider)
    heights = _sides(project, 1, most, more=higher)
    found = [
        (width * height, (across, down))
        for across, width in widths
        for down, height in heights
        if width * height <= area
        and (not (wider and higher) or max(width, height) <= SLIMMEST * min(width, height))
    ]
    return [grid for _, grid in sorted(found, key=lambda each: (-each[0], each[1]))]


def _side(project: Project, axis: int, columns: int, rows: int) -> Fraction:
    """Finished width (0) or height (1) of the top in some columns and rows; 0 if none is made."""
    top = resized(project.top, columns, rows)
    size = None if top is None else replace(project, top=top, measured=None).finished_top
    return Fraction(0) if size is None else size[axis]


def _sides(
    project: Project, axis: int, most: Fraction, *, more: bool
) -> list[tuple[int, Fraction]]:
    """Columns (0) with their width, or rows (1) with their height, up to the square of a length.

    The other way they are as many as in the project, so that no row or column lacks its block.
    """
    grid, least = list(grid_of(project.top)), least_of(project.top)[axis]
    found: list[tuple[int, Fraction]] = []
    for number in count(least) if more else (least,):
        grid[axis] = number
        side = _side(project, axis, *grid)
        if side**2 > most and more:
            break
        if side:
            found.append((number, side))
    return found


def _seems_enough(project: Project, there: Mapping[str, Sequence[Size]]) -> bool:
    """Whether there is as much cloth as the patches cover, and room for each square alone."""
    covered: dict[str, Fraction] = {}
    for name, wide, high, number in patches_of(project.top):
        cut = raw_top(wide, project.allowance), raw_top(high, project.allowance)
        covered[name] = covered.get(name, Fraction(0)) + cut[0] * cut[1] * number
        if wide == high and number > _squares(there[name], cut[0]):
            return False
    for name, shown in areas_of(project.top):
        covered[name] = covered.get(name, Fraction(0)) + shown
    return all(area <= area_of(there[name]) for name, area in covered.items())


def _squares(rooms: Sequence[Size], side: Fraction) -> int:
    """How many squares can be cut, if nothing else is."""
    return sum(int(w // side) * int(h // side) for w, h in rooms)


def _sized(project: Project, columns: int, rows: int) -> Project | None:
    """The project with other columns and rows, not joined and not measured; None if not made."""
    top = resized(project.top, columns, rows)
    opening = project.opening and replace(project.opening, length=None, side=None, start=None)
    if top is None:
        return None
    return replace(project, top=top, measured=None, join=None, opening=opening)
