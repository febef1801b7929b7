"""Plans for cutting by hand: what each fabric of a kit is cut from, and how; mm, exact."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.bound import bound_of, closer_bound
from cutpaths.cloth.checked import checked
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.lengths_to_buy import to_buy, used_of
from cutpaths.cloth.needs import BACKING, PATCHES, Need, by, needs_of
from cutpaths.cloth.packing.effort import NO_PLAN
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.plain_strips import plain_strips
from cutpaths.cloth.searched_strips import Search, searched_strips
from cutpaths.cloth.sheets_of import Strips, blanks_on_hand, room, sheets_of, within
from cutpaths.cloth.stock import stock_of
from cutpaths.errors import Finding, InputError
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric, Project
from cutpaths.project.stock import Sold, Stock
from cutpaths.values import replace

PLAIN, MIXED = "one kind of piece to a strip", "strips of mixed pieces"
BRIEF = 200  # tries for each cloth on hand


def plans_of(kit: Kit, search: Search) -> tuple[FabricPlan, ...]:
    """A sound plan for every fabric that the kit takes, in the order of the project.

    Raises:
        InputError: a piece fits no cloth that there is; each is named, with what would do.
    """
    wanted = [(fabric, needs_of(kit, fabric)) for fabric in kit.project.fabrics]
    jobs = [(fabric, needs) for fabric, needs in wanted if needs]
    findings = [f for fabric, needs in jobs for f in misfits(kit.project, fabric, needs)]
    if findings:
        raise InputError(*findings)
    return tuple(plan_of(kit.project, fabric, needs, search) for fabric, needs in jobs)


def plan_of(project: Project, fabric: Fabric, needs: Sequence[Need], search: Search) -> FabricPlan:
    """The plainest plan for one fabric that needs the least cloth to be bought.

    Raises:
        InputError: only cloth on hand has room for a piece, and not for all of its count.
    """
    stock, items = stock_of(project, fabric), items_of(needs)
    search.watch(NO_PLAN)

    def laid(strips: Strips, remnants: Strips, method: str) -> FabricPlan:
        return FabricPlan(
            fabric=fabric,
            stock=stock,
            needs=tuple(needs),
            sheets=tuple(sheets_of(stock, items, strips, remnants)),
            bound=bound_of(stock, items),
            method=method,
        )

    best = laid(plain_strips, plain_strips, PLAIN)
    if used_of(best) > best.bound:
        best = replace(best, bound=closer_bound(stock, items))
    for remnants in (plain_strips, _mixed(_brief(search))) if stock.on_hand else (plain_strips,):
        if _buys(best) > to_buy(stock, best.bound):
            mixed = replace(laid(_mixed(search), remnants, MIXED), bound=best.bound)
            best = min(best, mixed, key=_buys)
    if short := tuple(_too_few(project, best)):
        raise InputError(*short)
    return checked(best)


def _mixed(search: Search) -> Strips:
    """Strips of mixed pieces, searched."""
    return lambda items, width: searched_strips(items, width, search)


def _brief(search: Search) -> Search:
    """A search of few tries, for each cloth on hand anew."""
    tries = search.effort.tries
    few = BRIEF if tries is None else min(tries, BRIEF)
    return replace(search, effort=replace(search.effort, tries=few))


def items_of(needs: Sequence[Need]) -> list[Item]:
    """What the packing is asked, need by need."""
    return [need.item for need in needs]


def _buys(plan: FabricPlan) -> Fraction:
    return to_buy(plan.stock, used_of(plan))


def misfits(project: Project, fabric: Fabric, needs: Sequence[Need]) -> Iterator[Finding]:
    """Pieces that fit no cloth that there is."""
    stock = stock_of(project, fabric)
    rooms = [room(stock), *(blank.inner for blank in blanks_on_hand(stock))]
    for need in needs:
        if all(within(need.item, inner) is None for inner in rooms):
            yield _misfit(project, fabric, stock, need)


def _misfit(project: Project, fabric: Fabric, stock: Stock, need: Need) -> Finding:
    """Names a piece that is too large, and what would do."""
    ruler, (wide, long) = project.ruler, room(stock)
    what = need.words(ruler, need.count)
    if need.part == PATCHES:
        what = f"{', '.join(need.keys)} ({what})"
    if stock.sold is not Sold.LENGTH:
        left = by((max(wide, Fraction(0)), max(long, Fraction(0))), ruler)
        got = by(stock.piece, ruler)
        return Finding(
            key=f"fabric.{fabric.name}.stock.piece",
            problem=f"must hold {what}, got {got}"
            + ("" if left == got else f" of which {left} are left to cut from"),
            hint='Use larger ones, or cloth that is sold = "length"',
        )
    enough = Fraction(need.item.least_width) + 2 * stock.strip_ends
    hint = f"Usable width of {ruler.text(enough)} would do"
    if need.part == BACKING:
        hint += "; or join it of panels with [backing.join]"
    return Finding(
        key=f"fabric.{fabric.name}.stock.width",
        problem=f"must hold {what}, got {ruler.text(stock.width)} of which {ruler.text(wide)} are "
        "left once strips are squared",
        hint=hint,
    )


def _too_few(project: Project, plan: FabricPlan) -> Iterator[Finding]:
    """Pieces that only cloth on hand has room for, and not for all of them."""
    made = Counter(place.item for sheet in plan.sheets for place in sheet.placements())
    for index, need in enumerate(plan.needs):
        if within(need.item, room(plan.stock)) is None and made[index] < need.count:
            wide = _misfit(project, plan.fabric, plan.stock, need)
            got = f"{wide.problem}; what is on hand holds {made[index]} of {need.count}"
            yield replace(wide, problem=got)
