"""What waits until the top is sewn: the cutting of its backing, and how the top is measured first.

A pieced top seldom comes out to size, and the backing must be larger than the top it really has.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import BACKING, PANELS, Need
from cutpaths.cloth.packing.cuts import Node, pieces
from cutpaths.cloth.plan_words import parts_words, steps
from cutpaths.figures.cloth import backing_waits
from cutpaths.lengths import Ruler
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Numbered,
    Paragraph,
    Picture,
    Pointer,
    Section,
    Together,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plan_picture import listed, plan_pictures
from cutpaths.sheets.booklet.sketch import measuring
from cutpaths.values import Value

MEASURE = "Measure the top, then cut the backing"
LOW = 46.0  # of a plan on paper
LEAVE = "leave the length for the backing whole until the top is sewn and measured"


class Parted(Value):
    """The steps of a plan: those of the cutting, and those that wait for the top."""

    now: tuple[str, ...]
    later: tuple[str, ...]


def is_backing(need: Need) -> bool:
    """Whether it is the backing, or a panel of it."""
    return need.part in (BACKING, PANELS)


def all_waits(facts: Facts, plan: FabricPlan) -> bool:
    """Whether nothing of a fabric is cut before the top is sewn."""
    return backing_waits(facts.kit) and all(is_backing(need) for need in plan.needs)


def parted(facts: Facts, plan: FabricPlan) -> Parted:
    """The steps of a plan; of a strip that holds more than the backing the rest is cut at once."""
    told = steps(plan, facts.ruler)
    if not backing_waits(facts.kit):
        return Parted(told, ())
    if all_waits(facts, plan):
        return Parted((), told)
    mixed = tuple(_mixed(plan, facts.ruler))
    names = tuple(need.words(facts.ruler, 1) for need in plan.needs if is_backing(need))
    now, later = [], []
    for step in told:
        if any(parts in step for parts in mixed):
            held = [name for name in names if name in step]
            now.append(f"{step} But leave whole what is for {listed(held)}.")
            later.append(f"From what was left whole cut {listed(held)}.")
        elif any(name in step for name in names):
            later.append(step)
        else:
            now.append(step)
    return Parted(tuple(now), tuple(later))


def _mixed(plan: FabricPlan, ruler: Ruler) -> Iterator[str]:
    """What strips are crosscut into that hold the backing and other pieces."""
    for strip in _strips(plan):
        backing = {is_backing(plan.needs[piece.item]) for piece in pieces(strip)}
        if len(backing) > 1:
            yield parts_words(strip, plan.needs, ruler)


def _strips(plan: FabricPlan) -> Iterator[Node]:
    for sheet in plan.sheets:
        yield from sheet.strips


def measured_first(facts: Facts) -> Iterator[Block]:
    """How the sewn top is measured, and then the cutting of the backing."""
    if not backing_waits(facts.kit):
        return
    across, down = facts.text("top.width"), facts.text("top.height")
    picture = Picture(
        drawing=measuring(facts.kit, across, down),
        alt=f"The sewn top is measured along six lines; it must be {across} x {down}.",
        height=58.0,
    )
    words = Numbered(tuple(_measuring(facts)))
    yield Together((Section(MEASURE), Beside(picture=picture, blocks=(words,))))
    for group in facts.figures.groups:
        if any(figure.key.startswith("deviation.") for figure in group.figures):
            text = "What then to cut, or what the backing as planned comes to, is told in a table"
            yield Pointer(text=text, to=group.title)
    for plan in facts.plans:
        yield from _cut_later(facts, plan)


def _measuring(facts: Facts) -> Iterator[str]:
    """Common practice, no source, but for the sizes."""
    across, down = facts.text("top.width"), facts.text("top.height")
    yield (
        "Lay the pressed top flat and do not pull it. Measure it from raw edge to raw edge, across "
        "and down, each through the middle and near both ends."
    )
    yield (
        f"By the design it is {across} across and {down} down. Take what you measure through the "
        "middle; where an end is longer, ease it when the sides are pinned."
    )
    marks = "second folds" if facts.folded_over else "dots"
    yield (
        "Cut the backing larger or smaller by as much as the top is, each way by itself. The "
        f"borders stay as they are, and the {marks} as far from the backing's corners."
    )
    if facts.kit.panels is not None:
        yield (
            "Along their seams all panels of the backing change alike; across the seams one of "
            "them takes it all."
        )


def _cut_later(facts: Facts, plan: FabricPlan) -> Iterator[Block]:
    """The steps that waited, for a top that came out to size."""
    later = parted(facts, plan).later
    if not later:
        return
    words = Paragraph(f"{plan.fabric.label}, for a top that has come out as designed:")
    pictures = list(plan_pictures(facts, (plan,), LOW)) if all_waits(facts, plan) else []
    if pictures and isinstance(pictures[0], Picture):
        yield Together((Beside(picture=pictures[0], blocks=(words, Numbered(later))),))
        yield from pictures[1:]
    else:
        yield Together((words, Numbered(later), *pictures))
