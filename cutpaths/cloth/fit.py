"""What can be made of the cloth on hand: sizes of one project that take nothing else; mm, exact.

Tried are all columns and rows that the cloth has squares for, each with the widest border for
which the backing can be cut in one, and with the widest for which it can be joined.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.joining import joinings
from cutpaths.cloth.needs import needs_of
from cutpaths.cloth.on_hand import OnHandPlans
from cutpaths.cloth.sheets_of import blanks_on_hand
from cutpaths.cloth.stock import stock_of
from cutpaths.errors import Finding, InputError
from cutpaths.figures.sizes import Pair, sizes
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project.model import Project, Squares
from cutpaths.project.sizes import border_of_backing, raw_top
from cutpaths.project.stock import Join, Stock

FEWEST = 2  # columns or rows
SLIMMEST = 2  # times as many columns as rows, or rows as columns (common practice, no source)
WIDEST_BORDER = 6 * INCH  # common practice, no source

Watch = Callable[[int, int], bool]  # hears how many of how many are tried; answers whether to go on


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One size that can be made.

    Attributes:
        columns, rows: squares across and down.
        border: width of the border.
        finished: size of the blanket.
        join: how its backing is joined; None where it is cut in one.
        waste: cloth that is cut into and in no piece, in mm².
        plans: how it is cut.
    """

    columns: int
    rows: int
    border: Fraction
    finished: Pair
    join: Join | None
    waste: Fraction
    plans: tuple[FabricPlan, ...]

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
        InputError: the project's top is not squares of fabrics in turn, or nothing is on hand.
    """
    turns = in_turn(project)
    grids = _grids(project, turns)
    found: list[Option] = []
    cut = OnHandPlans()
    for number, (columns, rows) in enumerate(grids):
        if not watch(number, len(grids)):
            break
        found += _of_grid(_sized(project, turns, columns, rows), cut)
    kept = [each for each in found if not any(other.beats(each) for other in found)]
    return tuple(sorted(kept, key=lambda each: (-each.area, each.waste, each.columns)))


def in_turn(project: Project) -> tuple[str, ...]:
    """The fabrics that take turns in the top.

    Raises:
        InputError: it is no top of squares in turn, or no cloth of it is on hand.
    """
    top = project.top
    if not isinstance(top, Squares):
        problem = 'must be "squares" to be fitted to cloth'
        raise InputError(Finding(key="top.layout", problem=problem))
    first = tuple(dict.fromkeys(name for row in top.chart for name in row))
    if not all(
        name == first[(r + c) % len(first)]
        for r, row in enumerate(top.chart)
        for c, name in enumerate(row)
    ):
        problem = "must have fabrics that take turns to be fitted to cloth"
        raise InputError(Finding(key="top.chart", problem=problem, hint="Write `fabrics` instead"))
    used = {*first, project.backing_fabric}
    if missing := [f.name for f in project.fabrics if f.name in used and not _on_hand(f.stock)]:
        key = f"fabric.{missing[0]}.stock.on_hand"
        hint = 'Write for example on_hand = [{ length = "2 yd" }]'
        raise InputError(Finding(key=key, problem="is missing", hint=hint))
    return first


def _on_hand(stock: Stock | None) -> bool:
    return stock is not None and bool(stock.on_hand)


def _grids(project: Project, turns: Sequence[str]) -> list[tuple[int, int]]:
    """Columns and rows for which there are squares enough, the largest first."""
    most = {name: _squares(project, name) for name in turns}
    total = sum(most.values())
    found = [
        (columns, rows)
        for columns in range(FEWEST, total // FEWEST + 1)
        for rows in range(FEWEST, total // columns + 1)
        if max(columns, rows) <= SLIMMEST * min(columns, rows)
        and all(n <= most[name] for name, n in _counts(turns, columns, rows).items())
    ]
    return sorted(found, key=lambda grid: (-grid[0] * grid[1], grid))


def _counts(turns: Sequence[str], columns: int, rows: int) -> Counter[str]:
    """How many squares of each fabric a grid takes."""
    size = len(turns)
    return Counter(turns[(r + c) % size] for r in range(rows) for c in range(columns))


def _squares(project: Project, name: str) -> int:
    """How many squares can be cut of a fabric, if nothing else is."""
    top = project.top
    if not isinstance(top, Squares):
        return 0
    side = raw_top(top.finished, project.allowance)
    fabric = next(f for f in project.fabrics if f.name == name)
    inner = [blank.inner for blank in blanks_on_hand(stock_of(project, fabric))]
    return sum(max(0, int(w // side)) * max(0, int(h // side)) for w, h in inner)


def _sized(project: Project, turns: Sequence[str], columns: int, rows: int) -> Project:
    """The project with other columns and rows, not joined and not measured."""
    top = project.top
    if not isinstance(top, Squares):
        return project
    size = len(turns)
    chart = tuple(tuple(turns[(r + c) % size] for c in range(columns)) for r in range(rows))
    opening = project.opening and replace(project.opening, length=None, side=None, start=None)
    return replace(
        project,
        top=Squares(finished=top.finished, chart=chart),
        measured=None,
        join=None,
        opening=opening,
    )


def _of_grid(project: Project, cut: OnHandPlans) -> Iterator[Option]:
    """The widest border with a backing in one, and a wider one with a joined backing."""
    whole = _first(
        _descending(project, _widest_whole(project)), lambda each: _whole_option(each, cut), project
    )
    if whole is not None:
        yield whole
    least = Fraction(0) if whole is None else whole.border
    wider = [b for b in _descending(project, WIDEST_BORDER) if b > least and _covered(project, b)]
    joined = _first(iter(_halving(wider)), lambda each: _joined_option(each, cut), project)
    if joined is not None:
        yield joined


def _halving(borders: Sequence[Fraction]) -> Iterator[Fraction]:
    """A few widths from wide to narrow: each halves what is left, and the narrowest is last."""
    low, high = 0, len(borders) - 1
    while low <= high:
        yield borders[low]
        low += max(1, (high - low + 1) // 4)


def _first(
    borders: Iterator[Fraction],
    option: Callable[[Project], Option | None],
    project: Project,
) -> Option | None:
    for border in borders:
        found = option(replace(project, borders=(border,) * len(project.borders)))
        if found is not None:
            return found
    return None


def _descending(project: Project, most: Fraction) -> Iterator[Fraction]:
    """Borders on the ruler from a widest one down to the least that can be sewn."""
    step = project.ruler.step
    least = max(project.allowance + project.turn_of_cloth / 2, project.trim)
    border = min(most, WIDEST_BORDER) // step * step
    while border >= least:
        yield border
        border -= step


def _widest_whole(project: Project) -> Fraction:
    """The widest border for which the backing fits a cloth on hand that holds nothing else."""
    fabric = next(f for f in project.fabrics if f.name == project.backing_fabric)
    settled = sizes(project)
    if settled is None:
        return Fraction(0)
    raw, turn = settled.raw, project.turn_of_cloth
    ways = [raw] if fabric.directional else [raw, raw[::-1]]
    inner = [blank.inner for blank in blanks_on_hand(stock_of(project, fabric))]
    return max(
        (
            min(border_of_backing(w, way[0], turn), border_of_backing(h, way[1], turn))
            for w, h in inner
            for way in ways
        ),
        default=Fraction(0),
    )


def _whole_option(project: Project, cut: OnHandPlans) -> Option | None:
    kit = _built(project)
    return None if kit is None else _option(kit, None, cut)


def _joined_option(project: Project, cut: OnHandPlans) -> Option | None:
    """The way to join that is cut from the cloth on hand with the least waste."""
    kit = _built(project)
    if kit is None:
        return None
    ways = (_option(way.kit, way.join, cut) for way in joinings(kit))
    found = [each for each in ways if each is not None]
    return min(found, key=lambda each: (each.seams, each.waste), default=None)


def _covered(project: Project, border: Fraction) -> bool:
    """Whether there is as much of the backing's cloth on hand as a backing covers."""
    settled = sizes(replace(project, borders=(border,) * len(project.borders)))
    fabric = next(f for f in project.fabrics if f.name == project.backing_fabric)
    inner = [blank.inner for blank in blanks_on_hand(stock_of(project, fabric))]
    there = sum(w * h for w, h in inner if w > 0 and h > 0)
    return settled is not None and settled.backing[0] * settled.backing[1] <= there


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
    if settled is None or not isinstance(project.top, Squares):
        return None
    return Option(
        columns=project.top.columns,
        rows=project.top.rows,
        border=project.borders[0],
        finished=settled.finished,
        join=join,
        waste=sum(map(_waste, plans), Fraction(0)),
        plans=tuple(plans),
    )


def _waste(plan: FabricPlan) -> Fraction:
    taken = sum((sheet.width * sheet.used for sheet in plan.sheets), Fraction(0))
    return taken - sum((need.area for need in plan.needs), Fraction(0))
