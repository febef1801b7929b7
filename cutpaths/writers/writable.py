"""What no file format here can hold, refused in one line before anything is written.

Millimetres. A reader must never meet a number that is not one, a line without length, a closed
line that repeats its first point, or a letter that breaks the file.
"""

from __future__ import annotations

import re
import unicodedata
from typing import assert_never

from cutpaths.drawing import Dimension, Document, Drawing, Item, Placed
from cutpaths.errors import DrawingError
from cutpaths.shapes import Circle, Path, Point, Text

REACH_MM = 1e6  # a kilometre; what lies farther out is a mistake, and makes numbers long

_KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
# Control characters, half characters, and the line and paragraph separators.
_UNPRINTABLE = frozenset({"Cc", "Cs", "Zl", "Zp"})


def require_writable(drawing: Drawing) -> None:
    """Checks a drawing and all that is placed on it.

    Raises:
        DrawingError: the first thing that cannot be written.
    """
    if not all(0 < side < REACH_MM for side in drawing.size):
        raise DrawingError(f"{drawing.name}: the sheet must have a size, got {drawing.size}")
    about = drawing.about
    for text in (drawing.name, about.project, about.digest, about.piece, about.face, about.author):
        _require_printable(text)
    for item in drawing.items:
        _require_item(item)


def _require_item(item: Item) -> None:
    if _KEY.fullmatch(item.key) is None:
        raise DrawingError(f"a key must be lower-case letters, digits and dashes, got {item.key!r}")
    problem = _problem(item) or _paint_problem(item)
    if problem:
        raise DrawingError(f"{item.role} of {item.key}: {problem}")


def _problem(item: Item) -> str:
    """What is wrong with the shape of an item; empty where nothing is."""
    match item.shape:
        case Path() as path:
            return _path_problem(path)
        case Circle(center, radius):
            small = "" if 0 < radius < REACH_MM else f"a radius must be over 0 mm, got {radius}"
            return _reach_problem(center) or small
        case Text() as text:
            _require_printable(text.string)
            empty = "" if text.string.strip() else "a text must have letters"
            return empty or _reach_problem(text.at, (text.angle, 0.0)) or _height(text.height)
        case Dimension() as dimension:
            _require_printable(dimension.text)
            ends = (dimension.start, dimension.end)
            same = "a dimension must have two different points" if ends[0] == ends[1] else ""
            far = _reach_problem(*ends, (dimension.offset, 0.0))
            return same or far or _height(dimension.height)
        case Placed(drawing, motion):
            require_writable(drawing)
            return _reach_problem((motion.dx, motion.dy), (motion.cos, motion.sin))
        case _:
            assert_never(item.shape)


def _paint_problem(item: Item) -> str:
    """Only what is inside a closed line can be filled."""
    if item.paint is None or (isinstance(item.shape, Path) and item.shape.closed):
        return ""
    return "only a closed line can be painted"


def lines_alone(document: Document, form: str) -> Drawing:
    """The one sheet of a document, for a format that holds one and no paint.

    Raises:
        DrawingError: there is not one sheet, it is painted, or it holds what cannot be written.
    """
    drawing = document.only_sheet(form)
    require_writable(drawing)
    require_unpainted(drawing, form)
    return drawing


def require_unpainted(drawing: Drawing, form: str) -> None:
    """Checks that a drawing is lines alone, for a format that holds nothing else.

    Raises:
        DrawingError: something on it, or on what is placed on it, is painted.
    """
    for item in drawing.items:
        if item.paint is not None:
            raise DrawingError(f"{form} holds no paint, and {drawing.name} is a picture")
        if isinstance(item.shape, Placed):
            require_unpainted(item.shape.drawing, form)


def _path_problem(path: Path) -> str:
    points = path.points
    least = 3 if path.closed else 2
    if len(points) < least:
        return f"a line must have {least} points, got {len(points)}"
    if path.closed and points[0] == points[-1]:
        return f"a closed line must not repeat its first point {points[0]}"
    before = None
    for point in points:
        if point == before:
            return f"a line must not stand still, as at {point}"
        before = point
    return _reach_problem(*points)


def _reach_problem(*points: Point) -> str:
    for x, y in points:
        # A number that is not one fails every comparison.
        if not (-REACH_MM < x < REACH_MM and -REACH_MM < y < REACH_MM):
            return f"numbers must be within {REACH_MM:.0f} mm, got ({x}, {y})"
    return ""


def _height(height: float) -> str:
    return "" if 0 < height < REACH_MM else f"a text height must be over 0 mm, got {height}"


def _require_printable(text: str) -> None:
    for letter in text:
        if unicodedata.category(letter) in _UNPRINTABLE or letter in "\ufffe\uffff":
            raise DrawingError(
                f"a text must be one line of printable letters, got U+{ord(letter):04X} in {text!r}"
            )
