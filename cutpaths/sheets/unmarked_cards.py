"""What to write on corner templates by hand, where the machine has nothing to draw on them with.

Cards of several corners look alike once they are cut. Their edges tell them apart.
"""

from __future__ import annotations

from cutpaths.geometry.assembly import PieceKind
from cutpaths.geometry.polygons import distance, edges
from cutpaths.lengths import as_fraction
from cutpaths.machine.bed import Bed
from cutpaths.pieces import CornerTemplate, Kit
from cutpaths.roles import Role
from cutpaths.sheets.faces import end_words, face_lines


def unmarked_cards(kit: Kit, bed: Bed) -> tuple[str, ...]:
    """A line for each card, with the edges by which to know it; none where a pen marks them."""
    if PieceKind.TEMPLATE not in bed.pieces or Role.LABEL in bed.roles:
        return ()
    return (
        "Nothing is drawn on them here: write on each what it is, before you turn it over.",
        *(_card(kit, template) for template in kit.templates),
    )


def _card(kit: Kit, template: CornerTemplate) -> str:
    ruler, piece = kit.project.ruler, template.piece
    longest = max(distance(*edge) for edge in edges(piece.outline))
    ends = [
        f"the edge of {ruler.text(as_fraction(distance(edge.start, edge.end)))} is the "
        f"{end_words(edge.sides)}"
        for edge in template.raw_edges
    ]
    said = "; ".join((*face_lines(kit, piece), *ends))
    return f"{piece.key}, longest edge {ruler.text(as_fraction(longest))}: {said}"
