"""SVG 1.1: one sheet as one file, true to scale.

Millimetres; a machine's sheet in inches has inches, with eight decimals. `width`, `height` and
`viewBox` carry the same numbers, so that one user unit is 1 mm (SVG 1.1, 7.7 and 7.10).
Coordinates are final and absolute, with six decimals; y runs down in SVG, and `height - y` is the
only flip. A group for each role in drawing order (id `cut`) holds a group
for each piece (id `cut-backing`). A text is drawn by the strokes of the single-line font, in a
group whose `<title>` (5.4) is the string. `<metadata>` (21) has Dublin Core elements. The painted
shapes of pictures stand in a group `paint` before all others (see `svg_paint`).

A machine's sheet keeps the order of its items: a role that comes back has a group `cut.2`. Asked
to, it shows what is cut as areas.

Left out: transforms, styles, scripts, other fills of what is not painted, text elements, curves,
several sheets.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

import svgwrite

from cutpaths.drawing import About, Document, Drawing, Item, Pen, flatten, in_groups, text_paths
from cutpaths.lengths import INCH_MM, Unit
from cutpaths.paint import hex_of
from cutpaths.roles import STYLES, MachineWork, Role
from cutpaths.shapes import Circle, Path, Point, Text
from cutpaths.values import Value
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
    unit = _INCH if drawing.pen.machine and drawing.about.unit is Unit.INCH else _MM
    canvas = _canvas(drawing, unit)
    ink = _Ink(canvas, drawing.size[1], unit)
    flat = [part for item in drawing.items for part in flatten(item)]
    add_paint(canvas, drawing, flat, unit.number, ink.route)
    groups: Counter[Role] = Counter()
    for role, pieces in in_groups((part for part in flat if part.paint is None), drawing.pen):
        groups[role] += 1
        name = role.lower() + (f".{groups[role]}" if groups[role] > 1 else "")
        group = canvas.add(canvas.g(id=name, **_stroke(role, drawing.pen, unit)))
        for key, items in pieces.items():
            piece = group.add(canvas.g(id=f"{name}-{key}"))
            for item in items:
                piece.add(ink.element(item))
    # As svgwrite's own `tostring`, but for its detour by bytes, which flushes at every tag.
    text = ET.tostring(canvas.get_xml(), encoding="unicode")
    return f"{_DECLARATION}{text}\n".encode()


def _canvas(drawing: Drawing, unit: _Unit) -> _Element:
    width, height = (unit.number(side) for side in drawing.size)
    # Debugging, svgwrite looks each attribute up in the standard, which takes half as long again.
    canvas = svgwrite.Drawing(
        size=(f"{width}{unit.name}", f"{height}{unit.name}"),
        viewBox=f"0 0 {width} {height}",
        profile="full",
        debug=False,
    )
    about = drawing.about
    canvas.set_desc(title=f"{about.project}: {about.piece}", desc=_description(about, unit))
    for name, text in _metadata(about):
        element = ET.Element(f"{{{_DUBLIN_CORE}}}{name}")
        element.text = text
        canvas.set_metadata(element)
    return canvas


def _description(about: About, unit: _Unit) -> str:
    face = f"Face up: {about.face}. " if about.face else ""
    scale = f"One user unit is 1 {unit.name}; do not scale."
    return f"{face}{scale} Unit of the texts: {about.unit.value}."


def _metadata(about: About) -> Iterator[tuple[str, str]]:
    yield "title", about.project
    yield "subject", about.piece
    yield "identifier", f"sha256:{about.digest}"
    yield "format", "image/svg+xml"


def _stroke(role: Role, pen: Pen, unit: _Unit) -> dict[str, str]:
    """The attributes of a role's group, by svgwrite's names for them."""
    style = STYLES[role]
    colour = hex_of(dict(pen.inks).get(role, style.colour))
    if pen.machine and pen.machine.filled and style.work is MachineWork.CUT:
        return {"fill": colour, "stroke": "none"}
    stroke = {
        "fill": "none",
        "stroke": colour,
        "stroke_width": unit.number(style.width * pen.scale),
        "stroke_linejoin": "round",
    }
    if pen.patterned and style.pattern:
        dashes = (unit.number(length * pen.stretch) for length in style.pattern)
        return stroke | {"stroke_dasharray": " ".join(dashes)}
    return stroke | {"stroke_linecap": "round"}


class _Unit(Value):
    """The unit of a file's numbers, and the form in which each is written."""

    name: str
    mm: float
    form: str

    def number(self, mm: float) -> str:
        """A length or coordinate in this unit."""
        return self._unsigned(self.form % (mm / self.mm))

    def pairs(self, points: Iterable[Point], height: float) -> str:
        """Points of a sheet of a height, in this unit and with y down, all at once.

        This is where a large file spends its time.
        """
        pair, mm = f"{self.form},{self.form}", self.mm
        return self._unsigned(" L ".join([pair % (x / mm, (height - y) / mm) for x, y in points]))

    def _unsigned(self, text: str) -> str:
        """Without the sign of numbers whose decimals are all nought."""
        nought = self.form % 0.0
        return text.replace(f"-{nought}", nought)


_MM = _Unit("mm", 1.0, "%.6f")
_INCH = _Unit("in", INCH_MM, "%.8f")


class _Route:
    """A path with a route and nothing else, which is most of a file.

    It stands in svgwrite's tree like an element of its own, and costs a third.
    """

    elementname = "path"

    def __init__(self, route: str) -> None:
        self._route = route

    def get_xml(self) -> ET.Element:
        """The element, as svgwrite asks for it."""
        return ET.Element("path", {"d": self._route})


class _Ink(Value):
    """Turns shapes into elements of a canvas that is `height` mm high."""

    canvas: _Element
    height: float
    unit: _Unit

    def element(self, item: Item) -> _Element:
        match item.shape:
            case Path(points, closed):
                return _Route(self.route(points, closed))
            case Circle((x, y), radius):
                number = self.unit.number
                center = number(x), number(self.height - y)
                return self.canvas.circle(center=center, r=number(radius))
            case Text() as text:
                return self._lettering(text)
            case shape:
                raise TypeError(f"a flat item holds a path, a circle or a text, got {shape!r}")

    def route(self, points: tuple[Point, ...], closed: bool) -> str:
        """The way of a path from point to point, in user units."""
        return f"M {self.unit.pairs(points, self.height)}{' Z' if closed else ''}"

    def _lettering(self, text: Text) -> _Element:
        group = self.canvas.g(stroke_dasharray="none")  # dashed letters are unreadable
        group.set_desc(title=text.string)
        for path in text_paths(text):
            group.add(_Route(self.route(path.points, path.closed)))
        return group
