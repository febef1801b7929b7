"""What is needed: cloth to buy, thread, tools."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.needs import PANELS
from cutpaths.cloth.notes import cloth_notes
from cutpaths.cloth.plan_words import sold_words
from cutpaths.cloth.report import bought_words
from cutpaths.project.stock import Sold
from cutpaths.sheets.booklet.blocks import (
    Block,
    Bullets,
    Chapter,
    Chip,
    Key,
    Note,
    Paragraph,
    Section,
    Table,
)
from cutpaths.sheets.booklet.facts import Facts

HEADS = ("Fabric", "For", "Buy", "Sold as")
PARTS = (2.8, 1.6, 1.4, 3.8)


def what_you_need(facts: Facts) -> Chapter:
    """The shopping list and the tools."""
    blocks: list[Block] = [Section("Cloth"), *_cloth(facts), Section("Fabric key"), _key(facts)]
    blocks += [Section("Thread and tools"), Bullets(tuple(_tools(facts)))]
    return Chapter(title="What you need", blocks=tuple(blocks))


def _cloth(facts: Facts) -> Iterator[Block]:
    if facts.unplanned:
        yield Note(
            "There is no cutting plan for this cloth: it "
            + "; it ".join(facts.unplanned)
            + ". The sizes of all pieces are under All sizes."
        )
        return
    rows = tuple(_row(facts, plan) for plan in facts.plans)
    yield Table(heads=HEADS, rows=rows, parts=PARTS)
    notes = cloth_notes(facts.plans, facts.ruler)
    yield Paragraph(
        "Rounded up to what shops sell. Buy a little more of what frays, or of a print to match."
    )
    yield from (Note(note) for note in notes)


def _row(facts: Facts, plan: FabricPlan) -> tuple[str, str, str, str]:
    line, letter = shopping(plan), facts.short.get(plan.fabric.name, "")
    if not plan.bought:
        return f"{letter}  {plan.fabric.label}", _parts(plan), "nothing", "on hand"
    sold = sold_words(plan, facts.ruler)
    if plan.stock.sold is Sold.LENGTH and line.width != plan.stock.width:
        sold += f"; at least {facts.ruler.text(line.width)} usable before washing"
    buy = bought_words(plan.stock, line.to_buy)
    return f"{letter}  {plan.fabric.label}", _parts(plan), buy, sold


def _parts(plan: FabricPlan) -> str:
    """Which parts of the blanket a fabric is for."""
    parts = ("panels of the backing" if n.part == PANELS else n.part for n in plan.needs)
    return ", ".join(dict.fromkeys(parts))


def _key(facts: Facts) -> Key:
    return Key(
        tuple(
            Chip(
                tint=facts.cloths[fabric.name].colour,
                letter=facts.short[fabric.name],
                name=fabric.label,
                more="its print has an up" if fabric.directional else "",
            )
            for fabric in facts.fabrics
        )
    )


def _tools(facts: Facts) -> Iterator[str]:
    """Common practice, no source; the thread is in the figures."""
    least, most = facts.text("thread.least"), facts.text("thread.most")
    yield (
        f"Thread: {least} to {most.removeprefix('about ')}. This is a rule of the trade, 2 1/2 to "
        "3 times the length of all seams, bobbin included; a spool more does no harm."
    )
    yield "Rotary cutter with a sharp blade, cutting mat and a long ruler; or shears and patience."
    yield "Marking pens for pale and for dark cloth, tested on scrap of each (see Marking)."
    yield "Pins, counted, or clips; a seam ripper; a hand needle; iron, board and a press cloth."
    yield "Sewing machine with a new needle, and a foot that shows the seam allowance."
    if any(fabric.stock is not None and fabric.stock.flannel for fabric in facts.fabrics):
        yield "A walking foot, if you have one: flannel creeps."
