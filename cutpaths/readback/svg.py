"""Reads SVG files of the kind that is written here: strictly, and as a simple importer would.

Millimetres, x right, y up. `width`, `height` and `viewBox` are taken at their word, so that a wrong
unit or a shifted view moves every point. Anything else than groups, titles, paths of straight
segments and circles is refused, transforms and styles too; only what is painted may have a fill.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator

from cutpaths.drawing import Document
from cutpaths.lengths import Unit
from cutpaths.readback.compare import differences, order_difference, place_difference
from cutpaths.readback.expected import strokes_of
from cutpaths.readback.found import Found, Kind, Point, ReadError
from cutpaths.readback.svg_paint import Paints, read_paints
from cutpaths.values import Value, replace

_SVG = "{http://www.w3.org/2000/svg}"
_MM = {
    # CSS Values and Units 3, absolute lengths: 1 in is 96 px and 72 pt. No unit is px.
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "pt": 25.4 / 72,
    "pc": 25.4 / 6,
    "px": 25.4 / 96,
    "": 25.4 / 96,
}
_NUMBER = r"-?[0-9]+(?:\.[0-9]+)?"
_NUMBERS = re.compile(_NUMBER)
_LENGTH = re.compile(rf"({_NUMBER})([a-z]*)")
# Possessive: there is one way to read a route, and no going back over a long one.
_STEP = "-?[0-9]++(?:\\.[0-9]++)?+,-?[0-9]++(?:\\.[0-9]++)?+"
_ROUTE = re.compile(rf"M ({_STEP}(?: L {_STEP})++)( Z)?")
_PAINT = "paint"
_ATTRIBUTES = {
    "svg": {"baseProfile", "height", "version", "viewBox", "width"},
    "g": {
        "fill",
        "id",
        "stroke",
        "stroke-dasharray",
        "stroke-linecap",
        "stroke-linejoin",
        "stroke-width",
    },
    "path": {"d"},
    "circle": {"cx", "cy", "r"},
}
_SILENT = {"title", "desc", "metadata", "defs"}


class Sheet(Value, kw_only=True):
    """What an SVG file holds.

    Attributes:
        size: width and height in mm.
        view: the viewBox: left, top, width and height in user units.
        filled: names of the groups of roles that have a fill.
        items: in the order of the file.
    """

    size: Point
    view: tuple[float, ...]
    filled: tuple[str, ...]
    items: tuple[Found, ...]


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not.

    Raises:
        DrawingError: the document has not one sheet.
    """
    drawing = document.only_sheet("SVG")
    try:
        sheet = read(data)
    except ReadError as error:
        return (str(error),)
    machine, must = drawing.pen.machine, strokes_of(drawing)
    inch = machine is not None and drawing.about.unit is Unit.INCH
    view = (0.0, 0.0, *(round(side / 25.4, 8) if inch else side for side in drawing.size))
    filled = () if machine and machine.filled else sheet.filled
    return (
        *place_difference("width and height", drawing.size, sheet.size),
        *(() if sheet.view == view else (f"viewBox must be {view}, found {sheet.view}",)),
        *(f"the group {name!r} must have no fill" for name in filled),
        *differences(must, sheet.items),
        *(order_difference(must, sheet.items) if machine else ()),
    )


def read(data: bytes) -> Sheet:
    """Reads a file.

    Raises:
        ReadError: it is not SVG, or holds what is never written here.
    """
    try:
        root = ET.fromstring(data)  # noqa: S314 - the bytes were made by this program
    except ET.ParseError as error:
        raise ReadError(f"not XML: {error}") from error
    _require(root, "svg")
    size = _length(root, "width"), _length(root, "height")
    view = tuple(map(float, _NUMBERS.findall(root.get("viewBox", ""))))
    if len(view) != 4 or not (view[2] > 0 and view[3] > 0):
        raise ReadError(f"viewBox must have four numbers, found {root.get('viewBox')!r}")
    page = _Page(size, view, read_paints(root, size[1]))
    groups = tuple(_children(root, "g"))
    items = tuple(item for group in groups for item in page.group(group))
    roles = (group for group in groups if group.get("id") != _PAINT)
    filled = tuple(group.get("id", "") for group in roles if group.get("fill") != "none")
    return Sheet(size=size, view=view, filled=filled, items=items)


class _Page(Value):
    """Turns elements into items in mm."""

    size: Point
    view: tuple[float, ...]
    paints: Paints

    def group(self, group: ET.Element) -> Iterator[Found]:
        return self._painted(group) if group.get("id") == _PAINT else self._role(group)

    def _painted(self, group: ET.Element) -> Iterator[Found]:
        for piece in _children(group, "g"):
            name, _, key = piece.get("id", "").partition("-")
            if name != _PAINT:
                raise ReadError(f"the group {piece.get('id')!r} stands in the group {_PAINT!r}")
            for path in piece:
                fill, edge, tile = self.paints.read(path)
                # Shapes of one paint are one path.
                for route in re.split(" (?=M)", path.get("d", "")):
                    line = self._line(route, _PAINT.upper(), key)
                    yield replace(line, fill=fill, edge=edge, tile=tile)

    def _role(self, group: ET.Element) -> Iterator[Found]:
        # A machine's work comes back to a role: its second group is `cut.2`.
        name = group.get("id", "")
        role = name.partition(".")[0]
        for piece in _children(group, "g"):
            parent, _, key = piece.get("id", "").partition("-")
            if parent != name:
                raise ReadError(f"the group {piece.get('id')!r} stands in the group {name!r}")
            for element in _children(piece, "g", "path", "circle"):
                yield from self._element(element, role.upper(), key)

    def _element(self, element: ET.Element, role: str, key: str) -> Iterator[Found]:
        match element.tag.removeprefix(_SVG):
            case "g":
                string = element.findtext(f"{_SVG}title", "")
                for stroke in _children(element, "path"):
                    yield self._line(stroke.get("d", ""), role, key, string)
            case "path":
                yield self._line(element.get("d", ""), role, key)
            case _:
                yield self._circle(element, role, key)

    def _line(self, route: str, role: str, key: str, string: str = "") -> Found:
        found = _ROUTE.fullmatch(route)
        if found is None:
            raise ReadError(f"a path must be M x,y L x,y ... Z, found {route[:60]!r}")
        numbers = list(map(float, found[1].replace(" L ", ",").split(",")))
        points = self._points(numbers[0::2], numbers[1::2])
        closed = found[2] is not None
        return Found(
            role=role, kind=Kind.LINE, points=points, closed=closed, string=string, key=key
        )

    def _circle(self, circle: ET.Element, role: str, key: str) -> Found:
        x, y, radius = (_number(circle, name) for name in ("cx", "cy", "r"))
        size = radius * self.size[0] / self.view[2]
        points = self._points([x], [y])
        return Found(role=role, kind=Kind.CIRCLE, points=points, size=size, key=key)

    def _points(self, xs: list[float], ys: list[float]) -> tuple[Point, ...]:
        (width, height), (left, top, across, down) = self.size, self.view
        return tuple(
            [
                ((x - left) * width / across, height - (y - top) * height / down)
                for x, y in zip(xs, ys, strict=True)
            ]
        )


def _children(element: ET.Element, *tags: str) -> Iterator[ET.Element]:
    for child in element:
        tag = child.tag.removeprefix(_SVG)
        if tag not in _SILENT:
            _require(child, *tags)
            yield child


def _require(element: ET.Element, *tags: str) -> None:
    tag = element.tag.removeprefix(_SVG)
    if tag not in tags or element.tag == tag:
        raise ReadError(f"an element {tag!r} where {' or '.join(tags)} must be")
    strange = sorted(set(element.keys()) - _ATTRIBUTES[tag])
    if strange:
        raise ReadError(f"the attribute {strange[0]!r} of {tag} is never written here")


def _length(root: ET.Element, name: str) -> float:
    found = _LENGTH.fullmatch(root.get(name, ""))
    if found is None or found[2] not in _MM:
        raise ReadError(f"{name} must be a length in mm, found {root.get(name)!r}")
    return float(found[1]) * _MM[found[2]]


def _number(element: ET.Element, name: str) -> float:
    written = element.get(name, "")
    if _NUMBERS.fullmatch(written) is None:
        raise ReadError(f"{name} must be a plain number, found {written!r}")
    return float(written)
