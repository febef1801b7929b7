"""What can be made of the cloth on hand: sizes of one project that take nothing else; mm, exact.

Tried are all columns and rows for which there seems to be cloth enough, each with the widest
border on the ruler for which the backing can be cut in one, and with the widest for which it can
be joined. The border is the same on all sides, whichever way the project settles its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from cutpaths.cloth.bound import rooms_on_hand
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.fit_grids import area_of, sized_projects
from cutpaths.cloth.fit_tops import grid_of, require_rectangle
from cutpaths.cloth.joining import joinings
from cutpaths.cloth.needs import needs_of
from cutpaths.cloth.on_hand import OnHandPlans
from cutpaths.cloth.stock import stock_of
from cutpaths.errors import Finding, InputError
from cutpaths.figures.sizes import Pair, filling_size, sizes
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project.model import Fabric, Project
from cutpaths.project.sizes import border_of_backing
from cutpaths.project.stock import Join, Stock
from cutpaths.values import Value, replace

WIDEST_BORDER = 6 * INCH  # common practice, no source

Watch = Callable[[int, int], bool]  # hears how many of how many are tried; answers whether to go on


class Option(Value, kw_only=True):
    """One size that can be made.

    Attributes:
        columns, rows: of the top, as the project file counts them.
        border: width of the border.
        finished: size of the blanket.
        join: how its backing is joined; None where it is cut in one.
        waste: cloth that is cut into and in no piece, in mm².
        plans: how it is cut.
        project: the size itself.
    """

    columns: int
    rows: int
    border: Fraction
    finished: Pair
    join: Join | None
    waste: Fraction
    plans: tuple[FabricPlan, ...]
    project: Project

    @property
    def area(self) -> Fraction:
        """Of the finished blanket."""
        return self.finished[0] * self.finished[1]

    @property
    def seams(self) -> int:
        """How many joining seams its backing has."""
        return 0 if self.join is None else self.join.seams

    def beats(self, other: Option) -> bool:
        """Whether it is as good on every count, and better on one."""
        larger, thriftier = self.area >= other.area, self.waste <= other.waste
        alike = (self.area, self.waste, self.seams) == (other.area, other.waste, other.seams)
        return larger and thriftier and self.seams <= other.seams and not alike


def options(project: Project, watch: Watch) -> tuple[Option, ...]:
    """What can be made and nothing else beats, the largest first, then the least wasteful.

    Raises:
        InputError: the project's top is an outline, or a fabric of it has no cloth on hand.
    """
    require_rectangle(project)
    _require_cloth(project)
    sized = sized_projects(project)
    found: list[Option] = []
    cut = OnHandPlans()
    for number, each in enumerate(sized):
        if not watch(number, len(sized)):
            break
        found += _of_grid(each, cut)
    kept = [each for each in found if not any(other.beats(each) for other in found)]
    return tuple(sorted(kept, key=lambda each: (-each.area, each.waste, each.columns)))


def _require_cloth(project: Project) -> None:
    used = {piece.fabric for piece in build(project).cloth}
    for fabric in project.fabrics:
        if fabric.name in used and not _on_hand(fabric.stock):
            key = f"fabric.{fabric.name}.stock.on_hand"
            hint = 'Write for example on_hand = [{ length = "2 yd" }]'
            raise InputError(Finding(key=key, problem="is missing", hint=hint))


def _on_hand(stock: Stock | None) -> bool:
    return stock is not None and bool(stock.on_hand)


def _of_grid(project: Project, cut: OnHandPlans) -> Iterator[Option]:
    """The widest border with a backing in one, and a wider one with a joined backing."""
    if not _covered(project, _least(project)) or not _has_patches(project, cut):
        return
    whole = _whole(project, cut)
    if whole is not None:
        yield whole
    least = Fraction(0) if whole is None else whole.border
    wider = [b for b in _descending(project, WIDEST_BORDER) if b > least and _joinable(project, b)]
    joined = _widest(wider, lambda b: _joined_option(_bordered(project, b), cut))
    if joined is not None:
        yield joined


def _has_patches(project: Project, cut: OnHandPlans) -> bool:
    """Whether there is cloth for all fabrics of the top alone; those of the backing wait for it."""
    kit = _built(_bordered(project, _least(project)))
    if kit is None:
        return True  # its opening may want a wider border
    waiting = {project.backing_fabric, project.filling.fabric if project.filling else ""}
    others = (f for f in project.fabrics if f.name not in waiting)
    wanted = ((fabric, needs_of(kit, fabric)) for fabric in others)
    return all(cut.of(project, fabric, needs) for fabric, needs in wanted if needs)


def _widest(
    borders: Sequence[Fraction], option: Callable[[Fraction], Option | None]
) -> Option | None:
    """The option with the widest of some borders, the widest first, by a few looks.

    From wide to narrow each look leaves out a quarter of what is left; then what lies between the
    first width that does and the one before it is halved.
    """
    wide, does, found = -1, 0, None
    while does < len(borders) and (found := option(borders[does])) is None:
        wide, does = does, does + max(1, (len(borders) - does) // 4)
    if found is None:
        return None
    while does - wide > 1:
        middle = (wide + does) // 2
        better = option(borders[middle])
        if better is None:
            wide = middle
        else:
            does, found = middle, better
    return found


def _bordered(project: Project, border: Fraction) -> Project:
    return replace(project, borders=(border,) * len(project.borders))


def _whole(project: Project, cut: OnHandPlans) -> Option | None:
    """The widest border with a backing in one."""
    for border in _descending(project, _widest_whole(project)):
        kit = _built(_bordered(project, border))
        found = None if kit is None else _option(kit, None, cut)
        if found is not None:
            return found
    return None


def _descending(project: Project, most: Fraction) -> Iterator[Fraction]:
    """Borders on the ruler from a widest one down to the least that can be sewn."""
    step, least = project.ruler.step, _least(project)
    border = min(most, WIDEST_BORDER) // step * step
    while border >= least:
        yield border
        border -= step


def _least(project: Project) -> Fraction:
    """The narrowest border that can be sewn."""
    return max(project.allowance + project.turn_of_cloth / 2, project.trim)


def _widest_whole(project: Project) -> Fraction:
    """The widest border for which the backing fits a cloth on hand that holds nothing else."""
    fabric, settled = _backing_of(project), sizes(project)
    if settled is None:
        return Fraction(0)
    raw, turn = settled.raw, project.turn_of_cloth
    ways = [raw] if fabric.directional else [raw, raw[::-1]]
    return max(
        (
            min(border_of_backing(w, way[0], turn), border_of_backing(h, way[1], turn))
            for w, h in rooms_on_hand(stock_of(project, fabric))
            for way in ways
        ),
        default=Fraction(0),
    )


def _joined_option(project: Project, cut: OnHandPlans) -> Option | None:
    """The way to join by fewest seams, then of least waste, that the cloth on hand allows."""
    kit = _built(project)
    if kit is None:
        return None
    for _, ways in groupby(joinings(kit), key=lambda way: way.join.seams):
        tried = [_option(way.kit, way.join, cut) for way in ways]
        if found := [each for each in tried if each is not None]:
            return min(found, key=lambda each: each.waste)
    return None


def _covered(project: Project, border: Fraction) -> bool:
    """Whether there is as much cloth on hand as backing and filling cover."""
    bordered = _bordered(project, border)
    settled, filling = sizes(bordered), filling_size(bordered)
    wanted = {project.backing_fabric: settled.backing if settled else None}
    if project.filling is not None:
        wanted[project.filling.fabric] = filling
    return all(
        size is None or size[0] * size[1] <= area_of(rooms_on_hand(stock_of(project, fabric)))
        for fabric in project.fabrics
        for size in [wanted.get(fabric.name)]
    )


def _joinable(project: Project, border: Fraction) -> bool:
    """Whether there is room for panels as long as a seam and together wide enough, roughly."""
    settled = sizes(_bordered(project, border))
    if settled is None or not _covered(project, border):
        return False
    rooms = rooms_on_hand(stock_of(project, _backing_of(project)))
    across, down = settled.backing
    return any(
        sum((h // long) * w + (w // long) * h for w, h in rooms) >= wide
        for long, wide in ((down, across), (across, down))
    )


def _backing_of(project: Project) -> Fabric:
    return next(f for f in project.fabrics if f.name == project.backing_fabric)


def _built(project: Project) -> Kit | None:
    """The kit; None where a size cannot be made, such as one with no room for its opening."""
    try:
        return build(project)
    except InputError:
        return None


def _option(kit: Kit, join: Join | None, cut: OnHandPlans) -> Option | None:
    """The kit as an option; None where the cloth on hand is not enough."""
    project, settled = kit.project, sizes(kit.project)
    # The backing first: it is what does not fit most often.
    fabrics = sorted(project.fabrics, key=lambda each: each.name != project.backing_fabric)
    plans = []
    for fabric in fabrics:
        needs = needs_of(kit, fabric)
        plan = cut.of(project, fabric, needs) if needs else None
        if needs and plan is None:
            return None
        if plan is not None:
            plans.append(plan)
    if settled is None:
        return None
    columns, rows = grid_of(project.top)
    return Option(
        columns=columns,
        rows=rows,
        border=project.borders[0],
        finished=settled.finished,
        join=join,
        waste=sum(map(_waste, plans), Fraction(0)),
        plans=tuple(plans),
        project=replace(project, join=join),
    )


def _waste(plan: FabricPlan) -> Fraction:
    taken = sum((sheet.width * sheet.used for sheet in plan.sheets), Fraction(0))
    return taken - sum((need.area for need in plan.needs), Fraction(0))
