"""DXF R12 in millimetres: one sheet as one file, true to scale, for machines that read no other.

R12 has no unit of its own, so the file's name says mm. Final coordinates with six decimals, x
right, y up. A layer for each role that is used, in its layer table. Lines are POLYLINE with
VERTEX and SEQEND, closed by flag (70, bit 1), for R12 has no LWPOLYLINE; circles CIRCLE; texts
strokes. The header has `$ACADVER` AC1009, extents and limits (DXF reference, R12).

Left out: blocks, line types, true colours, dimensions as such, several sheets.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Document, Drawing, Item, expand, flatten, in_groups
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Circle, Path, Point
from cutpaths.writers.writable import lines_alone

# The AutoCAD colour index: 1 red, 3 green, 5 blue, 7 black or white.
_INDEX_COLOURS = {1: (255, 0, 0), 3: (0, 255, 0), 5: (0, 0, 255), 7: (0, 0, 0)}

_Tag = tuple[int, str | int | float]


def render(document: Document) -> bytes:
    """The bytes of a DXF R12 file with the document's one sheet.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    drawing = lines_alone(document, "DXF")
    flat = (part for item in drawing.items for part in flatten(item))
    items = [
        (item.role, part)
        for _, pieces in in_groups(flat, drawing.pen)
        for piece in pieces.values()
        for item in piece
        for part in expand(item)
    ]
    tags = [
        *_header(drawing),
        *_tables(dict.fromkeys(role for role, _ in items), drawing),
        *_section("BLOCKS", []),
        *_section("ENTITIES", (tag for role, part in items for tag in _entity(role, part))),
        (0, "EOF"),
    ]
    return "".join(f"{code:3d}\n{_value(value)}\n" for code, value in tags).encode("ascii")


def _header(drawing: Drawing) -> Iterator[_Tag]:
    width, height = drawing.size
    low, high = (0.0, 0.0), (width, height)
    tags: list[_Tag] = [(9, "$ACADVER"), (1, "AC1009")]
    for name, point in (("EXTMIN", low), ("EXTMAX", high), ("LIMMIN", low), ("LIMMAX", high)):
        tags += [(9, f"${name}"), *_point(point)]
        tags += [(30, 0.0)] if name.startswith("EXT") else []
    return _section("HEADER", tags)


def _tables(roles: dict[Role, None], drawing: Drawing) -> Iterator[_Tag]:
    solid: list[_Tag] = [(0, "LTYPE"), (2, "CONTINUOUS"), (70, 0), (3, "Solid line")]
    solid += [(72, 65), (73, 0), (40, 0.0)]
    layers: list[_Tag] = []
    inks = dict(drawing.pen.inks)
    for name in ("0", *(role.value for role in roles)):
        colour = inks.get(Role(name), STYLES[Role(name)].colour) if name != "0" else (0, 0, 0)
        layers += [(0, "LAYER"), (2, name), (70, 0), (62, _index(colour)), (6, "CONTINUOUS")]
    return _section(
        "TABLES", [*_table("LTYPE", 1, solid), *_table("LAYER", len(roles) + 1, layers)]
    )


def _index(colour: tuple[int, int, int]) -> int:
    """The named index colour that is nearest."""

    def distance(index: int) -> int:
        return sum((a - b) ** 2 for a, b in zip(_INDEX_COLOURS[index], colour, strict=True))

    return min(_INDEX_COLOURS, key=distance)


def _table(name: str, count: int, entries: list[_Tag]) -> list[_Tag]:
    return [(0, "TABLE"), (2, name), (70, count), *entries, (0, "ENDTAB")]


def _section(name: str, tags: Iterator[_Tag] | list[_Tag]) -> Iterator[_Tag]:
    yield from ((0, "SECTION"), (2, name))
    yield from tags
    yield (0, "ENDSEC")


def _entity(role: Role, item: Item) -> Iterator[_Tag]:
    layer: _Tag = (8, role.value)
    match item.shape:
        case Path(points, closed):
            yield from ((0, "POLYLINE"), layer, (66, 1), *_point((0.0, 0.0)), (30, 0.0))
            yield (70, int(closed))
            for point in points:
                yield from ((0, "VERTEX"), layer, *_point(point), (30, 0.0))
            yield from ((0, "SEQEND"), layer)
        case Circle(center, radius):
            yield from ((0, "CIRCLE"), layer, *_point(center), (30, 0.0), (40, radius))
        case shape:
            raise TypeError(f"an expanded item is a path or a circle, got {shape!r}")


def _point(point: Point) -> tuple[_Tag, _Tag]:
    return (10, point[0]), (20, point[1])


def _value(value: str | float) -> str:
    """A float with six decimals and without a sign where all of them are nought."""
    return (
        f"{value:.6f}".replace("-0.000000", "0.000000") if isinstance(value, float) else f"{value}"
    )
