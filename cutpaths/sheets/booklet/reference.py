"""The last pages: every size, the words of the trade, the drawing to colour."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.sheets.booklet.blocks import (
    Block,
    Bullets,
    Chapter,
    Paragraph,
    Picture,
    Section,
    Table,
    Terms,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plain import lines_to_colour

SHORT = 16  # letters of a label that needs little room


def all_sizes(facts: Facts) -> Chapter:
    """Every figure of the project."""
    blocks: list[Block] = [
        Paragraph(
            "The same numbers as everywhere in this booklet and in the files that come with it."
        )
    ]
    for group in facts.figures.groups:
        rows = tuple((figure.label, figure.text) for figure in group.figures)
        blocks.append(Section(group.title))
        short = max(len(label) for label, _ in rows) < SHORT
        blocks.append(Table(heads=(), rows=rows, parts=(1.0, 3.5) if short else (1.0, 1.0)))
    if facts.figures.notes:
        blocks += [Section("Notes"), Bullets(facts.figures.notes)]
    return Chapter(title="All sizes", blocks=tuple(blocks))


def words_used(facts: Facts) -> Chapter:
    """A short glossary."""
    return Chapter(title="Words", blocks=(Terms(tuple(_words(facts))),))


def _words(facts: Facts) -> Iterator[tuple[str, str]]:
    yield "backing", "the larger under layer; its edge becomes the border"
    if facts.folded_over:
        yield "center mark", "the middle of a side"
    else:
        yield "center mark", "the middle of a stitching line, half way between its two dots"
    yield "crosscut", "a cut that parts a strip into pieces"
    if not facts.folded_over:
        yield "dot", "the point where a stitching line starts or stops"
    yield "ease", "to fit a longer edge to a shorter one without pleats"
    yield "grain", "the threads along the selvage"
    yield "miter", "the slanting seam or fold where two borders meet at a corner"
    yield "raw edge", "where the cloth was cut"
    yield "right side, wrong side", "the face of the cloth that is meant to be seen, and the other"
    if "test.strip" in facts.by_key:
        allowance = facts.ruler.both(facts.kit.project.allowance)
        yield "seam allowance", f"from raw edge to stitching line: {allowance}"
    yield "selvage, usable width", "the woven edge, and what may be cut between both of them"


def to_colour(facts: Facts) -> Chapter:
    """The blanket as lines, to try colours out."""
    picture = Picture(
        drawing=lines_to_colour(facts.kit),
        alt="The front of the finished blanket as lines only, to be coloured.",
        height=205.0,
    )
    words = Paragraph("Copy this page to try colours out before you choose cloth.")
    return Chapter(title="To colour", blocks=(words, picture), fresh=True)
