"""Reads DXF files of the kind that is written here: strictly, units and layers included.

Millimetres, x right, y up: `$INSUNITS` is taken at its word. Blocks are set down where they are
inserted. Entities that are never written here, arcs in lines and anything off the plane are
refused.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator

from cutpaths.drawing import Document
from cutpaths.lengths import Unit
from cutpaths.readback.compare import differences, order_difference, place_difference
from cutpaths.readback.dxf_tags import Block, Entity, Structure, structure
from cutpaths.readback.expected import entities_of
from cutpaths.readback.found import Found, Kind, Point, ReadError
from cutpaths.values import Value, replace

# DXF reference, header variables: $INSUNITS.
_MM = {1: 25.4, 4: 1.0, 5: 10.0, 6: 1000.0}
_NESTED = 8
_ANCHORS = ("start", "middle", "end")
_ESCAPE = re.compile(r"%%%|\^ ")


class Sheet(Value, kw_only=True):
    """What a DXF file holds.

    Attributes:
        low, high: corners of its extents, mm.
        version: `$ACADVER`.
        insunits, measurement: the header variables of these names.
        layers: the names in the layer table.
        items: in the order of the file, blocks where they are inserted.
    """

    low: Point
    high: Point
    version: str
    insunits: int
    measurement: int
    layers: frozenset[str]
    items: tuple[Found, ...]


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not.

    Raises:
        DrawingError: the document has not one sheet.
    """
    drawing = document.only_sheet("DXF")
    try:
        sheet = read(data)
    except ReadError as error:
        return (str(error),)
    imperial = drawing.about.unit is Unit.INCH
    header = {
        "$ACADVER": ("AC1024", sheet.version),
        "$INSUNITS": (1 if imperial else 4, sheet.insunits),
        "$MEASUREMENT": (0 if imperial else 1, sheet.measurement),
    }
    roles = dict.fromkeys(item.role for item in sheet.items)
    return (
        *(f"{name} must be {a}, found {b}" for name, (a, b) in header.items() if a != b),
        *(f"the layer {r} is not in the layer table" for r in roles if r not in sheet.layers),
        *place_difference("$EXTMIN", (0.0, 0.0), sheet.low),
        *place_difference("$EXTMAX", drawing.size, sheet.high),
        *differences(entities_of(drawing), sheet.items),
        *(order_difference(entities_of(drawing), sheet.items) if drawing.pen.machine else ()),
    )


def read(data: bytes) -> Sheet:
    """Reads a file.

    Raises:
        ReadError: it is not DXF, or holds what is never written here.
    """
    parts = structure(data)
    insunits = _header(parts, "$INSUNITS", 70)
    # A file without a known unit is taken as mm, the most that a program could do.
    mm = _MM.get(insunits, 1.0)
    view = _View(blocks=parts.blocks, scale=mm)
    low, high = (_variable(parts, name).point(10) for name in ("$EXTMIN", "$EXTMAX"))
    return Sheet(
        low=view.point(low),
        high=view.point(high),
        version=_variable(parts, "$ACADVER").text(1),
        insunits=insunits,
        measurement=_header(parts, "$MEASUREMENT", 70),
        layers=parts.layers,
        items=tuple(view.items(parts.entities)),
    )


def _variable(parts: Structure, name: str) -> Entity:
    if name not in parts.header:
        raise ReadError(f"the header has no {name}")
    return parts.header[name]


def _header(parts: Structure, name: str, code: int) -> int:
    return int(_variable(parts, name).number(code))


class _View(Value, kw_only=True):
    """Where the entities of a layout stand: scaled, turned by degrees, then shifted by mm."""

    blocks: dict[str, Block]
    scale: float
    angle: float = 0.0
    dx: float = 0.0
    dy: float = 0.0
    depth: int = 0

    def items(self, entities: tuple[Entity, ...]) -> Iterator[Found]:
        for entity in entities:
            _require_flat(entity)
            match entity.name:
                case "LWPOLYLINE":
                    yield self._line(entity)
                case "CIRCLE":
                    yield self._found(entity, Kind.CIRCLE, 10, size=entity.number(40) * self.scale)
                case "TEXT":
                    yield self._text(entity)
                case "DIMENSION":
                    string = _plain(entity.text(1))
                    yield self._found(entity, Kind.DIMENSION, 13, 14, 10, string=string)
                    yield from self.items(self._block(entity).entities)
                case "INSERT":
                    block = self._block(entity)
                    yield from self._inserted(entity, block.base).items(block.entities)
                case name:
                    raise ReadError(f"an entity {name} is never written here")

    def point(self, p: Point) -> Point:
        return self.points((p,))[0]

    def points(self, points: Iterable[Point]) -> tuple[Point, ...]:
        turn, scale, dx, dy = math.radians(self.angle), self.scale, self.dx, self.dy
        # Quarter turns are exact.
        cos, sin = (round(math.cos(turn), 15), round(math.sin(turn), 15))
        scaled = [(x * scale, y * scale) for x, y in points]
        return tuple([(cos * x - sin * y + dx, sin * x + cos * y + dy) for x, y in scaled])

    def _found(
        self, entity: Entity, kind: Kind, *codes: int, size: float = 0.0, string: str = ""
    ) -> Found:
        points = self.points([entity.point(code) for code in codes])
        return Found(role=entity.text(8), kind=kind, points=points, size=size, string=string)

    def _line(self, entity: Entity) -> Found:
        xs, ys = entity.numbers(10), entity.numbers(20)
        if not len(xs) == len(ys) == entity.number(90):
            raise ReadError(f"a line of {entity.number(90):.0f} points has {len(xs)}")
        points = self.points(zip(xs, ys, strict=True))
        closed = int(entity.number(70, 0.0)) & 1 == 1
        return Found(role=entity.text(8), kind=Kind.LINE, points=points, closed=closed)

    def _text(self, entity: Entity) -> Found:
        across = int(entity.number(72, 0.0))
        if across not in range(3) or entity.number(73, 0.0) != 0.0:
            raise ReadError(f"a text must stand on its baseline, found {across} as group 72")
        return Found(
            role=entity.text(8),
            kind=Kind.TEXT,
            points=(self.point(entity.point(11 if across else 10)),),
            size=entity.number(40) * self.scale,
            angle=entity.number(50, 0.0) + self.angle,
            string=_plain(entity.text(1)),
            anchor=_ANCHORS[across],
        )

    def _block(self, entity: Entity) -> Block:
        name = entity.text(2)
        if name not in self.blocks:
            raise ReadError(f"the block {name!r} is not there")
        if self.depth == _NESTED:
            raise ReadError(f"the block {name!r} is nested too deeply")
        return self.blocks[name]

    def _inserted(self, entity: Entity, base: Point) -> _View:
        scales = {entity.number(code, 1.0) for code in (41, 42)}
        if len(scales) != 1 or min(scales) <= 0.0:
            raise ReadError(f"the block {entity.text(2)!r} is stretched or mirrored")
        view = replace(
            self,
            scale=self.scale * scales.pop(),
            angle=self.angle + entity.number(50, 0.0),
            depth=self.depth + 1,
        )
        (x, y), (left, low) = (
            self.point(entity.point(10)),
            replace(view, dx=0.0, dy=0.0).point(base),
        )
        return replace(view, dx=x - left, dy=y - low)


def _require_flat(entity: Entity) -> None:
    """Refuses corners with a bulge, lines that are raised, and planes seen from another side."""
    raised = entity.number(38, 0.0) or entity.number(30, 0.0)
    bulges = entity.name == "LWPOLYLINE" and any(entity.numbers(42))
    if raised or bulges or entity.number(230, 1.0) != 1.0:
        raise ReadError(f"the {entity.name} on {entity.text(8)} must be straight and flat")


def _plain(text: str) -> str:
    """A text as a person reads it: `%%%` is a percent sign, `^` and a space a caret."""
    return _ESCAPE.sub(lambda found: found[0][0], text)
