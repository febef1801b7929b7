"""Cutting plans as small pictures that can be read on paper; mm of cloth, drawn larger or smaller.

Strips cut alike are drawn once, with their number, where a sheet would be too long for a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from cutpaths.cloth.cutting import FabricPlan, Sheet
from cutpaths.cloth.packing.cuts import Taken
from cutpaths.drawing import Drawing, Pen
from cutpaths.pieces import Kit
from cutpaths.sheets.booklet.blocks import Block, Note, Picture
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.cloth import Lettering, sheet_cuts
from cutpaths.sheets.sheet import about, fit
from cutpaths.values import Value, replace

WIDEST, HIGHEST = 122.0, 95.0  # of the cloth on paper
# Heights of capitals and distances on paper.
_SMALL, _MOST, _LEAST, _READABLE, _GAP = 2.0, 2.6, 1.7, 1.3, 5.0
_MARGIN = 1.0
_PEN, _STRETCH = 0.7, 0.5
STRIP_LEAST = 1.2  # on paper; what is lower cannot be told apart
PICTURES_MOST = 3  # of one fabric


class PlanPicture(Value):
    """A picture of a sheet.

    Attributes:
        drawing: at true scale, lettered for the paper.
        width: of it on paper.
        shortened: whether strips that are cut alike are drawn once.
    """

    drawing: Drawing
    width: float
    shortened: bool


def scale_of(plans: Sequence[FabricPlan]) -> float:
    """Millimetres on paper for one of cloth: one for all plans, so that they compare."""
    return WIDEST / max(float(sheet.width) for plan in plans for sheet in plan.sheets)


def plan_pictures(
    facts: Facts, plans: Sequence[FabricPlan], highest: float = HIGHEST
) -> Iterator[Block]:
    """The pictures of plans that are cut alike, so high on paper, and what is not drawn."""
    plan, scale = plans[0], scale_of(facts.plans)
    names = listed([each.fabric.label for each in plans])
    sheets, drawn = alike(plan.sheets), 0
    for group in sheets[:PICTURES_MOST]:
        found = plan_picture(
            facts.kit, plan, group[0], scale, keys=len(plans) == 1, highest=highest
        )
        if found is None:
            continue
        drawn += 1
        short = " Strips cut alike are drawn once." if found.shortened else ""
        many = f", {len(group)} alike" if len(group) > 1 else ""
        yield Picture(
            drawing=found.drawing,
            alt=f"The cuts of {group[0].name} of {names}, as in the steps.",
            caption=f"{names}: {group[0].name}{many}. Selvages left and right.{short}",
            width=found.width,
        )
    if 0 < drawn < len(sheets):
        yield Note("What is not drawn is in the steps.")


def listed(parts: Sequence[str]) -> str:
    """Words with commas and an `and`."""
    *most, last = parts
    return f"{', '.join(most)} and {last}" if most else last


def plan_picture(
    kit: Kit,
    plan: FabricPlan,
    sheet: Sheet,
    scale: float,
    *,
    keys: bool,
    highest: float = HIGHEST,
) -> PlanPicture | None:
    """The cloth of a sheet with every cut; None where there are none, or too small to be drawn."""
    if isinstance(sheet.strips[0], Taken) and not sheet.square_up:
        return None
    counts = [1] * len(sheet.strips)
    shown = sheet
    if float(sheet.length) * scale > highest:
        counts = [len(list(group)) for _, group in groupby(sheet.strips)]
        shown = _short(sheet)
    scale = min(scale, highest / float(shown.length))
    if any(float(strip.height) * scale < STRIP_LEAST for strip in shown.strips):
        return None
    lettering = Lettering(
        small=_SMALL / scale,
        most=_MOST / scale,
        least=_LEAST / scale,
        readable=_READABLE / scale,
        gap=_GAP / scale,
        keys=keys,
        level=True,
    )
    pen = Pen(scale=_PEN / scale, stretch=_STRETCH / scale)
    items = sheet_cuts(plan, shown, kit.project.ruler, lettering, counts)
    says = about(kit, f"cutting plan, {plan.fabric.label}", "")
    drawing = fit("plan", items, says, pen, _MARGIN / scale)
    return PlanPicture(drawing, drawing.size[0] * scale, shown != sheet)


def _short(sheet: Sheet) -> Sheet:
    """The sheet with each kind of strip once."""
    strips = tuple(strip for strip, _ in groupby(sheet.strips))
    gone = sum((Fraction(s.height) for s in sheet.strips), Fraction(0)) - sum(
        (Fraction(s.height) for s in strips), Fraction(0)
    )
    return replace(sheet, strips=strips, length=sheet.length - gone)


def alike(sheets: Sequence[Sheet]) -> list[tuple[Sheet, ...]]:
    """Sheets next to each other that are cut the same way."""
    groups = groupby(sheets, key=lambda each: (each.source, each.width, each.strips))
    return [tuple(group) for _, group in groups]
