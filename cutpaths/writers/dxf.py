"""DXF 2010 through ezdxf: one sheet as one file, true to scale.

Final coordinates in inches or mm (see `dxf_setup`), x right, y up. A layer for each role that is
used. Lines are LWPOLYLINE, closed by flag (70, bit 1); circles CIRCLE; texts TEXT, or polylines
where the pen says so; dimensions DIMENSION with the block that shows them; a placed drawing is a
BLOCK named after it and an INSERT on layer 0. A mirrored placement has a block of its own with
mirrored content (`-M`), so that no text reads backwards and no scale is negative.

Left out: DXF R12, MTEXT, curves, several sheets. Numbers below 1e-4 have exponents.
"""

from __future__ import annotations

import math
import re
from typing import assert_never

from cutpaths.drawing import (
    Dimension,
    Document,
    Item,
    Pen,
    Placed,
    dimension_parts,
    in_groups,
    move,
    text_paths,
)
from cutpaths.errors import DrawingError
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Point, Text
from cutpaths.strokes import text_width
from cutpaths.values import Value, field
from cutpaths.writers.dxf_library import BaseLayout, DxfDocument
from cutpaths.writers.dxf_lines import add_line
from cutpaths.writers.dxf_setup import (
    FileUnit,
    dimension_values,
    file_unit,
    new_document,
    set_units,
    settled_options,
    to_bytes,
)
from cutpaths.writers.writable import lines_alone

_BLOCK_NAME = re.compile(r"[A-Z0-9_-]{1,31}")
_MIRROR = Motion(mirrored=True)
_HALIGN = {Anchor.START: 0, Anchor.MIDDLE: 1, Anchor.END: 2}

_LETTER_CODE = re.compile(r"\\[UM]\+", re.IGNORECASE)
_DIMENSION_SIGNS = re.compile(r"[\\{}<>]")

# DXF reference, DIMENSION, group 70: aligned, a block of its own, text set by the user.
_ALIGNED, _OWN_BLOCK, _TEXT_PLACED = 1, 32, 128


def render(document: Document) -> bytes:
    """The bytes of a DXF file with the document's one sheet.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    drawing = lines_alone(document, "DXF")
    with settled_options():
        doc = new_document(drawing)
        unit = drawing.about.unit
        ink = _Ink(doc, unit, file_unit(unit), drawing.pen)
        ink.add_all(doc.modelspace(), drawing.items)
        return to_bytes(doc)


class _Ink(Value):
    """Adds items to the layouts of one document.

    Attributes:
        blocks: what each named block holds, to keep one name for one thing.
        styles: the dimension style of each text height, mm.
    """

    doc: DxfDocument
    unit: Unit
    file: FileUnit
    pen: Pen
    blocks: dict[str, tuple[Item, ...]] = field(default_factory=dict)
    styles: dict[float, str] = field(default_factory=dict)

    def add_all(self, layout: BaseLayout, items: tuple[Item, ...]) -> None:
        for _, pieces in in_groups(items, self.pen):
            for piece in pieces.values():
                for item in piece:
                    self.add(layout, item)

    def add(self, layout: BaseLayout, item: Item) -> None:
        match item.shape:
            case Path() as path:
                self._add_path(layout, item.role, path)
            case Circle(center, radius):
                attribs = {"layer": item.role.value}
                center, radius = self.file.point(center), self.file.length(radius)
                layout.add_circle(center, radius, dxfattribs=attribs)
            case Text() as text:
                self._add_text(layout, item.role, text)
            case Dimension() as dimension:
                self._add_dimension(layout, item, dimension)
            case Placed() as placed:
                self._add_placed(layout, placed)
            case _:
                assert_never(item.shape)

    def _add_path(self, layout: BaseLayout, role: Role, path: Path, *, solid: bool = False) -> None:
        points = self.file.points(path.points)
        add_line(layout, role.value, points, closed=path.closed, solid=solid)

    def _add_text(self, layout: BaseLayout, role: Role, text: Text) -> None:
        if self.pen.text_as_strokes:
            for path in text_paths(text):
                self._add_path(layout, role, path, solid=True)  # dashed letters are unreadable
            return
        at = self.file.point(text.at)
        attribs = {
            "layer": role.value,
            "insert": at,
            "height": self.file.length(text.height),
            "rotation": text.angle,
        }
        if text.anchor is not Anchor.START:
            attribs |= {"halign": _HALIGN[text.anchor], "align_point": at}
        layout.add_text(_escaped(text.string), dxfattribs=attribs)

    def _add_dimension(self, layout: BaseLayout, item: Item, dimension: Dimension) -> None:
        if _DIMENSION_SIGNS.search(dimension.text):
            raise DrawingError(f"a dimension cannot show \\ {{ }} < or >, got {dimension.text!r}")
        parts = dimension_parts(dimension)
        block = self.doc.blocks.new_anonymous_block(type_char="D")
        set_units(block, self.doc)
        for part in parts:
            self.add(block, Item(item.role, item.key, part))
        (text,) = (part for part in parts if isinstance(part, Text))
        placed = 0 if text.anchor is Anchor.MIDDLE else _TEXT_PLACED
        frame, length = _frame(dimension)
        attribs = {
            "layer": item.role.value,
            "dimtype": _ALIGNED | _OWN_BLOCK | placed,
            "geometry": block.name,
            "dimstyle": self._style(dimension.height),
            "text": _escaped(dimension.text),
            "attachment_point": 5,
            "defpoint": self.file.point(frame.point((length, dimension.offset))),
            "defpoint2": self.file.point(dimension.start),
            "defpoint3": self.file.point(dimension.end),
            "text_midpoint": self.file.point(_middle(text)),
            "actual_measurement": self.file.length(length),
        }
        layout.new_entity("DIMENSION", attribs)

    def _style(self, height: float) -> str:
        """The name of the dimension style for a text height, made when it is first asked for."""
        if height not in self.styles:
            name = f"DIMENSION-{len(self.styles) + 1}"
            # The same proportions as in the block, for programs that draw it anew.
            parts = {"dimtxt": 1.0, "dimgap": 0.5, "dimexo": 0.4, "dimexe": 0.4, "dimtsz": 0.35}
            sizes = {key: self.file.length(height * part) for key, part in parts.items()}
            fixed = {"dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimtxsty": "Standard"}
            self.doc.dimstyles.new(name, sizes | fixed | dimension_values(self.unit))
            self.styles[height] = name
        return self.styles[height]

    def _add_placed(self, layout: BaseLayout, placed: Placed) -> None:
        motion = placed.motion
        name = placed.drawing.name.upper() + ("-M" if motion.mirrored else "")
        items = placed.drawing.items
        if motion.mirrored:
            items = tuple(move(_MIRROR, item) for item in items)
        self._require_block(name, items)
        place = self.file.point((motion.dx, motion.dy))
        layout.add_blockref(name, place, dxfattribs={"rotation": motion.degrees})

    def _require_block(self, name: str, items: tuple[Item, ...]) -> None:
        """Makes a block once; its name stands for nothing else."""
        if name in self.blocks:
            if self.blocks[name] != items:
                raise DrawingError(f"two different drawings are placed under the name {name}")
            return
        if _BLOCK_NAME.fullmatch(name) is None:
            raise DrawingError(
                f"a block's name must be at most 31 letters, digits, - or _, got {name!r}"
            )
        self.blocks[name] = items
        block = self.doc.blocks.new(name)
        set_units(block, self.doc)
        self.add_all(block, items)


def _escaped(string: str) -> str:
    r"""A text as DXF reads it back: `^` starts a control letter, `%%` a sign, `\U+` a code.

    `^` and a space is a caret (DXF reference, "About ASCII Control Characters in DXF Files"), and
    `%%%` one percent sign (AutoCAD help, "Control Codes and Special Characters Reference").
    """
    if _LETTER_CODE.search(string):
        raise DrawingError(f"a DXF text cannot hold \\U+ or \\M+, got {string!r}")
    return string.replace("^", "^ ").replace("%%", "%%%%%%")


def _frame(dimension: Dimension) -> tuple[Motion, float]:
    """The frame whose x axis runs from the first point to the second, and their distance."""
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    length = math.hypot(x1 - x0, y1 - y0)
    return Motion((x1 - x0) / length, (y1 - y0) / length, x0, y0), length


def _middle(text: Text) -> Point:
    """The point half way along a text and half way up its capitals."""
    half = text_width(text.string, text.height) / 2
    along = {Anchor.START: half, Anchor.MIDDLE: 0.0, Anchor.END: -half}[text.anchor]
    turn = math.radians(text.angle)
    return Motion(math.cos(turn), math.sin(turn), *text.at).point((along, text.height / 2))
