"""Plans for cutting by hand: what each fabric of a kit is cut from, and how; mm, exact."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.bound import bound_of
from cutpaths.cloth.checked import checked
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.lengths_to_buy import to_buy, used_of
from cutpaths.cloth.needs import BACKING, Need, needs_of
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.plain_strips import plain_strips
from cutpaths.cloth.searched_strips import Search, searched_strips
from cutpaths.cloth.sheets_of import Strips, blanks_on_hand, room, sheets_of, within
from cutpaths.cloth.stock import stock_of
from cutpaths.errors import Finding, InputError
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric, Project
from cutpaths.project.stock import Stock

PLAIN, MIXED = "one kind of piece to a strip", "strips of mixed pieces"


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
    """The plainest plan for one fabric that needs the least cloth to be bought."""
    stock, bound = stock_of(project, fabric), bound_of(stock_of(project, fabric), items_of(needs))

    def laid(strips: Strips, method: str) -> FabricPlan:
        sheets = tuple(sheets_of(stock, items_of(needs), strips))
        return FabricPlan(
            fabric=fabric,
            stock=stock,
            needs=tuple(needs),
            sheets=sheets,
            bound=bound,
            method=method,
        )

    best = laid(plain_strips, PLAIN)
    if _buys(best) > to_buy(stock, bound):
        mixed = laid(lambda items, width: searched_strips(items, width, search), MIXED)
        best = min(best, mixed, key=_buys)
    return checked(best)


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
    """Names a piece that is too large, and the usable width that would do."""
    ruler, item = project.ruler, need.item
    enough = Fraction(item.least_width) + 2 * stock.strip_ends
    hint = f"Usable width of {ruler.text(enough)} would do"
    if need.part == BACKING:
        hint += "; or join it of panels with [backing.join]"
    return Finding(
        key=f"fabric.{fabric.name}.stock.width",
        problem=f"must hold {need.words(ruler, need.count)}, got {ruler.text(stock.width)} of "
        f"which {ruler.text(room(stock)[0])} are left once strips are squared",
        hint=hint,
    )
