"""How the patches are laid out before they are sewn."""

from __future__ import annotations

from cutpaths.project.patchwork import Patchwork, Pressing
from cutpaths.sheets.booklet.blocks import Block, Chapter, Paragraph, Picture, Terms, Together
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.plain import layout_chart

HEIGHT = 165.0
ROWS_MOST = 60


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
        "before you sew any. Look at it from afar, or take a photograph. Then stack each row from "
        "its first patch to its last, pin a slip with the row's name to each stack, and leave the "
        "stacks in order."
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
    """Number, fabric and count of the patches."""
    pieces = facts.kit.patchwork.pieces()
    rows = [
        (
            piece.key,
            f"{facts.short.get(piece.fabric, '')}  {facts.label(piece.fabric)}, {piece.count} "
            f"{'piece' if piece.count == 1 else 'pieces'}",
        )
        for piece in pieces[:ROWS_MOST]
    ]
    if len(pieces) > ROWS_MOST:
        rows.append(("...", f"and {len(pieces) - ROWS_MOST} more"))
    return tuple(rows)
