"""The last pages: every size, the words of the trade, the drawing to colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.figures import Group
from cutpaths.sheets.booklet.blocks import (
    Block,
    Bullets,
    Chapter,
    Columns,
    Paragraph,
    Picture,
    Section,
    Table,
    Terms,
    Together,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plain import lines_to_colour

SHORT = 16  # letters of a label that needs little room
LONG = 48  # letters of a text that needs the width of the page


LABEL_LINE, TEXT_LINE = 26, 22  # letters of a line in a column of two
_HEADING = 3  # lines
# How wide label and text are to one another.
_NARROW, _WIDE = (1.1, 1.0), (1.0, 2.0)


def all_sizes(facts: Facts) -> Chapter:
    """Every figure of the project."""
    narrow = [group for group in facts.figures.groups if not _is_wide(group)]
    wide = [group for group in facts.figures.groups if _is_wide(group)]
    words = Paragraph(
        "The same numbers as everywhere in this booklet and in the files that come with it."
    )
    first, *more = side_by_side(narrow)
    blocks: list[Block] = [Together((words, first)), *more]
    for group in wide:
        blocks += _group(group, () if _is_short(group) else _WIDE)
    if facts.figures.notes:
        blocks += [Section("Notes"), Bullets(facts.figures.notes)]
    return Chapter(title="All sizes", blocks=tuple(blocks))


def side_by_side(groups: Sequence[Group]) -> Iterator[Columns]:
    """Groups in two columns: what stands at the right is as high as what is at its left."""
    waiting = list(groups)
    while waiting:
        first = waiting.pop(0)
        right: list[Group] = []
        while waiting and sum(map(_lines, (*right, waiting[0]))) <= _lines(first):
            right.append(waiting.pop(0))
        if not right and waiting:
            right.append(waiting.pop(0))
        beside = tuple(block for group in right for block in _group(group, _NARROW))
        yield Columns(_group(first, _NARROW), beside)


def _group(group: Group, parts: tuple[float, ...]) -> tuple[Block, ...]:
    rows = tuple((figure.label, figure.text) for figure in group.figures)
    return Section(group.title), Table(heads=(), rows=rows, parts=parts)


def _lines(group: Group) -> int:
    """How high a group stands in a column: its heading, and a line or two a figure."""
    return _HEADING + sum(
        2 if max(len(f.label) / LABEL_LINE, len(f.text) / TEXT_LINE) > 1 else 1
        for f in group.figures
    )


def _is_wide(group: Group) -> bool:
    return max(len(figure.text) for figure in group.figures) > LONG


def _is_short(group: Group) -> bool:
    return max(len(figure.label) for figure in group.figures) < SHORT


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
