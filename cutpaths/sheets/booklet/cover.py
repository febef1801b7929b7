"""The title page: the finished blanket, its size, for whom it is, and who made the pattern."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import letter
from cutpaths.sheets.booklet.blocks import Block, Picture, Terms
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plain import finished_picture

HEIGHT = 135.0


def subtitle(facts: Facts) -> str:
    """What is made."""
    top = "patchwork blanket" if facts.kit.pieced else "blanket"
    way = "folded over" if facts.folded_over else "sewn and turned"
    return f"A self-bound {top} with mitered corners, {way}"


def cover(facts: Facts) -> tuple[Block, ...]:
    """What stands below the title."""
    colours = ", ".join(fabric.label for fabric in facts.fabrics[:6])
    more = f" and {len(facts.fabrics) - 6} more" if len(facts.fabrics) > 6 else ""
    picture = Picture(
        drawing=finished_picture(facts),
        alt=f"The finished blanket from the front, in {colours}{more}.",
        height=HEIGHT,
    )
    return picture, Terms(tuple(_terms(facts)))


def _terms(facts: Facts) -> Iterator[tuple[str, str]]:
    pattern, project = facts.kit.project.pattern, facts.kit.project
    yield "Finished size", finished_words(facts)
    yield "Border", border_words(facts)
    if project.size:
        yield "Size", project.size
    if project.colorway:
        yield "Colorway", project.colorway
    for name, text in (("For", pattern.skill), ("By", pattern.author), ("Batch", pattern.batch)):
        if text:
            yield name, text
    issue = ", ".join(filter(None, (pattern.version, pattern.date)))
    if issue:
        yield "Version", issue


def finished_words(facts: Facts) -> str:
    """The finished size; of what is no rectangle at its widest and longest."""
    across, down = facts.text("finished.width"), facts.text("finished.height")
    widest = "widest" in facts.by_key["finished.width"].label
    return f"{across} across, {down} down{', at the widest' if widest else ''}"


def border_words(facts: Facts) -> str:
    """The border's width, or that of each side."""
    if "border" in facts.by_key:
        return facts.text("border")
    sides = [letter(i) for i in range(len(facts.kit.project.borders))]
    return ", ".join(f"{side} {facts.text(f'border.{side.lower()}')}" for side in sides)
