"""Reads PNG pictures back, by Pillow: whole, in proportion, and each colour where it must be.

Pixels, x right, y down. Each painted shape is looked at in some places inside it; a line or a text
may cover one of them, but not all. Shapes of a few pixels, and those with a print, are passed over.
Pillow is in the extra `pictures`, as is the writer's library.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from cutpaths.drawing import Document, Drawing, Item, flatten
from cutpaths.errors import DrawingError, install_words
from cutpaths.paint import Colour
from cutpaths.readback.found import ReadError
from cutpaths.shapes import Path, Point

if TYPE_CHECKING:
    from PIL.Image import Image

SHOWN = 20
# Parts of the way from the middle of a shape to its corners.
PLACES = (0.0, 0.35, 0.6, 0.8, 0.95)
LEAST_PIXELS = 6.0  # from the middle to the nearest edge
HEIGHT_PIXELS = 2.0  # resvg rounds both sides up to whole pixels before it scales them
_LAST_CHUNK = b"\0\0\0\0IEND\xaeB`\x82"  # W3C PNG, 11.2.5: no data, and its checksum
SHADES = 3  # of 256 that a colour may be off


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a picture differs from its document; empty where it does not.

    Raises:
        DrawingError: the document has not one sheet, or Pillow is missing.
    """
    drawing = document.only_sheet("PNG")
    try:
        image = _opened(data)
    except ReadError as error:
        return (str(error),)
    width, height = image.size
    must = width * drawing.size[1] / drawing.size[0]
    if abs(height - must) > HEIGHT_PIXELS:
        return (f"{width} pixels wide, it must be {must:.0f} high, found {height}",)
    lines = [*_wrong_colours(drawing, image)]
    more = len(lines) - SHOWN
    return (*lines[:SHOWN], *((f"... and {more} more",) if more > 0 else ()))


def _opened(data: bytes) -> Image:
    try:
        from PIL import Image, UnidentifiedImageError
    except ImportError as error:
        raise DrawingError(
            f"PNG needs the extra `pictures`: {install_words('pictures')}, or ask for SVG alone"
        ) from error
    if not data.endswith(_LAST_CHUNK):
        raise ReadError("not a PNG picture: it has no end")
    try:
        with Image.open(io.BytesIO(data), formats=("PNG",)) as image:
            return image.convert("RGB")
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise ReadError(f"not a PNG picture: {error}") from error


def _wrong_colours(drawing: Drawing, image: Image) -> Iterator[str]:
    scale = image.size[0] / drawing.size[0]
    painted = [part for item in drawing.items for part in flatten(item) if part.paint is not None]
    for number, item in enumerate(painted, start=1):
        paint = item.paint
        if paint is None or paint.print is not None:
            continue
        seen = [image.getpixel(place) for place in _pixels(item, drawing, scale, image.size)]
        if seen and not any(_alike(paint.colour, each) for each in seen):
            yield f"painted shape {number} of {item.key} must be {paint.colour}, found {seen[0]}"


def _pixels(
    item: Item, drawing: Drawing, scale: float, size: tuple[int, int]
) -> Iterator[tuple[int, int]]:
    """Pixels inside a painted shape; none where it is small."""
    if not isinstance(item.shape, Path):
        return
    points = [(x * scale, (drawing.size[1] - y) * scale) for x, y in item.shape.points]
    middle = sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
    if min(_reach(middle, *edge) for edge in zip(points, points[1:] + points[:1], strict=True)) < (
        LEAST_PIXELS
    ):
        return
    ways = [(x - middle[0], y - middle[1]) for x, y in points]
    for part in PLACES:
        for way in ways if part else ways[:1]:
            yield _pixel((middle[0] + part * way[0], middle[1] + part * way[1]), size)


def _reach(place: Point, start: Point, end: Point) -> float:
    """How far a place is from the line through two points."""
    along = end[0] - start[0], end[1] - start[1]
    to = place[0] - start[0], place[1] - start[1]
    return abs(along[0] * to[1] - along[1] * to[0]) / math.hypot(*along)


def _pixel(place: Point, size: tuple[int, int]) -> tuple[int, int]:
    return min(int(place[0]), size[0] - 1), min(int(place[1]), size[1] - 1)


def _alike(colour: Colour, seen: object) -> bool:
    return isinstance(seen, tuple) and all(
        abs(a - b) <= SHADES for a, b in zip(colour, seen, strict=True)
    )
