"""How the cloth is cut: the pieces, and the plan of each fabric in words and pictures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import Need
from cutpaths.cloth.plan_words import sold_words, steps
from cutpaths.lengths import Ruler
from cutpaths.sheets.booklet.blocks import (
    Block,
    Chapter,
    Note,
    Numbered,
    Paragraph,
    Picture,
    Section,
    Table,
    Together,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.first_pages import caution_of_cutting
from cutpaths.sheets.booklet.plan_picture import alike, plan_picture, scale_of

HEADS = ("Piece", "Fabric", "Cut size", "Count")
PARTS = (2.6, 2.8, 4.8, 1.4)
KEYS_MOST = 8
PICTURES_MOST = 3  # of one fabric


def cutting(facts: Facts) -> Chapter:
    """The pieces and how they are cut."""
    blocks: list[Block] = [
        Paragraph(
            "Press the cloth before you cut it, and measure every strip twice. Cut selvages off: "
            "they shrink more than the cloth does. Keep an offcut of every cloth, because the pen "
            "and the seam are tested on it."
        ),
        caution_of_cutting(),
        *_pieces(facts),
    ]
    for plans in same_work(facts.plans, facts.ruler):
        blocks += _fabric(facts, plans)
    return Chapter(title="Cutting", blocks=tuple(blocks))


def _pieces(facts: Facts) -> Iterator[Block]:
    rows = tuple(
        (_names(need), plan.fabric.label, size_words(need, facts.ruler), str(need.count))
        for plan in facts.plans
        for need in plan.needs
    )
    if rows:
        yield Section("The pieces")
        yield Table(heads=HEADS, rows=rows, parts=PARTS)


def _names(need: Need) -> str:
    more = f" and {len(need.keys) - KEYS_MOST} more" if len(need.keys) > KEYS_MOST else ""
    return ", ".join(need.keys[:KEYS_MOST]) + more


def size_words(need: Need, ruler: Ruler) -> str:
    """Both sides of what is cut, on the ruler and in the other system."""
    width, height = need.size
    if width == height:
        return f"{ruler.both(width)} square"
    return f"{ruler.both(width)} x {ruler.both(height)}"


def same_work(plans: Sequence[FabricPlan], ruler: Ruler) -> list[tuple[FabricPlan, ...]]:
    """Plans grouped where all that is done to the cloth is the same."""
    groups: dict[tuple[str, ...], list[FabricPlan]] = {}
    for plan in plans:
        key = (sold_words(plan, ruler), *steps(plan, ruler))
        groups.setdefault(key, []).append(plan)
    return [tuple(group) for group in groups.values()]


def _fabric(facts: Facts, plans: Sequence[FabricPlan]) -> Iterator[Block]:
    plan, ruler, scale = plans[0], facts.ruler, scale_of(facts.plans)
    names = _listed([each.fabric.label for each in plans])
    each = ", each the same" if len(plans) > 1 else ""
    head: list[Block] = [
        Section(names),
        Paragraph(f"{_capital(sold_words(plan, ruler))}{each}."),
        Numbered(steps(plan, ruler)),
    ]
    sheets = alike(plan.sheets)
    pictures: list[Block] = []
    for group in sheets[:PICTURES_MOST]:
        found = plan_picture(facts.kit, plan, group[0], scale, keys=len(plans) == 1)
        if found is None:
            continue
        short = " Strips cut alike are drawn once." if found.shortened else ""
        many = f", {len(group)} alike" if len(group) > 1 else ""
        pictures.append(
            Picture(
                drawing=found.drawing,
                alt=f"The cuts of {group[0].name} of {names}, as in the steps.",
                caption=f"{names}: {group[0].name}{many}. Selvages left and right.{short}",
                width=found.width,
            )
        )
    yield Together((*head, *pictures[:1]))
    yield from pictures[1:]
    if 0 < len(pictures) < len(sheets):
        yield Note("What is not drawn is in the steps.")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _listed(parts: Sequence[str]) -> str:
    *most, last = parts
    return f"{', '.join(most)} and {last}" if most else last
