"""A run of kits as lines for people and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.bolts import BoltPlan, kept
from cutpaths.cloth.kits import (
    FabricRun,
    KitBacking,
    cost_each,
    kits_per_bolt,
    length_each,
)
from cutpaths.cloth.notes import percent
from cutpaths.cloth.packing.cuts import Taken
from cutpaths.cloth.packing.runs import Run
from cutpaths.cloth.plan_words import CAUTION, parts_words
from cutpaths.cloth.report import money, number
from cutpaths.cloth.stock import strip_width
from cutpaths.lengths import decimals

SAME_FACE = (
    "Spread all layers the same face up: never folded and never face to face, or half of every "
    "piece that has a right and a left would come out as its mirror image."
)


def kits_lines(
    titles: Sequence[str], count: int, backing: KitBacking, runs: Sequence[FabricRun]
) -> Iterator[str]:
    """The order, then how each fabric's bolts are cut."""
    kits = "1 kit" if count == 1 else f"{count:,} kits"
    yield f"{kits} of {' and of '.join(titles)}, backings {backing}"
    costs = [cost_each(run, count) for run in runs]
    for run, cost in zip(runs, costs, strict=True):
        yield ""
        yield from _head(run, count, cost)
        for letter, plan in enumerate(run.bolts, 1):
            yield from _bolt(run, letter, plan)
        for length, times in kept(run.bolts, run.stock.per):
            yield f"  keep: {_pieces(times)} of {run.project.ruler.text(length)}"
    if known := [cost for cost in costs if cost is not None]:
        less = "" if len(known) == len(costs) else ", without the fabrics that have no price"
        yield ""
        yield f"Cloth of a kit, whole bolts bought: {money(sum(known, Fraction(0)))}{less}"
    yield ""
    yield SAME_FACE
    yield CAUTION


def _pieces(times: int) -> str:
    return "1 piece" if times == 1 else f"{times} pieces"


def _head(run: FabricRun, count: int, cost: Fraction | None) -> Iterator[str]:
    ruler, stock = run.project.ruler, run.stock
    each = kits_per_bolt(run, count)
    bolts = "1 bolt" if run.count == 1 else f"{run.count:,} bolts"
    yield f"{run.fabric.label}, usable width {ruler.text(stock.width)}"
    yield f"  order         {bolts} of {ruler.text(stock.bolt)}"
    yield f"  a kit         {ruler.both(length_each(run, count))} of cloth"
    yield f"  kits          {decimals(each, 2)} per bolt ordered"
    if cost is not None:
        yield f"  cost of a kit {money(cost)}"
    yield (
        f"  above bound   {percent(run.gap)} over any plan, {_fine(run.strip_gap)} over any plan "
        "of strips (both proven)"
    )
    if run.plan.late:
        yield "  ended         by the time limit: another run may come to another plan"


def _fine(part: Fraction) -> str:
    return f"{decimals(part * 100, 4)} %"


def _bolt(run: FabricRun, letter: int, plan: BoltPlan) -> Iterator[str]:
    """One way to cut bolts, and the layers that are stacked."""
    lays, plies = plan.lays(run.stock.plies), min(run.stock.plies, plan.bolts)
    bolts = "1 bolt" if plan.bolts == 1 else f"{plan.bolts:,} bolts"
    stacks = "1 stack" if lays == 1 else f"{lays:,} stacks"
    layers = "1 layer" if plies == 1 else f"up to {plies} layers"
    yield f"  plan {letter}: {bolts} in {stacks} of {layers}"
    for strip in plan.strips:
        yield f"    {strip_words(run, strip)}"


def strip_words(run: FabricRun, strip: Run) -> str:
    """`15 strips 5 in: crosscut 7 squares of 5 in from each`, in a line.

    A backing of the cloth's full width is a length of it, of which nothing is crosscut.
    """
    ruler, node = run.project.ruler, strip.strip
    if isinstance(node, Taken) and node.width == strip_width(run.stock):
        lengths = "1 length" if strip.times == 1 else f"{strip.times:,} lengths"
        of = ruler.text(Fraction(node.height))
        return f"cut {lengths} of {of}, full width, for {' or '.join(run.needs[node.item].keys)}"
    many, each = ("1 strip", "it") if strip.times == 1 else (f"{strip.times:,} strips", "each")
    height = ruler.text(Fraction(strip.strip.height))
    return f"{many} {height}: crosscut {parts_words(strip.strip, run.needs, ruler)} from {each}"


def kits_json(
    titles: Sequence[str], count: int, backing: KitBacking, runs: Sequence[FabricRun]
) -> str:
    """The run for programs; lengths in mm."""
    data = {
        "projects": list(titles),
        "kits": count,
        "backing": backing.value,
        "fabrics": {run.fabric.name: _entry(run, count) for run in runs},
    }
    return json.dumps(data, indent=2, ensure_ascii=False)


def _entry(run: FabricRun, count: int) -> dict[str, object]:
    cost = cost_each(run, count)
    return {
        "label": run.fabric.label,
        "bolts": run.count,
        "bolt_length": number(run.stock.bolt),
        "length_of_a_kit": number(length_each(run, count)),
        "kits_per_bolt_ordered": number(kits_per_bolt(run, count)),
        "cost_of_a_kit": None if cost is None else number(cost),
        "gap": number(run.gap),
        "gap_of_strips": number(run.strip_gap),
        "ended_by_time": run.plan.late,
        "plans": [
            {
                "bolts": plan.bolts,
                "stacks": plan.lays(run.stock.plies),
                "left": number(plan.left),
                "strips": [strip_words(run, strip) for strip in plan.strips],
            }
            for plan in run.bolts
        ],
    }
