"""The corner templates in words: what the kit holds, how each is checked, laid and marked by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.geometry.blanket import Corner
from cutpaths.pieces.corners import CornerTemplate
from cutpaths.project.model import BackingCorners
from cutpaths.shapes import Path
from cutpaths.sheets.booklet.blocks import (
    Block,
    Bullets,
    Paragraph,
    Section,
    Table,
    Together,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plan_picture import listed

HEADS = ("Card", "Lies in", "Longest edge", "Hole to hole")
PARTS = (2.4, 4.0, 2.0, 2.0)


def corner_templates(facts: Facts) -> Iterator[Block]:
    """How the corners of the backing are marked with the cards of the kit."""
    cards = facts.kit.templates
    several = len(cards) > 1
    yield Section("The corner templates" if several else "The corner template")
    yield Paragraph(
        f"The kit holds {listed([card.piece.key for card in cards])}, of card. With "
        f"{'them' if several else 'it'} the corners of the backing are marked at once; the steps "
        "that follow tell the same by measures."
    )
    rows = tuple(_row(facts, card, n) for n, card in enumerate(cards, 1))
    yield Together((Table(heads=HEADS, rows=rows, parts=PARTS), Bullets(tuple(_use(facts)))))


def _row(facts: Facts, card: CornerTemplate, number: int) -> tuple[str, ...]:
    edge, holes = (f"corner.{number}.card.{what}" for what in ("edge", "holes"))
    between = facts.text(holes) if holes in facts.by_key else "one hole"
    return card.piece.key, _laid(card), facts.text(edge), between


def _laid(card: CornerTemplate) -> str:
    """In which corner, and which end of the card along which side."""
    if not card.raw_edges:
        return f"{_corners(card.corners)}, either face up"
    first = card.face_up[0]
    ends = [
        f"its {', '.join(edge.sides)} end along side {side}"
        for side in first
        for edge in card.raw_edges
        if side in edge.sides
    ]
    text = f"corner {first}, {listed(ends)}"
    if card.face_up[1:]:
        text += f"; the same face up in {_corners(card.face_up[1:])}"
    if card.turned_over:
        text += f"; turned over in {_corners(card.turned_over)}"
    return text


def _corners(names: Sequence[str]) -> str:
    return f"corner{'s' if len(names) > 1 else ''} {listed(names)}"


def _use(facts: Facts) -> Iterator[str]:
    """The same for all cards, but for what a card has no room for."""
    yield "Measure both sizes in the table before a card is used: paper and cutters may scale."
    edges = "edges" if facts.folded_over else "edges that meet the notched one"
    letters = (
        " Its ends have the letters of the sides."
        if any(card.raw_edges for card in facts.kit.templates)
        else ""
    )
    yield (
        "Lay the backing wrong side up and the card into its corner: its two "
        f"{edges} along the raw edges.{letters}"
    )
    ways: dict[str, list[str]] = {}
    for card in facts.kit.templates:
        ways.setdefault(_marked(facts, card), []).append(card.piece.key)
    for words, keys in ways.items():
        yield words if len(ways) == 1 else f"{listed(keys)}: {words[0].lower()}{words[1:]}"


def _marked(facts: Facts, card: CornerTemplate) -> str:
    corner = next(c for c in facts.kit.blanket.corners if c.at == card.corners[0])
    slots = any(isinstance(hole, Path) for hole in card.piece.holes)
    line = "corner fold" if facts.folded_over else "miter line"
    through = (
        f"through its slots the {line}"
        if slots
        else f"and join the marks by a ruler for the {line}"
    )
    if facts.folded_over:
        return (
            f"Mark through its hole the place of the top's corner, {through}; "
            "draw along the edge across the tip, which is trimmed there."
        )
    trimmed = _trim_words(facts, corner)
    return f"Mark through its holes the dots, {through}; {trimmed}tick the notch for the fold."


def _trim_words(facts: Facts, corner: Corner) -> str:
    if not corner.waste:
        return ""
    if facts.kit.project.corners is BackingCorners.TRIMMED:
        return "its notched edge lies on the corner that is cut off; "
    return "draw along its notched edge for the trim line; "
