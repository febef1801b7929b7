"""Reads DXF R12 files of the kind that is written here; millimetres, x right, y up."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Document
from cutpaths.readback.compare import differences, order_difference, place_difference
from cutpaths.readback.dxf_tags import Entity, Structure, structure
from cutpaths.readback.expected import strokes_of
from cutpaths.readback.found import Found, Kind, ReadError


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not.

    Raises:
        DrawingError: the document has not one sheet.
    """
    drawing = document.only_sheet("DXF")
    try:
        parts = structure(data)
        items = tuple(_items(parts.entities))
        corners = [_corner(parts, name) for name in ("$EXTMIN", "$EXTMAX")]
        version = _variable(parts, "$ACADVER").text(1)
    except ReadError as error:
        return (str(error),)
    must = tuple(_without_names(found) for found in strokes_of(drawing))
    roles = dict.fromkeys(item.role for item in items)
    return (
        *(() if version == "AC1009" else (f"$ACADVER must be AC1009, found {version}",)),
        *(f"the layer {r} is not in the layer table" for r in roles if r not in parts.layers),
        *place_difference("$EXTMIN", (0.0, 0.0), corners[0]),
        *place_difference("$EXTMAX", drawing.size, corners[1]),
        *differences(must, items),
        *(order_difference(must, items) if drawing.pen.machine else ()),
    )


def _variable(parts: Structure, name: str) -> Entity:
    if name not in parts.header:
        raise ReadError(f"the header has no {name}")
    return parts.header[name]


def _corner(parts: Structure, name: str) -> tuple[float, float]:
    return _variable(parts, name).point(10)


def _without_names(found: Found) -> Found:
    """What R12 keeps of an item: no piece, and of a text only its strokes."""
    return Found(
        role=found.role, kind=found.kind, points=found.points, closed=found.closed, size=found.size
    )


def _items(entities: tuple[Entity, ...]) -> Iterator[Found]:
    """Lines and circles; the points of a line are entities of their own, up to SEQEND."""
    line: Entity | None = None
    points: list[tuple[float, float]] = []
    for entity in entities:
        if entity.number(30, 0.0) != 0.0 or any(entity.numbers(42)):
            raise ReadError(f"the {entity.name} on {entity.text(8)} must be straight and flat")
        match entity.name:
            case "POLYLINE" if line is None:
                line, points = entity, []
            case "VERTEX" if line is not None:
                points.append(entity.point(10))
            case "SEQEND" if line is not None:
                closed = int(line.number(70, 0.0)) & 1 == 1
                yield Found(role=line.text(8), kind=Kind.LINE, points=tuple(points), closed=closed)
                line = None
            case "CIRCLE" if line is None:
                size = entity.number(40)
                yield Found(
                    role=entity.text(8), kind=Kind.CIRCLE, points=(entity.point(10),), size=size
                )
            case name:
                raise ReadError(f"an entity {name} is never written here")
    if line is not None:
        raise ReadError("a POLYLINE has no SEQEND")
