"""Reads the prints of an SVG file: each pattern as its image, its size and where it lies.

Millimetres, x right, y up, as far as the file's user unit is one; numbers are taken at their word.
"""

from __future__ import annotations

import hashlib
import re
import xml.etree.ElementTree as ET
from base64 import b64decode
from binascii import Error as Base64Error
from dataclasses import dataclass, replace

from cutpaths.readback.found import ReadError, Tile

_SVG = "{http://www.w3.org/2000/svg}"
_HREF = "{http://www.w3.org/1999/xlink}href"
_PNG = "data:image/png;base64,"
_NUMBER = r"(-?[0-9]+(?:\.[0-9]+)?)"
_MATRIX = re.compile(rf"matrix\({' '.join([_NUMBER] * 6)}\)")
_COLOUR = re.compile(r"#[0-9a-f]{6}")
_FILL = re.compile(r"(?:url\(#([a-z0-9-]+)\) )?(#[0-9a-f]{6})")
_PAINTED = {"d", "fill", "stroke"}


@dataclass(frozen=True, slots=True)
class Paints:
    """The prints of a file, by the names of their patterns."""

    tiles: dict[str, Tile]

    def read(self, path: ET.Element) -> tuple[str, str, Tile | None]:
        """Colour, colour of the edge and print of a painted path.

        Raises:
            ReadError: it is not painted as it must be.
        """
        if path.tag != f"{_SVG}path" or set(path.keys()) - _PAINTED:
            raise ReadError(f"only a path with {', '.join(sorted(_PAINTED))} can be painted")
        found = _FILL.fullmatch(path.get("fill", ""))
        if found is None:
            raise ReadError(f"a painted path must have a colour, found {path.get('fill')!r}")
        edge = path.get("stroke", "")
        if edge != "none" and _COLOUR.fullmatch(edge) is None:
            raise ReadError(f"the edge of a painted path must be a colour or none, found {edge!r}")
        name = found[1]
        if name is not None and name not in self.tiles:
            raise ReadError(f"there is no pattern {name!r}")
        return found[2], edge, self.tiles.get(name) if name else None


def read_paints(root: ET.Element, height: float) -> Paints:
    """The patterns of a file whose sheet is `height` high.

    Raises:
        ReadError: a definition is not a pattern with one image, or one that lies otherwise.
    """
    tiles: dict[str, Tile] = {}
    for element in (child for defs in root.findall(f"{_SVG}defs") for child in defs):
        if element.tag != f"{_SVG}pattern":
            raise ReadError(f"a definition must be a pattern, found {element.tag!r}")
        tiles[element.get("id", "")] = _tile(element, tiles, height)
    return Paints(tiles)


def _tile(pattern: ET.Element, known: dict[str, Tile], height: float) -> Tile:
    inherited = pattern.get(_HREF)
    if inherited is None:
        return _own(pattern, height)
    base = known.get(inherited.removeprefix("#"))
    found = _MATRIX.fullmatch(pattern.get("patternTransform", ""))
    if base is None or found is None:
        raise ReadError(f"the pattern {pattern.get('id')!r} has no image or no place")
    a, b, c, d, e, f = map(float, found.groups())
    # Both frames have y down: the image's own, and that of the file.
    return replace(base, place=(a, -b, -c, d, e, height - f))


def _own(pattern: ET.Element, height: float) -> Tile:
    """A pattern with an image; its corner is that of the sheet."""
    images = pattern.findall(f"{_SVG}image")
    if len(images) != 1 or pattern.get("patternUnits") != "userSpaceOnUse":
        raise ReadError(f"the pattern {pattern.get('id')!r} must hold one image in user units")
    sizes = {tuple(each.get(name, "") for name in ("width", "height")) for each in
             (pattern, images[0])}
    link = images[0].get(_HREF, "")
    try:
        ((width, high),) = sizes
        data = b64decode(link.removeprefix(_PNG), validate=True)
        return Tile(_digest(data), (float(width), float(high)), (1.0, 0.0, 0.0, 1.0, 0.0, height))
    except (ValueError, Base64Error) as error:
        name = pattern.get("id")
        raise ReadError(f"the image of the pattern {name!r} is broken: {error}") from error


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
