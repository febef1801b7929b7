"""The shopping list and the cutting plans as lines for people, as JSON and as CSV."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.lengths_to_buy import Shopping, counted, shopping
from cutpaths.cloth.lengths_to_buy import bought_words as bought_words
from cutpaths.cloth.notes import percent
from cutpaths.cloth.plan_words import CAUTION, sold_words, steps
from cutpaths.lengths import Ruler, decimals
from cutpaths.project.stock import Sold, Stock

COLUMNS = 100


def lines(title: str, plans: Sequence[FabricPlan], ruler: Ruler) -> Iterator[str]:
    """The shopping list, then the steps of each fabric, then the caution."""
    yield f"{title}: what to buy"
    bought = [(plan, shopping(plan)) for plan in plans]
    for plan, line in bought:
        yield ""
        yield f"{plan.fabric.label} ({sold_words(plan, ruler)})"
        for label, text in _shopping_rows(plan, line, ruler):
            yield f"  {label:<12}  {text}"
    costs = [line.cost for _, line in bought]
    if known := [cost for cost in costs if cost is not None]:
        less = "" if len(known) == len(costs) else " without the fabrics that have no price"
        yield f"\nCost of all: {money(sum(known, Fraction(0)))}{less}"
    yield ""
    yield f"{title}: how to cut it"
    for plan, _ in bought:
        yield ""
        yield f"{plan.fabric.label}, {plan.method}"
        for number, step in enumerate(steps(plan, ruler), 1):
            start = f"  {number:>2}. "
            yield from textwrap.wrap(start + step, COLUMNS, subsequent_indent=" " * len(start))
    yield ""
    yield from textwrap.wrap(CAUTION, COLUMNS)


def _shopping_rows(plan: FabricPlan, line: Shopping, ruler: Ruler) -> Iterator[tuple[str, str]]:
    stock = plan.stock
    if not plan.bought:
        yield "to buy", "nothing"
        yield "on hand", f"{len(plan.sheets)} taken"
        yield "waste", percent(line.waste)
        return
    yield "used", amount(stock, line.used, ruler)
    yield "to buy", bought_words(stock, line.to_buy)
    if stock.sold is Sold.LENGTH and line.width != stock.width:
        yield "", f"at least {ruler.text(line.width)} usable before washing"
    on_hand = [sheet for sheet in plan.sheets if sheet not in plan.bought]
    if on_hand:
        pieces = "1 piece" if len(on_hand) == 1 else f"{len(on_hand)} pieces"
        yield "on hand", f"{pieces} taken"
    yield "waste", percent(line.waste)
    yield (
        "at least",
        f"{amount(stock, line.bound, ruler)} (proven; used is {percent(line.gap)} above)",
    )
    if line.cost is not None:
        yield "cost", money(line.cost)


def amount(stock: Stock, used: Fraction, ruler: Ruler) -> str:
    """A length, or a number of quarters or pack pieces."""
    if stock.sold is Sold.LENGTH:
        return ruler.both(used)
    return counted(used, "quarter" if stock.sold is Sold.QUARTERS else "pack piece")


def money(amount_of: Fraction) -> str:
    """A cost with two decimals, in whatever the prices are.

    >>> money(Fraction(51)), money(Fraction(101, 8))
    ('51.00', '12.63')
    """
    return f"{float(Fraction(decimals(amount_of, 2))):.2f}"


def as_json(
    title: str, digest: str, plans: Sequence[FabricPlan], ruler: Ruler, notes: Sequence[str]
) -> str:
    """Everything as JSON; lengths in mm."""
    return json.dumps(as_data(title, digest, plans, ruler, notes), indent=2, ensure_ascii=False)


def as_data(
    title: str, digest: str, plans: Sequence[FabricPlan], ruler: Ruler, notes: Sequence[str]
) -> dict[str, Any]:
    """Everything as plain values for programs; lengths in mm."""
    return {
        "project": title,
        "digest": digest,
        "fabrics": {plan.fabric.name: _entry(plan, ruler) for plan in plans},
        "notes": list(notes),
    }


def _entry(plan: FabricPlan, ruler: Ruler) -> dict[str, object]:
    line, stock = shopping(plan), plan.stock
    return {
        "label": plan.fabric.label,
        "sold": stock.sold.value,
        "unit": "mm" if stock.sold is Sold.LENGTH else "pieces",
        "used": number(line.used),
        "to_buy": number(line.to_buy),
        "to_buy_text": bought_words(stock, line.to_buy),
        "lower_bound": number(line.bound),
        "gap": number(line.gap),
        "waste": number(line.waste),
        "cost": None if line.cost is None else number(line.cost),
        "method": plan.method,
        "steps": list(steps(plan, ruler)),
        "sheets": [
            {
                "name": sheet.name,
                "source": sheet.source.value,
                "width": number(sheet.width),
                "length": number(sheet.length),
                "pieces": [dict(zip(_FIELDS, row, strict=True)) for row in _rows(plan, count)],
            }
            for count, sheet in enumerate(plan.sheets)
        ],
    }


_FIELDS = ("piece", "x", "y", "width", "height", "turned")


def _rows(plan: FabricPlan, sheet: int) -> Iterator[tuple[str | float | bool, ...]]:
    for place in plan.sheets[sheet].placements():
        keys = " ".join(plan.needs[place.item].keys)
        yield (
            keys,
            *(number(each) for each in (place.x, place.y, place.width, place.height)),
            place.turned,
        )


PLACE_COLUMNS = ("fabric", "sheet", *(f"{f} mm" if f in _FIELDS[1:5] else f for f in _FIELDS))


def place_rows(plans: Sequence[FabricPlan]) -> Iterator[tuple[str | float | bool, ...]]:
    """One row for each piece: fabric, sheet, piece and its place in mm from the lower left."""
    for plan in plans:
        for count, sheet in enumerate(plan.sheets):
            for row in _rows(plan, count):
                yield (plan.fabric.name, sheet.name, *row)


def number(value: Fraction | int) -> float:
    """A number for programs, to six decimals."""
    return round(float(value), 6)
