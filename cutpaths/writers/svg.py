"""SVG 1.1: one sheet as one file, true to scale.

Millimetres. `width`, `height` and `viewBox` carry the same numbers, so that one user unit is 1 mm
(SVG 1.1, 7.7 and 7.10). Coordinates are final and absolute, with six decimals; y runs down in SVG,
and `height - y` is the only flip. A group for each role in drawing order (id `cut`) holds a group
for each piece (id `cut-backing`). A text is drawn by the strokes of the single-line font, in a
group whose `<title>` (5.4) is the string. `<metadata>` (21) has Dublin Core elements. The painted
shapes of pictures stand in a group `paint` before all others (see `svg_paint`).

Left out: transforms, styles, scripts, fills of what is not painted, text elements, curves, several
sheets.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import svgwrite

from cutpaths.drawing import About, Document, Drawing, Item, Pen, by_role, flatten, text_paths
from cutpaths.paint import hex_of
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Circle, Path, Point, Text
from cutpaths.writers.svg_paint import add_paint
from cutpaths.writers.writable import require_writable

_DECLARATION = '<?xml version="1.0" encoding="utf-8"?>\n'
_DUBLIN_CORE = "http://purl.org/dc/elements/1.1/"

# svgwrite ships no types: an element of its tree.
_Element = Any


def render(document: Document) -> bytes:
    """The bytes of an SVG file with the document's one sheet.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    drawing = document.only_sheet("SVG")
    require_writable(drawing)
    canvas = _canvas(drawing)
    ink = _Ink(canvas, drawing.size[1])
    flat = [part for item in drawing.items for part in flatten(item)]
    add_paint(canvas, drawing, flat, _number, ink.route)
    for role, pieces in by_role(part for part in flat if part.paint is None):
        group = canvas.add(canvas.g(id=role.lower(), **_stroke(role, drawing.pen)))
        for key, items in pieces.items():
            piece = group.add(canvas.g(id=f"{role.lower()}-{key}"))
            for item in items:
                piece.add(ink.element(item))
    text: str = canvas.tostring()
    return f"{_DECLARATION}{text}\n".encode()


def _canvas(drawing: Drawing) -> _Element:
    width, height = (_number(side) for side in drawing.size)
    # Debugging, svgwrite looks each attribute up in the standard, which takes half as long again.
    canvas = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"),
        viewBox=f"0 0 {width} {height}",
        profile="full",
        debug=False,
    )
    about = drawing.about
    canvas.set_desc(title=f"{about.project}: {about.piece}", desc=_description(about))
    for name, text in _metadata(about):
        element = ET.Element(f"{{{_DUBLIN_CORE}}}{name}")
        element.text = text
        canvas.set_metadata(element)
    return canvas


def _description(about: About) -> str:
    face = f"Face up: {about.face}. " if about.face else ""
    return f"{face}One user unit is 1 mm; do not scale. Unit of the texts: {about.unit.value}."


def _metadata(about: About) -> Iterator[tuple[str, str]]:
    yield "title", about.project
    yield "subject", about.piece
    yield "identifier", f"sha256:{about.digest}"
    yield "format", "image/svg+xml"


def _stroke(role: Role, pen: Pen) -> dict[str, str]:
    """The attributes of a role's group, by svgwrite's names for them."""
    style = STYLES[role]
    stroke = {
        "fill": "none",
        "stroke": hex_of(dict(pen.inks).get(role, style.colour)),
        "stroke_width": _number(style.width * pen.scale),
        "stroke_linejoin": "round",
    }
    if pen.patterned and style.pattern:
        dashes = (_number(length * pen.stretch) for length in style.pattern)
        return stroke | {"stroke_dasharray": " ".join(dashes)}
    return stroke | {"stroke_linecap": "round"}


@dataclass(frozen=True, slots=True)
class _Ink:
    """Turns shapes into elements of a canvas that is `height` mm high."""

    canvas: _Element
    height: float

    def element(self, item: Item) -> _Element:
        match item.shape:
            case Path(points, closed):
                return self.canvas.path(d=self.route(points, closed))
            case Circle((x, y), radius):
                center = _number(x), _number(self.height - y)
                return self.canvas.circle(center=center, r=_number(radius))
            case Text() as text:
                return self._lettering(text)
            case shape:
                raise TypeError(f"a flat item holds a path, a circle or a text, got {shape!r}")

    def route(self, points: tuple[Point, ...], closed: bool) -> str:
        """The way of a path from point to point, in user units."""
        # As `_number`, all points at once: this is where a large file spends its time.
        height = self.height
        route = " L ".join([f"{x:.6f},{height - y:.6f}" for x, y in points])
        return f"M {route.replace('-0.000000', '0.000000')}{' Z' if closed else ''}"

    def _lettering(self, text: Text) -> _Element:
        group = self.canvas.g(stroke_dasharray="none")  # dashed letters are unreadable
        group.set_desc(title=text.string)
        for path in text_paths(text):
            group.add(self.canvas.path(d=self.route(path.points, path.closed)))
        return group


def _number(value: float) -> str:
    """Millimetres with six decimals, without a sign where all of them are nought."""
    return f"{value:.6f}".replace("-0.000000", "0.000000")
