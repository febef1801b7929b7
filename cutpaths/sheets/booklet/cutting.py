"""How the cloth is cut: the pieces, and the plan of each fabric in words and pictures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.needs import Need
from cutpaths.cloth.plan_words import sold_words, steps
from cutpaths.figures.outlines import corner_places, outline_key
from cutpaths.geometry.assembly import Piece
from cutpaths.lengths import Ruler
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Bullets,
    Chapter,
    Numbered,
    Paragraph,
    Picture,
    Pointer,
    Section,
    Table,
    Together,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.first_pages import caution_of_cutting
from cutpaths.sheets.booklet.plan_picture import listed, plan_pictures
from cutpaths.sheets.booklet.sketch import to_draw
from cutpaths.sheets.booklet.waiting import LEAVE, MEASURE, all_waits, parted

HEADS = ("Piece", "Fabric", "Cut size", "Count")
PARTS = (2.6, 2.8, 4.8, 1.4)
KEYS_MOST = 8
OUTLINED = "cut to its outline"  # what is done to a piece that is no rectangle


def cutting(facts: Facts) -> Chapter:
    """The pieces and how they are cut."""
    hand, other = facts.hand.value, facts.hand.other.value
    blocks: list[Block] = [
        Paragraph(
            "Press the cloth before you cut it, and measure every strip twice. Cut selvages off: "
            "they shrink more than the cloth does. Keep an offcut of every cloth, because the pen "
            "and the seam are tested on it."
        ),
        Paragraph(
            f"With the cutter in the {hand} hand, lay the ruler on the part to the {other} of the "
            f"cut, measure from the squared-up edge there, and cut along the ruler's {hand} edge."
        ),
        caution_of_cutting(),
        *_pieces(facts),
    ]
    waiting = [plan for plan in facts.plans if all_waits(facts, plan)]
    if waiting:
        names = listed([f"{p.fabric.label} ({sold_words(p, facts.ruler)})" for p in waiting])
        blocks.append(Pointer(text=f"{names}: {LEAVE}", to=MEASURE))
    at_once = [plan for plan in facts.plans if plan not in waiting]
    for plans in same_work(at_once, facts.ruler):
        blocks += _fabric(facts, plans)
    blocks += _outlines(facts)
    return Chapter(title="Cutting", blocks=tuple(blocks))


def _pieces(facts: Facts) -> Iterator[Block]:
    rows = tuple(
        (_names(need), plan.fabric.label, _cut_words(facts, need), str(need.count))
        for plan in facts.plans
        for need in plan.needs
    )
    if rows:
        yield Section("The pieces")
        yield Table(heads=HEADS, rows=rows, parts=PARTS)


def _names(need: Need) -> str:
    more = f" and {len(need.keys) - KEYS_MOST} more" if len(need.keys) > KEYS_MOST else ""
    return ", ".join(need.keys[:KEYS_MOST]) + more


def _cut_words(facts: Facts, need: Need) -> str:
    """What is cut: the piece itself, or the rectangle that it is cut from."""
    size = size_words(need, facts.ruler)
    if need.then.startswith(OUTLINED):
        return f"rectangle to cut it from: {size}"
    return size


def size_words(need: Need, ruler: Ruler) -> str:
    """Both sides of what is cut, on the ruler and in the other system."""
    width, height = need.size
    if width == height:
        return f"{ruler.both(width)} square"
    return f"{ruler.both(width)} x {ruler.both(height)}"


def same_work(plans: Sequence[FabricPlan], ruler: Ruler) -> list[tuple[FabricPlan, ...]]:
    """Plans grouped where all that is done to the cloth is the same."""
    groups: dict[tuple[str, ...], list[FabricPlan]] = {}
    for plan in plans:
        key = (sold_words(plan, ruler), *steps(plan, ruler))
        groups.setdefault(key, []).append(plan)
    return [tuple(group) for group in groups.values()]


def _fabric(facts: Facts, plans: Sequence[FabricPlan]) -> Iterator[Block]:
    plan, ruler = plans[0], facts.ruler
    each = ", each the same" if len(plans) > 1 else ""
    head: list[Block] = [
        Section(listed([each.fabric.label for each in plans])),
        Paragraph(f"{_capital(sold_words(plan, ruler))}{each}."),
    ]
    told = parted(facts, plan)
    pictures = list(plan_pictures(facts, plans))
    waiting = (Pointer(text=_capital(LEAVE), to=MEASURE),) if told.later else ()
    yield Together((*head, Numbered(told.now), *waiting, *pictures[:1]))
    yield from pictures[1:]


def _outlines(facts: Facts) -> Iterator[Block]:
    """For what is no rectangle, where its corners are in the rectangle that it is cut from."""
    kit = facts.kit
    for piece in (kit.top, kit.backing):
        key = outline_key(piece)
        rows = [
            (figure.label, figure.text)
            for group in facts.figures.groups
            for figure in group.figures
            if figure.key.startswith(f"{key}.")
        ]
        if rows:
            yield from _outline(facts, piece, tuple(rows))


def _outline(facts: Facts, piece: Piece, rows: tuple[tuple[str, str], ...]) -> Iterator[Block]:
    name = piece.key.lower()
    places = tuple(corner_places(facts.kit, piece))
    picture = Picture(
        drawing=to_draw(facts.kit, piece, places),
        alt=f"The outline of the {name}, wrong side up, in the rectangle that it is cut from.",
        height=60.0,
    )
    table = Table(heads=("What", "From the rectangle's lower left corner"), rows=rows, parts=(2, 3))
    words = Paragraph(
        f"Cut the rectangle and lay it wrong side up. Mark the corners of the {name} on it, join "
        "them in their order, and cut on the lines. Check the lengths of its sides:"
    )
    yield Together(
        (
            Section(f"To draw the {name}"),
            words,
            Bullets(tuple(_sides(facts, name))),
            Beside(picture=picture, blocks=(table,)),
        )
    )


def _sides(facts: Facts, name: str) -> Iterator[str]:
    """The raw sides of a piece, and the angles of its corners."""
    for group in facts.figures.groups:
        corners = group.title if group.title.startswith("Corner") else ""
        for figure in group.figures:
            if figure.key.startswith("side.") and figure.key.endswith(f".{name}"):
                yield f"{_capital(figure.label)}: {figure.text}"
            elif corners and figure.key.endswith(".angle"):
                yield f"{corners}, angle: {figure.text}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
