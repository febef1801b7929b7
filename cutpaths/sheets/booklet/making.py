"""The making, stage by stage: what is good to know first, then the steps with their pictures."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from cutpaths.figures import Group
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.project.patchwork import Pressing
from cutpaths.sheets.booklet.blocks import (
    Block,
    Bullets,
    Caution,
    Chapter,
    Note,
    Numbered,
    Paragraph,
    Picture,
    Section,
    Table,
    Task,
    Together,
)
from cutpaths.sheets.booklet.card import corner_templates
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.first_pages import caution_of_pressing
from cutpaths.sheets.booklet.waiting import measured_first
from cutpaths.sheets.steps import Stage, Step

STEP_HEIGHT = 88.0
COLUMNS_MOST = 4  # kinds of corners in one table
_Words = Callable[[Facts], Iterator[Block]]


def making(facts: Facts) -> tuple[Chapter, ...]:
    """A chapter for each stage that has steps, or anything to say before them."""
    found = []
    number = 1
    for stage in Stage:
        steps = [step for step in facts.steps if step.stage is stage]
        blocks = [*_FIRST[stage](facts)]
        tasks = [_task(step, number + n, steps[n + 1 : n + 2]) for n, step in enumerate(steps)]
        number += len(tasks)
        if tasks and all(isinstance(block, Paragraph) for block in blocks):
            # The words that start a chapter stand beside its first step.
            blocks, tasks = [Together((*blocks, tasks[0]))], tasks[1:]
        blocks += tasks
        if stage is Stage.TOP:
            blocks += measured_first(facts)
        if steps or stage is Stage.TOP:
            fresh = stage is Stage.TOP and facts.kit.pieced
            found.append(Chapter(title=_TITLES[stage], blocks=tuple(blocks), fresh=fresh))
    return tuple(found)


_TITLES: Mapping[Stage, str] = {
    Stage.TOP: "Sewing the top",
    Stage.MARKING: "Marking",
    Stage.JOINING: "Top and backing",
    Stage.MITER: "Mitering the corners",
    Stage.FINISHING: "Finishing",
}


def _task(step: Step, number: int, following: Sequence[Step]) -> Task:
    """A step as it is printed; what the next one checks again need not be checked twice."""
    again = step.stage is Stage.TOP and any(step.check == each.check for each in following)
    alt = " ".join((f"{step.title}.", *step.words))
    return Task(
        number=number,
        title=step.title,
        words=step.words,
        check="" if again else step.check,
        picture=Picture(drawing=step.drawing, alt=alt, height=STEP_HEIGHT),
    )


def _top(facts: Facts) -> Iterator[Block]:
    kit = facts.kit
    yield caution_of_pressing()
    if not kit.pieced:
        yield Paragraph("The top is one piece of cloth: there is nothing to piece.")
    if "test.strip" in facts.by_key:
        yield Section("Test your seam first")
        yield Numbered(tuple(_seam_test(facts)))
    if not kit.pieced:
        return
    yield Section("How it is sewn")
    yield Bullets(tuple(_piecing(facts)))


def _seam_test(facts: Facts) -> Iterator[str]:
    allowance = facts.ruler.both(facts.kit.project.allowance)
    yield f"Cut three strips of scrap, each {facts.text('test.strip')} wide and as long as a hand."
    yield f"Sew them side by side with a seam allowance of {allowance}, and press."
    yield (
        f"Measure: they must be {facts.text('test.sewn')} raw edge to raw edge, and the middle "
        f"strip {facts.text('test.middle')} seam to seam. If they are narrower, your allowance is "
        "too wide: move the guide or the needle toward the raw edge, and try again. If they are "
        "wider, move it away."
    )


def _piecing(facts: Facts) -> Iterator[str]:
    """Common practice, no source."""
    project = facts.kit.project
    yield "Set shorter stitches than for clothes: cut patches fray."
    yield "Patch seams run right across, from raw edge to raw edge." + (
        "" if facts.folded_over else " Only the seams that go round the top stop at dots."
    )
    if project.pressing is Pressing.OPEN:
        yield "Press: set the seam with the iron as it was sewn, then press its allowances open."
    else:
        yield (
            "Press: set the seam with the iron as it was sewn, then press its allowances to one "
            "side, alternately from row to row, so that neighbouring seams nest."
        )


def _marking(facts: Facts) -> Iterator[Block]:
    yield Section("Test your pen first")
    yield Paragraph(
        "On scrap of every cloth: mark it, press the mark with the iron, wash it, and leave "
        "another marked scrap in the freezer overnight. Some marks are set by an iron, some come "
        "back in the cold, some stay. Use the pen only where its mark goes and stays gone."
    )
    if facts.folded_over:
        where = (
            "Mark the wrong side. The backing lies wrong side up and is seen as from the front of "
            "the blanket; the top, wrong side up, is its mirror image. A pin through each center "
            "of the top shows it on the right side."
        )
    else:
        where = (
            "Mark the wrong side. The backing lies wrong side up and is seen as from the front of "
            "the blanket; the top, wrong side up, is its mirror image."
        )
    light = "Light marks are enough. A mark that will be trimmed off may be in any pen."
    yield Bullets((where, light))
    yield from corner_templates(facts)


def _joining(facts: Facts) -> Iterator[Block]:
    if facts.folded_over:
        yield Paragraph("The layers lie wrong sides together, the top in the middle.")
        return
    order = facts.text("order")
    quarters = select(facts.kit.top.marks, MarkKind.QUARTER)
    matched = "first, then dots, then quarter marks," if quarters else "first, then dots,"
    yield Paragraph(
        f"Sew one side at a time, in this order: {order}. Start and stop each seam exactly on its "
        f"dots and back-tack there; leave the turning opening. Match centers {matched} and ease "
        "what is between."
    )


def _miter(facts: Facts) -> Iterator[Block]:
    """What is sewn, what to try first, and the measures of each kind of corner."""
    if facts.folded_over:
        yield Paragraph("Each corner of the backing is folded in before its edges are folded.")
    else:
        yield Paragraph(
            "All that is sewn here is the backing, right sides together. Keep the top and the "
            "allowances out of the way."
        )
    yield Bullets(tuple(_before_mitering(facts)))
    yield from _corner_tables(facts)


def _before_mitering(facts: Facts) -> Iterator[str]:
    """Common practice, no source."""
    yield (
        "If it is your first, fold the practice corner before you take the cloth: it is on the "
        "pages to print, at true size, with the same marks."
    )
    if not facts.folded_over:
        yield (
            "Stitch one corner, turn it out with a finger and look at it before you trim it. A "
            "seam can be undone, a cut cannot."
        )


def _corner_tables(facts: Facts) -> Iterator[Block]:
    """The measures on cloth of each kind of corner, a column for each."""
    groups = [group for group in facts.figures.groups if group.title.startswith("Corner")]
    for start in range(0, len(groups), COLUMNS_MOST):
        yield _corner_table(groups[start : start + COLUMNS_MOST])


def _corner_table(groups: Sequence[Group]) -> Together:
    """Checks and cards are told elsewhere."""
    told = [_measures(group) for group in groups]
    names = dict.fromkeys(name for each in told for name in each)
    rows = tuple((name, *(each.get(name, "") for each in told)) for name in names)
    if len(groups) == 1:
        table = Table(heads=("What", "Size"), rows=rows, parts=(2.0, 3.0))
        return Together((Section(groups[0].title), table))
    heads = ("What", *(group.title for group in groups))
    table = Table(heads=heads, rows=rows, parts=(1.1, *(1.0 for _ in groups)))
    return Together((Section("The corners in measures"), table))


def _measures(group: Group) -> dict[str, str]:
    """What a corner measures, by name; what differs on its two sides has their letters."""
    found: dict[str, list[str]] = {}
    for figure in group.figures:
        if _ELSEWHERE & set(figure.key.split(".")):
            continue
        side = _OF_SIDE.search(figure.label)
        name = _OF_SIDE.sub("", figure.label)
        found.setdefault(name, []).append(
            f"{side[1]} {figure.text}" if side and side[1] else figure.text
        )
    return {name: "\n".join(texts) for name, texts in found.items()}


_ELSEWHERE = {"card", "check", "template", "waste"}
_OF_SIDE = re.compile(r" of (?:side ([A-Z])|either side)")


def _finishing(facts: Facts) -> Iterator[Block]:
    yield Caution(
        "Before it is closed",
        ("Count your pins: as many as you started with must be out of the blanket.",),
    )
    if not facts.folded_over and facts.by_key.get("opening.length"):
        yield Note(
            f"The turning opening of {facts.text('opening.length')} is on side "
            f"{facts.text('opening.side')}."
        )


_FIRST: Mapping[Stage, _Words] = {
    Stage.TOP: _top,
    Stage.MARKING: _marking,
    Stage.JOINING: _joining,
    Stage.MITER: _miter,
    Stage.FINISHING: _finishing,
}
