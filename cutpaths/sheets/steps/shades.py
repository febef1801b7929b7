"""Which shade of the top's colour each of its fabrics has: the lightest fabric the lightest."""

from __future__ import annotations

from cutpaths.paint import Paint
from cutpaths.pieces import Kit
from cutpaths.sheets.fabric_paint import cloths_of, luminance
from cutpaths.sheets.steps.tints import shades


def shades_of(kit: Kit) -> dict[str, Paint]:
    """The shade of each fabric of the top, the lightest first.

    Fabrics of one lightness come in the order in which the project names them. A fabric that has
    a picture and no colour of its own counts as the colour of its place in the list of colours.
    """
    cloths = cloths_of(kit.project.fabrics)
    used = {piece.fabric for piece in kit.patchwork.pieces()}
    names = [fabric.name for fabric in kit.project.fabrics if fabric.name in used]
    names.sort(key=lambda name: luminance(cloths[name].colour), reverse=True)
    return dict(zip(names, shades(len(names)), strict=True))
