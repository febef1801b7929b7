"""Joins a backing that is wider than its cloth of panels, so that the least cloth is bought."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from cutpaths.cloth.by_hand import misfits, plan_of
from cutpaths.cloth.lengths_to_buy import used_of
from cutpaths.cloth.needs import needs_of
from cutpaths.cloth.searched_strips import Search
from cutpaths.cloth.sheets_of import room
from cutpaths.cloth.stock import stock_of
from cutpaths.lengths import as_fraction, exact_text, in_unit
from cutpaths.pieces import Kit
from cutpaths.pieces.panels import clear_of, even_places, joined, wide_places
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Join, usual
from cutpaths.values import replace

# A quick look at each way to join; the chosen one is planned with all the effort there is.
_WAYS = ((1, True), (1, False), (2, True), (2, False))


class Joining(NamedTuple):
    """One way to join, and the kit that it makes."""

    join: Join
    kit: Kit


def with_panels(kit: Kit, search: Search) -> tuple[Kit, tuple[str, ...]]:
    """The kit with its backing joined where its cloth is too narrow, and what to say of that."""
    fabric = _backing_fabric(kit)
    if kit.panels is not None or not _too_wide(kit, fabric):
        return kit, ()
    known = [way for way in joinings(kit) if not _too_wide(way.kit, fabric)]
    if not known:
        return kit, ()
    best = min(known, key=lambda way: _order(way, fabric, search))
    return best.kit, (_advice(best),)


def _backing_fabric(kit: Kit) -> Fabric:
    return next(f for f in kit.project.fabrics if f.name == kit.project.backing_fabric)


def _too_wide(kit: Kit, fabric: Fabric) -> bool:
    return any(misfits(kit.project, fabric, needs_of(kit, fabric)))


def joinings(kit: Kit) -> Iterator[Joining]:
    """Every way to join that is worth trying: one or two seams, down or across."""
    unit, step = kit.project.ruler.unit, float(kit.project.ruler.step)
    widest = room(stock_of(kit.project, _backing_fabric(kit)))[0]
    for seams, down in _WAYS:
        join = Join(seams=seams, down=down, at=None, allowance=usual(unit).join)
        clear = clear_of(kit.blanket, kit.backing, join)
        found = (
            wide_places(kit.backing, join, clear, float(widest), step),
            even_places(kit.backing, join, clear, step),
        )
        for places in dict.fromkeys(each for each in found if each is not None):
            at = tuple(map(as_fraction, places))
            panels = joined(kit.backing, join, places)
            yield Joining(replace(join, at=at), replace(kit, panels=panels))


def _order(way: Joining, fabric: Fabric, search: Search) -> tuple[Fraction, int, Fraction]:
    """Less cloth first, then fewer seams, then shorter ones."""
    quick = replace(search, effort=replace(search.effort, tries=0))
    plan = plan_of(way.kit.project, fabric, needs_of(way.kit, fabric), quick)
    seams = way.kit.panels.seams if way.kit.panels else ()
    return used_of(plan), way.join.seams, as_fraction(sum((s.length for s in seams), 0.0))


def _advice(best: Joining) -> str:
    join, ruler = best.join, best.kit.project.ruler
    seams = "1 seam" if join.seams == 1 else f"{join.seams} seams"
    run = "from head to foot" if join.down else "from left to right"
    key = join_words(join, best.kit)
    return (
        f"The backing is wider than its cloth: it is joined with {seams} {run}, allowance "
        f"{exact_text(join.allowance, ruler.unit)}. Write {key} under [backing], so that its "
        "sheets and the proof have the panels too."
    )


def join_words(join: Join, kit: Kit) -> str:
    """The key that asks for a way to join."""
    unit = kit.project.ruler.unit
    at = ", ".join(f'"{in_unit(each, unit)}"' for each in join.at or ())
    run = "down" if join.down else "across"
    return f'`join = {{ seams = {join.seams}, run = "{run}", at = [{at}] }}`'
