"""An empty DXF 2010 document with its header and tables.

Header values as in the DXF reference: `$INSUNITS` 1 inch, 4 mm; `$MEASUREMENT` 0 imperial,
1 metric; `$ACADVER` AC1024. Lengths in mm are turned into file units here alone: inches with ten
decimals for a project in inches, else mm (a project in cm is written in mm).
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from cutpaths.drawing import About, Drawing, Pen, flatten
from cutpaths.lengths import INCH_MM, Unit
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Point
from cutpaths.values import Value
from cutpaths.writers.dxf_kept import keep_alike
from cutpaths.writers.dxf_library import (
    VALID_DXF_LINEWEIGHTS,
    BaseLayout,
    DxfDocument,
    InsertUnits,
    new,
    options,
    rgb2int,
)

DECIMALS = 10

# Every option that the bytes depend on, whatever a program beside us sets: no clock, no random ids.
_OPTIONS = {"WRITE_FIXED_META_DATA_FOR_TESTING": "true"}

# Named colours of the AutoCAD colour index, for programs that know no others. 7 is black on white
# and white on black.
_INDEX_COLOURS = {
    1: (255, 0, 0),
    2: (255, 255, 0),
    3: (0, 255, 0),
    4: (0, 255, 255),
    5: (0, 0, 255),
    6: (255, 0, 255),
    7: (0, 0, 0),
    30: (255, 127, 0),
}


class FileUnit(Value):
    """The unit of a file's numbers.

    Attributes:
        mm: millimetres in one of it.
        insunits: its number in `$INSUNITS`.
    """

    mm: float
    insunits: InsertUnits

    def length(self, mm: float) -> float:
        """A length or a coordinate, in this unit."""
        # Adding 0.0 turns -0.0 into 0.0.
        return round(mm / self.mm, DECIMALS) + 0.0

    def points(self, points: Iterable[Point]) -> list[Point]:
        """Points, in this unit."""
        mm = self.mm
        return [(round(x / mm, DECIMALS) + 0.0, round(y / mm, DECIMALS) + 0.0) for x, y in points]

    def point(self, p: Point) -> Point:
        """A point, in this unit."""
        return self.length(p[0]), self.length(p[1])


def file_unit(unit: Unit) -> FileUnit:
    """The unit of the file of a project that works in `unit`."""
    inch = FileUnit(INCH_MM, InsertUnits.Inches)
    return inch if unit is Unit.INCH else FileUnit(1.0, InsertUnits.Millimeters)


@contextmanager
def settled_options() -> Iterator[None]:
    """Sets the options of ezdxf that the bytes depend on, and puts them back."""
    before = {key: options.get(options.CORE, key) for key in _OPTIONS}
    for key, value in _OPTIONS.items():
        options.set(options.CORE, key, value)
    try:
        yield
    finally:
        for key, value in before.items():
            options.set(options.CORE, key, value)


def new_document(drawing: Drawing) -> DxfDocument:
    """A document with header, layers and line types for a drawing, and nothing drawn yet."""
    unit = file_unit(drawing.about.unit)
    doc = new("R2010", setup=False, units=unit.insunits)
    keep_alike(doc)
    # These come from a set otherwise, in an order that changes from run to run.
    doc.classes.add_class("ACDBPLACEHOLDER")
    doc.classes.add_class("LAYOUT")
    _set_view(doc, unit.point(drawing.size))
    _set_about(doc, drawing.about)
    for name, value in dimension_values(drawing.about.unit).items():
        doc.header[f"${name.upper()}"] = value
    doc.header["$DIMSTYLE"] = "Standard"
    roles = {flat.role for item in drawing.items for flat in flatten(item)}
    for role in Role:
        if role in roles:
            _add_layer(doc, role, drawing.pen, unit)
    return doc


def dimension_values(unit: Unit) -> dict[str, int]:
    """How a program that redraws dimensions writes their numbers: 1/16 in, or 0.1 mm."""
    fractional = {"dimlunit": 5, "dimfrac": 2, "dimdec": 4}
    decimal = {"dimlunit": 2, "dimfrac": 0, "dimdec": 1}
    return (fractional if unit is Unit.INCH else decimal) | {"dimdsep": ord(".")}


def set_units(layout: BaseLayout, doc: DxfDocument) -> None:
    """Gives a layout the unit of its document; a program that inserts it scales it otherwise."""
    layout.units = InsertUnits(doc.units)


def to_bytes(doc: DxfDocument) -> bytes:
    """The file; UTF-8, as DXF has it since 2007."""
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode()


def _set_view(doc: DxfDocument, size: Point) -> None:
    """Extents, limits and view of the sheet, or a viewer opens on nothing."""
    width, height = size
    space = doc.modelspace()
    set_units(space, doc)
    low, high = (0.0, 0.0, 0.0), (width, height, 0.0)
    space.reset_extents(low, high)
    # ezdxf takes extents that start at the origin for none, and would leave these at 1e20.
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = low, high
    space.reset_limits((0.0, 0.0), (width, height))
    doc.set_modelspace_vport(height=max(width, height), center=(width / 2, height / 2))


def _set_about(doc: DxfDocument, about: About) -> None:
    doc.header["$LASTSAVEDBY"] = "cutpaths"
    properties = {
        "Project": about.project,
        "Project SHA-256": about.digest,
        "Piece": about.piece,
        "Face up": about.face,
        "Unit of texts": about.unit.value,
    }
    for name, value in properties.items():
        doc.header.custom_vars.append(name, value)


def _add_layer(doc: DxfDocument, role: Role, pen: Pen, unit: FileUnit) -> None:
    style = STYLES[role]
    colour = dict(pen.inks).get(role, style.colour)
    linetype = "Continuous"
    if pen.patterned and style.pattern:
        linetype = role.value
        lengths = [unit.length(mm) for mm in style.pattern]
        signed = [-mm if index % 2 else mm for index, mm in enumerate(lengths)]
        doc.linetypes.add(linetype, [sum(lengths), *signed], description=style.meaning)
    doc.layers.add(
        role.value,
        color=_index_colour(colour),
        true_color=rgb2int(colour),
        linetype=linetype,
        lineweight=_lineweight(style.width * pen.scale),
    )


def _index_colour(colour: tuple[int, int, int]) -> int:
    """The named index colour that is nearest."""

    def distance(index: int) -> int:
        return sum((a - b) ** 2 for a, b in zip(_INDEX_COLOURS[index], colour, strict=True))

    return min(_INDEX_COLOURS, key=distance)


def _lineweight(mm: float) -> int:
    """The line weight, hundredths of a mm, that DXF knows nearest to a width."""
    return min(VALID_DXF_LINEWEIGHTS, key=lambda weight: abs(weight - 100 * mm))
