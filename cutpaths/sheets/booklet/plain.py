"""Pictures of the blanket for the booklet, without the headings that they have as files; mm."""

from __future__ import annotations

from cutpaths.drawing import Drawing, Item
from cutpaths.pieces import Kit
from cutpaths.project.model import Patchwork
from cutpaths.roles import Role
from cutpaths.shapes import Path
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.chart import chart_plate
from cutpaths.sheets.picture import front_plate
from cutpaths.sheets.plate import Plate, drawing_of
from cutpaths.sheets.seen import edge, front
from cutpaths.sheets.sheet import about
from cutpaths.values import replace

# Pixels that plates are laid out for which are shown smaller than on a screen.
SMALL_PLATE, CHART_PLATE = 190.0, 600.0
_EDGE_ROOM = 6.0  # pixels of a plate round a picture that has nothing beside it


def finished_picture(facts: Facts) -> Drawing:
    """The front of the finished blanket, alone."""
    plate = _bare(front_plate(facts.kit, facts.cloths))
    letters = {item for item in plate.items if item.role is Role.LABEL}
    kept = tuple(item for item in plate.items if item not in letters)
    return drawing_of(replace(plate, items=kept, room=_EDGE_ROOM))


def sides_picture(facts: Facts) -> Drawing:
    """The front of the finished blanket with the letters of its sides."""
    return drawing_of(_bare(front_plate(facts.kit, facts.cloths, SMALL_PLATE)))


def layout_chart(facts: Facts, top: Patchwork) -> Drawing:
    """The layout chart; fabrics have their letters."""
    plate = chart_plate(facts.kit, top, facts.cloths, facts.short, CHART_PLATE)
    return drawing_of(_bare(plate))


def lines_to_colour(kit: Kit) -> Drawing:
    """The front of the finished blanket as lines only."""
    items = tuple(Item(Role.CUT, part.key, Path(part.outline, closed=True)) for part in front(kit))
    plate = Plate(
        name="picture-lines",
        says=about(kit, "front of the finished blanket, to colour", "right side up"),
        outline=edge(kit),
        room=_EDGE_ROOM,
        items=items,
        heading=(),
    )
    return drawing_of(plate)


def _bare(plate: Plate) -> Plate:
    return replace(plate, heading=(), key=(), notes=())
