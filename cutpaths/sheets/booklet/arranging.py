"""How the patches are laid out before they are sewn."""

from __future__ import annotations

from cutpaths.project.patchwork import Patchwork, Pressing
from cutpaths.sheets.booklet.blocks import Block, Chapter, Paragraph, Picture, Terms, Together
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plain import layout_chart

HEIGHT = 165.0
KEYS_MOST = 12  # patches of one fabric that are named


def arranging(facts: Facts) -> tuple[Chapter, ...]:
    """The layout chart; nothing for a top of one cloth."""
    top = facts.kit.project.top
    if not isinstance(top, Patchwork):
        return ()
    chart = Picture(
        drawing=layout_chart(facts, top),
        alt="The layout chart: every patch of the top in its place, seen from the front.",
        caption=_caption(facts),
        height=HEIGHT,
    )
    words = Paragraph(
        "Lay all patches out on a table, a floor or a wall as the chart shows, right side up, "
        "before you sew any. Look at it from afar, take a photograph, and change what you like. "
        "Best they stay there: the sewing starts from what lies here. Where the room is needed "
        "first, stack each row from its first patch to its last, pin a slip with the row's name "
        "to each stack, and lay the stacks out again when you sew."
    )
    blocks: tuple[Block, ...] = (words, Together((chart,)), Terms(_patches(facts)))
    return (Chapter(title="Arranging the patches", blocks=blocks, fresh=True),)


def _caption(facts: Facts) -> str:
    words = "Seen from the front. r: rows from the head, c: columns from the left. "
    words += "In the patches stand the number of the piece and the letter of its fabric."
    if facts.kit.project.pressing is Pressing.ALTERNATE:
        words += " Arrows, where there is room, show which way allowances are pressed."
    return words


def _patches(facts: Facts) -> tuple[tuple[str, str], ...]:
    """For each fabric its patches, with their counts."""
    order = [fabric.name for fabric in facts.fabrics]
    found: dict[str, list[str]] = {}
    for piece in facts.kit.patchwork.pieces():
        of = "piece" if piece.count == 1 else "pieces"
        found.setdefault(piece.fabric, []).append(f"{piece.key}, {piece.count} {of}")
    return tuple(
        (f"{facts.short.get(fabric, '')}  {facts.label(fabric)}", _listed(names))
        for fabric, names in sorted(found.items(), key=lambda each: order.index(each[0]))
    )


def _listed(names: list[str]) -> str:
    more = f"; and {len(names) - KEYS_MOST} more" if len(names) > KEYS_MOST else ""
    return "; ".join(names[:KEYS_MOST]) + more
