"""Where the texts of a drawing lie: their boxes, which of them touch, and which leave the sheet.

Boxes come from the widths of the single-line font, turned as the text is; mm.
"""

from __future__ import annotations

from itertools import combinations

from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box

from cutpaths.drawing import Drawing, flatten
from cutpaths.shapes import Anchor, Text
from cutpaths.strokes import text_width

TAIL = 1 / 3  # how far tails hang below the baseline, as a part of the height
_BACK = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}


def texts_of(drawing: Drawing) -> list[Text]:
    """Every text of a drawing, those of dimensions and placed drawings too."""
    flat = (part.shape for item in drawing.items for part in flatten(item))
    return [shape for shape in flat if isinstance(shape, Text)]


def box_of(text: Text) -> Polygon:
    """The box of a text, from its tails to its capitals."""
    wide = text_width(text.string, text.height)
    left = -wide * _BACK[text.anchor]
    level = box(left, -text.height * TAIL, left + wide, text.height)
    return translate(rotate(level, text.angle, origin=(0.0, 0.0)), *text.at)


def touching(drawing: Drawing) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes touch."""
    boxes = [(text.string, box_of(text)) for text in texts_of(drawing)]
    return [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if p.intersects(q)]


def off_sheet(drawing: Drawing) -> list[str]:
    """Texts whose boxes do not lie wholly on the sheet."""
    sheet = box(0.0, 0.0, *drawing.size)
    return [text.string for text in texts_of(drawing) if not sheet.contains(box_of(text))]
