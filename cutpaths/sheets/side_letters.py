"""Letters of sides about a picture; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Item
from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import Ring, directions, edges, middle, right_of
from cutpaths.shapes import Anchor
from cutpaths.sheets.sheet import label
from cutpaths.strokes import text_width


def side_letters(outline: Ring, height: float, gap: float) -> Iterator[Item]:
    """The letter of each side, outside its middle, its box `gap` away from the side."""
    for i, ((start, end), way) in enumerate(zip(edges(outline), directions(outline), strict=True)):
        (x, y), (ux, uy) = middle(start, end), right_of(way)
        wide = text_width(letter(i), height)
        reach = gap + abs(ux) * wide / 2 + abs(uy) * height / 2
        at = x + ux * reach, y + uy * reach - height / 2
        yield label("sides", letter(i), at, height, Anchor.MIDDLE)
