"""Labels of a kit's bundles, several to a page of plain paper, with lines to cut along; mm.

Two labels side by side and four above one another. Neighbours share a line: one cut parts both.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Drawing, Item, Pen
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.sheets.labels.contents import LATER, Contents, Part
from cutpaths.sheets.labels.lettering import (
    LEADING,
    Lines,
    block,
    field,
    fitted,
    rule,
    size_lines,
    tall,
)
from cutpaths.sheets.pages.paper import Paper
from cutpaths.sheets.sheet import about
from cutpaths.sheets.wrap import wrapped
from cutpaths.values import Value

ACROSS, DOWN = 2, 4
EDGE = 8.0
PAD = 5.0
TITLE = (3.6, 3.0, 2.5)
WHAT = (5.0, 4.2, 3.6, 3.0)
FABRIC = (3.6, 3.0, 2.5)
BODY = (2.5, 2.1)
SMALL = 2.1
FIELD = 2.5
BEFORE = 0.3  # of a text's height, over it
SCALES = (1.0, 0.92, 0.84, 0.76, 0.68)  # of the letters, so that everything has room
PEN = Pen(scale=0.5, patterned=False, text_as_strokes=False)
CHECK = "Measure it before it is used."
BABIES = "No soft bedding in the sleep space of a child under 1."


class Label(Value, kw_only=True):
    """What stands on one label.

    Attributes:
        what: what it is on, large.
        fabric: of which cloth, or what is in it.
        lines: more about it, each in two lines at most.
        care: what is known about washing; empty for a line alone.
    """

    what: str
    fabric: str
    lines: tuple[str, ...]
    care: str = ""


def labels(kit: Kit, contents: Contents, paper: Paper) -> tuple[Drawing, ...]:
    """The pages of labels: the whole kit first, then every bundle, then card."""
    told = tuple(labels_of(contents))
    each = ACROSS * DOWN
    pages = [told[start : start + each] for start in range(0, len(told), each)]
    size = float(paper.width), float(paper.height)
    return tuple(
        Drawing(
            name=f"labels-{number}",
            size=size,
            about=about(kit, "labels of the kit and its bundles", ""),
            items=tuple(_page(contents, page, size, max(EDGE, float(paper.margin)))),
            pen=PEN,
        )
        for number, page in enumerate(pages, 1)
    )


def labels_of(contents: Contents) -> Iterator[Label]:
    """What stands on each label."""
    pieces = sum(part.count for part in contents.bundles)
    inside = f"{len(contents.bundles)} bundles with {pieces} pieces of cloth"
    papers = ", ".join(part.what for part in (*contents.templates, *contents.papers))
    yield Label(
        what="Kit for one blanket",
        fabric=f"{contents.finished} finished",
        lines=(f"{inside}; {papers}", BABIES),
    )
    for part in contents.bundles:
        yield Label(
            what=part.counted,
            fabric=part.fabric,
            lines=(_named(part, len(contents.bundles)), _sized(part), part.more),
            care=part.washed,
        )
    for part in contents.templates:
        yield Label(
            what="Corner template",
            fabric=part.what,
            lines=(f"{part.key}, {part.fabric}", part.size, CHECK),
        )


def _sized(part: Part) -> str:
    if part.more == LATER:
        return f"planned size {part.size}"
    return part.size if part.size.startswith("finished") else f"cut {part.size}"


def _named(part: Part, of: int) -> str:
    return f"{part.key}, bundle {part.bundle} of {of}"


def _page(
    contents: Contents, told: Sequence[Label], size: tuple[float, float], edge: float
) -> Iterator[Item]:
    width, height = (size[0] - 2 * edge) / ACROSS, (size[1] - 2 * edge) / DOWN
    top = size[1] - edge
    rows = -(-len(told) // ACROSS)
    for number in range(rows + 1):
        y = top - number * height
        yield rule((edge, y), (size[0] - edge, y), Role.CUT)
    for number in range(ACROSS + 1):
        x = edge + number * width
        yield rule((x, top), (x, top - rows * height), Role.CUT)
    for number, label in enumerate(told):
        down, across = divmod(number, ACROSS)
        corner = edge + across * width + PAD, top - down * height - PAD
        room = width - 2 * PAD, height - 2 * PAD
        yield from _label(contents, label, corner, room)


def _label(
    contents: Contents, label: Label, corner: tuple[float, float], room: tuple[float, float]
) -> Iterator[Item]:
    """From the top: project, what it is, sizes; from the foot: the fields."""
    (x, y), (width, high) = corner, room
    foot = y - high
    fields = foot + FIELD * LEADING * 1.6
    for height, lines in _lettered(contents, label, width, y - fields - 1.6 * FIELD):
        yield from block(lines, x, y - BEFORE * height, height)
        y -= _taken(height, lines)
    half = (width - PAD) / 2
    yield from field("Care", label.care, (x, fields), width, FIELD)
    yield from field("Batch", contents.batch, (x, foot), half, FIELD)
    yield from field("File", contents.file, (x + half + PAD, foot), half, FIELD)


_Lettered = list[tuple[float, tuple[str, ...]]]


def _lettered(contents: Contents, label: Label, width: float, room: float) -> _Lettered:
    """Heights and lines of all texts, in letters as large as there is room for."""
    told: list[tuple[str, tuple[float, ...], int, Lines]] = [
        (contents.title, TITLE, 2, wrapped),
        (contents.variant, (SMALL,), 1, wrapped),
        (label.what, WHAT, 1, wrapped),
        (label.fabric, FABRIC, 2, size_lines),
        *((line, BODY, 2, size_lines) for line in label.lines),
    ]
    for scale in SCALES:
        found = [
            fitted(string, [height * scale for height in heights], width, most, part)
            for string, heights, most, part in told
            if string
        ]
        if sum(_taken(*each) for each in found) <= room:
            break
    return found


def _taken(height: float, lines: tuple[str, ...]) -> float:
    return tall(lines, height) + BEFORE * height
