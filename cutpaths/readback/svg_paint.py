"""Reads the prints of an SVG file: each pattern as its image, its size and where it lies.

Millimetres, x right, y up, as far as the file's user unit is one; numbers are taken at their word.
"""

from __future__ import annotations

import hashlib
import re
import xml.etree.ElementTree as ET
from base64 import b64decode
from binascii import Error as Base64Error

from cutpaths.readback.found import ReadError, Tile
from cutpaths.values import Value, replace

_SVG = "{http://www.w3.org/2000/svg}"
_HREF = "{http://www.w3.org/1999/xlink}href"
_PNG = "data:image/png;base64,"
_NUMBER = r"(-?[0-9]+(?:\.[0-9]+)?)"
_MATRIX = re.compile(rf"matrix\({' '.join([_NUMBER] * 6)}\)")
_COLOUR = re.compile(r"#[0-9a-f]{6}")
_FILL = re.compile(r"(?:url\(#([a-z0-9-]+)\) )?(#[0-9a-f]{6})")
_PAINTED = {"d", "fill", "stroke"}


class Paints(Value):
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
        ReadError: a definition is not an image, a pattern of it, or a pattern that lies otherwise.
    """
    images: dict[str, Tile] = {}
    tiles: dict[str, Tile] = {}
    for element in (child for defs in root.findall(f"{_SVG}defs") for child in defs):
        name = element.get("id", "")
        match element.tag.removeprefix(_SVG):
            case "image":
                images[f"#{name}"] = _image(element, height)
            case "pattern" if element.get(_HREF) is None:
                tiles[name] = _pattern(element, images)
            case "pattern":
                tiles[name] = _other_place(element, tiles, height)
            case tag:
                raise ReadError(f"a definition must be an image or a pattern, found {tag!r}")
    return Paints(tiles)


def _image(image: ET.Element, height: float) -> Tile:
    """An image; its corner is that of the sheet."""
    name, link = image.get("id"), image.get(_HREF, "")
    if not link.startswith(_PNG) or image.get("preserveAspectRatio") != "none":
        raise ReadError(f"the image {name!r} must be a PNG that fills its size")
    try:
        data = b64decode(link.removeprefix(_PNG), validate=True)
        size = float(image.get("width", "")), float(image.get("height", ""))
    except (ValueError, Base64Error) as error:
        raise ReadError(f"the image {name!r} is broken: {error}") from error
    return Tile(hashlib.sha256(data).hexdigest(), size, (1.0, 0.0, 0.0, 1.0, 0.0, height))


def _pattern(pattern: ET.Element, images: dict[str, Tile]) -> Tile:
    """A pattern of one image as large as itself, above whatever lies beneath it."""
    uses = pattern.findall(f"{_SVG}use")
    links = {use.get(_HREF, "") for use in uses}
    tile = images.get(links.pop()) if len(links) == 1 and len(uses) == len(pattern) else None
    size = pattern.get("width", ""), pattern.get("height", "")
    if (
        tile is None
        or set(uses[-1].keys()) != {_HREF}
        or size != tuple(f"{side:.6f}" for side in tile.size)
        or pattern.get("patternUnits") != "userSpaceOnUse"
    ):
        raise ReadError(f"the pattern {pattern.get('id')!r} must show one image of its own size")
    return tile


def _other_place(pattern: ET.Element, known: dict[str, Tile], height: float) -> Tile:
    base = known.get(pattern.get(_HREF, "").removeprefix("#"))
    found = _MATRIX.fullmatch(pattern.get("patternTransform", ""))
    if base is None or found is None:
        raise ReadError(f"the pattern {pattern.get('id')!r} has no image or no place")
    a, b, c, d, e, f = map(float, found.groups())
    # Both frames have y down: the image's own, and that of the file.
    return replace(base, place=(a, -b, -c, d, e, height - f))
