"""Kits by the dozen: the same blankets cut many times from bolts; mm, exact."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction

from cutpaths.cloth.bolts import BoltPlan, bolt_plans
from cutpaths.cloth.bound import freely_bound
from cutpaths.cloth.by_hand import misfits
from cutpaths.cloth.checked import require
from cutpaths.cloth.needs import BACKING, PANELS, Need, needs_of
from cutpaths.cloth.packing import judge
from cutpaths.cloth.packing.cover import is_installed
from cutpaths.cloth.packing.cuts import Node
from cutpaths.cloth.packing.patterns import PatternPlan, pack_patterns
from cutpaths.cloth.searched_strips import Search
from cutpaths.cloth.stock import before_washing, lost_first, stock_of, strip_width
from cutpaths.errors import CutpathsError, Finding, InputError, install_words
from cutpaths.geometry.layouts.triangles import rounded_up
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric, Project
from cutpaths.project.stock import Run, Sold, Stock
from cutpaths.values import Value, replace

ROUGH = 2 * INCH  # more than the backing, each way; common practice, no source


class KitBacking(StrEnum):
    """How a kit's backing is cut."""

    YARDAGE = "yardage"  # a length of cloth at its full width
    ROUGH = "rough"  # larger than needed, each way
    EXACT = "exact"  # to size; for tops of one cloth, which come out as they are cut


class FabricRun(Value, kw_only=True):
    """One fabric of a run of kits.

    Attributes:
        project: where its ruler is from.
        fabric, stock: which one, and how it is sold.
        needs: what all kits take of it.
        plan: the strips.
        bolts: how they lie on bolts.
        bound: length of cloth below which no plan of any kind comes, without squaring up.
    """

    project: Project
    fabric: Fabric
    stock: Stock
    needs: tuple[Need, ...]
    plan: PatternPlan
    bolts: tuple[BoltPlan, ...]
    bound: Fraction

    @property
    def count(self) -> int:
        """Bolts to order."""
        return sum(plan.bolts for plan in self.bolts)

    @property
    def strips_length(self) -> Fraction:
        """Length of all strips, without squaring up."""
        return Fraction(self.plan.height)

    @property
    def used(self) -> Fraction:
        """Length that is cut into, squaring up with it."""
        return sum((plan.used * plan.bolts for plan in self.bolts), Fraction(0))

    @property
    def gap(self) -> Fraction:
        """How far the strips are above the bound, as a part of it."""
        return (self.strips_length - self.bound) / self.bound

    @property
    def strip_gap(self) -> Fraction:
        """How far they are above the best plan of strips there can be, as a part of it."""
        least = max(Fraction(self.plan.bound), self.bound)
        return (self.strips_length - least) / least


def kit_runs(
    kits: Sequence[Kit], number: int, backing: KitBacking, search: Search
) -> tuple[FabricRun, ...]:
    """A plan for every fabric of some blankets, each cut so many times.

    Raises:
        InputError: a piece fits no cloth, a fabric is not sold by the length, the backing of a
            pieced top is to be exact, or there are not bolts enough.
        CutpathsError: the extra `kits` is not installed.
    """
    if not is_installed():
        raise CutpathsError(f"planning kits needs the extra `kits`: {install_words('kits')}")
    jobs = list(_jobs(kits, number, backing))
    findings = [f for project, fabric, needs in jobs for f in _flaws(project, fabric, needs)]
    if findings:
        raise InputError(*findings)
    runs = tuple(_run(*job, search) for job in jobs)
    short = [finding for run in runs for finding in _too_few(run, number)]
    if short:
        raise InputError(*short)
    return runs


def _jobs(
    kits: Sequence[Kit], number: int, backing: KitBacking
) -> Iterator[tuple[Project, Fabric, tuple[Need, ...]]]:
    """For each fabric what all kits take; fabrics of one name and stock are one."""
    taken: dict[str, tuple[Project, Fabric, list[Need]]] = {}
    for kit in kits:
        _require_backing(kit, backing)
        for fabric in kit.project.fabrics:
            needs = [_as_kit(kit, fabric, need, backing) for need in needs_of(kit, fabric)]
            many = [replace(need, count=need.count * number) for need in needs]
            if many:
                known = taken.setdefault(fabric.name, (kit.project, fabric, []))
                _require_same(known[1], fabric)
                known[2].extend(many)
    yield from ((project, fabric, tuple(needs)) for project, fabric, needs in taken.values())


def _require_backing(kit: Kit, backing: KitBacking) -> None:
    if backing is KitBacking.EXACT and kit.pieced:
        problem = "must not be exact for a pieced top, which seldom comes out to size"
        raise InputError(
            Finding(key="top", problem=problem, hint="Ask for yardage or rough backings")
        )


def _require_same(one: Fabric, other: Fabric) -> None:
    if one.stock != other.stock or one.directional != other.directional:
        problem = "must be the same cloth in all projects of a run"
        hint = "Give it another name in one of them"
        raise InputError(Finding(key=f"fabric.{one.name}.stock", problem=problem, hint=hint))


def _as_kit(kit: Kit, fabric: Fabric, need: Need, backing: KitBacking) -> Need:
    """A need as a kit has it: only backings differ, and these lie on the ruler."""
    if need.part not in (BACKING, PANELS) or backing is KitBacking.EXACT:
        return need
    step = kit.project.ruler.step
    width, height = (rounded_up(side, step) for side in need.size)
    if backing is KitBacking.ROUGH:
        return replace(need, size=(width + ROUGH, height + ROUGH), then="")
    stock = stock_of(kit.project, fabric)
    full = strip_width(stock)
    length = height
    if need.run is not Run.LENGTHWISE and height <= full < width:
        length = width
    elif need.run is Run.EITHER and width <= full and height <= full:
        length = min(width, height)
    fits = (width if length == height else height) <= full
    return replace(need, size=(full if fits else width, length), run=Run.LENGTHWISE, then="")


def _flaws(project: Project, fabric: Fabric, needs: Sequence[Need]) -> Iterator[Finding]:
    stock = stock_of(project, fabric)
    if stock.sold is not Sold.LENGTH:
        yield Finding(
            key=f"fabric.{fabric.name}.stock.sold",
            problem=f'must be "length" for kits from bolts, got "{stock.sold}"',
        )
        return
    yield from misfits(project, fabric, needs)
    room = stock.bolt * (1 - lost_first(stock)[0]) - 2 * stock.square_up
    for need in needs:
        longest = Fraction(max(need.size) if need.run is Run.EITHER else need.item.height)
        if longest > room:
            ruler = project.ruler
            enough = before_washing(longest + 2 * stock.square_up, lost_first(stock)[0])
            yield Finding(
                key=f"fabric.{fabric.name}.stock.bolt",
                problem=f"must hold {need.words(ruler, 1)}, got {ruler.text(stock.bolt)}",
                hint=f"A bolt of {ruler.text(enough)} would do",
            )


def _run(project: Project, fabric: Fabric, needs: tuple[Need, ...], search: Search) -> FabricRun:
    stock = stock_of(project, fabric)
    items, width = [need.item for need in needs], strip_width(stock)
    plan = pack_patterns(items, width, effort=search.effort, watch=search.watch)
    bolt = stock.bolt * (1 - lost_first(stock)[0])
    run = FabricRun(
        project=project,
        fabric=fabric,
        stock=stock,
        needs=needs,
        plan=plan,
        bolts=bolt_plans(plan.runs, bolt, stock.square_up),
        bound=freely_bound(items, width, Fraction(0)),
    )
    _require_sound(run)
    return run


def _require_sound(run: FabricRun) -> None:
    """Judges the strips by the cuts in them, and that the bolts hold just these strips.

    Raises:
        PlanError: names every fault.
    """
    items = [need.item for need in run.needs]
    found = list(judge.pattern_faults(items, run.plan))
    on_bolts = Counter[Node]()
    for plan in run.bolts:
        length = sum(strip.times * strip.strip.height for strip in plan.strips)
        if length + 2 * run.stock.square_up != plan.used or plan.left < 0:
            found.append(f"strips of {length} mm do not fit a bolt")
        for strip in plan.strips:
            on_bolts[strip.strip] += strip.times * plan.bolts
    wanted = Counter[Node]()
    for strip in run.plan.runs:
        wanted[strip.strip] += strip.times
    if on_bolts != wanted:
        found.append("the bolts hold other strips than the plan")
    require(found, run.fabric.label)


def _too_few(run: FabricRun, number: int) -> Iterator[Finding]:
    """More kits than the bolts that can be had."""
    most = run.stock.bolts
    if most is not None and run.count > most:
        can = number * most // run.count
        yield Finding(
            key=f"fabric.{run.fabric.name}.stock.bolts",
            problem=f"must be at least {run.count} for {number} kits, got {most}",
            hint=f"They are enough for about {can} kits",
        )


def length_each(run: FabricRun, number: int) -> Fraction:
    """Cloth for one kit, before any washing."""
    return before_washing(run.used, lost_first(run.stock)[0]) / number


def kits_per_bolt(run: FabricRun, number: int) -> Fraction:
    """Kits for each bolt that is ordered; the last bolt is seldom used up."""
    return Fraction(number, run.count)


def cost_each(run: FabricRun, number: int) -> Fraction | None:
    """What the cloth of one kit costs when whole bolts are bought."""
    if run.stock.price is None:
        return None
    return run.stock.price * run.count * run.stock.bolt / run.stock.per / number
