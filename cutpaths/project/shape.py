"""The shape of a project file: its tables, keys and types, and what each key is for.

These structs are the one description of the file: `fill` reads tables by them and the JSON Schema
is made from them. Lengths are exact millimetres once read. Rules between keys live elsewhere.
"""

from fractions import Fraction
from typing import Annotated, ClassVar, Literal

from msgspec import Meta, Struct, field

from cutpaths.lengths import Unit
from cutpaths.project.model import BackingCorners, Construction

PATCHES_MOST = 250_000
FORMAT = 1

# What JSON Schema can say of a written length; `cutpaths.lengths` reads it for good.
LENGTH_PATTERN = (
    r"^\s*[+-]?\s*([0-9]+(\.[0-9]*)?|\.[0-9]+|([0-9]+(\s+|\s*-\s*))?[0-9]+\s*[/⁄]\s*[0-9]+"
    r"|[0-9]*\s*-?\s*[½⅓⅔¼¾⅛⅜⅝⅞])\s*([Mm][Mm]|[Cc][Mm]|[Mm]|[Ii][Nn]([Cc][Hh]([Ee][Ss])?)?"
    r"|[Yy][Dd]|[Yy][Aa][Rr][Dd][Ss]?|[\"″])?\s*$"
)

Length = Annotated[
    Fraction, Meta(extra={"least": "positive"}, extra_json_schema={"exclusiveMinimum": 0})
]
Amount = Annotated[Fraction, Meta(extra={"least": "zero"}, extra_json_schema={"minimum": 0})]
Coordinate = Annotated[Fraction, Meta(extra={"least": "none"})]
Count = Annotated[
    int,
    Meta(
        ge=1,
        le=PATCHES_MOST,
        extra={"must": f"be a whole number from 1 to {PATCHES_MOST:,}"},
    ),
]
Text = Annotated[
    str, Meta(max_length=120, min_length=1, extra={"must": "be text of 1 to 120 letters"})
]
FabricName = Annotated[
    str,
    Meta(
        pattern="^[a-z][a-z0-9_-]{0,39}$",
        extra={"must": "be named in lower-case letters, such as `sand`; capitals are for sides"},
    ),
]
SideLetter = Annotated[
    str, Meta(pattern="^[A-Z]$", extra={"must": "be the letter of a side, such as A"})
]
EVERY = "every"  # the key of the short form of `EachSide`: one width for all sides
EachSide = dict[SideLetter, Length]


class Table(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """A table of the file; `short` names the keys that a bare length stands for."""

    short: ClassVar[tuple[str, ...]] = ()


class FabricTable(Table, frozen=True):
    """One cloth. Its name, in lower case, is how the top and the backing ask for it."""

    label: Annotated[Text | None, Meta(description="Name on labels; else the fabric's name")] = None
    directional: Annotated[
        bool, Meta(description="Whether its print or nap has an up (default: false)")
    ] = False


class Patch(Table, frozen=True):
    """Size of a square patch, cut or finished; a bare length is the cut size."""

    short: ClassVar[tuple[str, ...]] = ("cut",)

    cut: Annotated[Length | None, Meta(description="Raw edge to raw edge")] = None
    finished: Annotated[Length | None, Meta(description="Seam line to seam line")] = None


class SquaresTable(Table, tag_field="layout", tag="squares", frozen=True):
    """A top of squares of one size, in columns and rows."""

    patch: Annotated[Patch, Meta(extra={"write": "patch = 5"})]
    columns: Annotated[Count | None, Meta(description="Squares across")] = None
    rows: Annotated[Count | None, Meta(description="Squares down")] = None
    fabrics: Annotated[
        list[str] | None,
        Meta(description="Fabrics that take turns, each row starting one further"),
    ] = None
    chart: Annotated[
        list[str] | None,
        Meta(description="Rows of fabric names seen from the front, the head row first"),
    ] = None


class Rectangle(Table, frozen=True):
    """Width and height."""

    width: Annotated[Length, Meta(extra={"write": "width = 30"})]
    height: Annotated[Length, Meta(extra={"write": "height = 36"})]


class Size(Table, frozen=True):
    """Width and height; a bare length is both."""

    short: ClassVar[tuple[str, ...]] = ("width", "height")

    width: Annotated[Length, Meta(extra={"write": "width = 30"})]
    height: Annotated[Length, Meta(extra={"write": "height = 36"})]


class PanelTable(Table, tag_field="layout", tag="panel", frozen=True):
    """A top of one rectangle of cloth."""

    cut: Annotated[Rectangle | None, Meta(description="Size raw edge to raw edge")] = None
    seen: Annotated[Rectangle | None, Meta(description="Size seam line to seam line")] = None
    fabric: Annotated[str | None, Meta(description="Name of its fabric")] = None


class RegularTable(Table, frozen=True):
    """A polygon with equal sides and corners; side A is the foot."""

    sides: Annotated[
        int,
        Meta(ge=3, le=26, extra={"must": "be a whole number from 3 to 26", "write": "sides = 6"}),
    ]
    side: Annotated[Length, Meta(description="Finished length", extra={"write": "side = 9"})]


class OutlineTable(Table, tag_field="layout", tag="outline", frozen=True):
    """A top of one piece with any convex outline."""

    points: Annotated[
        list[tuple[Coordinate, Coordinate]] | None,
        Meta(description="Corners, x to the right and y up; side A runs from first to second"),
    ] = None
    size: Annotated[
        Literal["seen", "cut"] | None,
        Meta(description="Whether the points lie on the stitching line or on the raw edge"),
    ] = None
    regular: RegularTable | None = None
    fabric: Annotated[str | None, Meta(description="Name of its fabric")] = None


class BorderTable(Table, frozen=True):
    """The border's width, or what settles it: the backing or the finished blanket."""

    width: Annotated[EachSide | None, Meta(description="Width, one or one for each side")] = None
    backing: Annotated[Size | None, Meta(description="Cut size of the backing")] = None
    finished: Annotated[Size | None, Meta(description="Wanted size of the blanket")] = None
    nearest: Annotated[
        Length | None,
        Meta(description="Step to which a border found from backing or finished is rounded"),
    ] = None


class BackingTable(Table, frozen=True):
    """The backing, which comes round to the front as the border."""

    fabric: Annotated[str | None, Meta(description="Name of its fabric")] = None
    corners: Annotated[
        BackingCorners, Meta(description="Whether its corners are cut off before sewing")
    ] = BackingCorners.LEFT_ON


class SeamsTable(Table, frozen=True):
    """Distances of the sewing lines (defaults: 1/4, 1/8, 1/4 in; metric files 6, 3, 6 mm)."""

    allowance: Annotated[Length | None, Meta(description="Raw edge to stitching line")] = None
    basting: Annotated[Length | None, Meta(description="Raw edge to basting line")] = None
    miter: Annotated[Length | None, Meta(description="Miter trim: miter stitching to cut")] = None


class OpeningTable(Table, frozen=True):
    """The turning opening; what is left out is chosen."""

    length: Annotated[Length | None, Meta(description="Length left unsewn")] = None
    side: Annotated[SideLetter | None, Meta(description="Letter of its side")] = None
    start: Annotated[
        Amount | None, Meta(description="From the dot where the side starts, counter-clockwise")
    ] = None


class MeasuredTable(Table, frozen=True):
    """The sewn top as taped, raw edge to raw edge."""

    width: Annotated[Length, Meta(extra={"write": 'width = "30 1/8"'})]
    height: Annotated[Length, Meta(extra={"write": 'height = "35 3/8"'})]


class FileTable(Table, frozen=True):
    """A self-bound, mitered blanket: the project file of cutpaths."""

    format: Annotated[
        Literal[1], Meta(description="Version of this file format", extra={"write": "format = 1"})
    ]
    title: Annotated[Text, Meta(extra={"write": 'title = "Tide pool"'})]
    top: Annotated[
        SquaresTable | PanelTable | OutlineTable,
        Meta(extra={"write": 'the table [top] with `layout = "squares"`'}),
    ]
    border: Annotated[BorderTable, Meta(extra={"write": "the table [border] with `width = 2`"})]
    include: Annotated[
        list[str] | None, Meta(description="Files of the same folder whose tables are used too")
    ] = None
    units: Annotated[Unit, Meta(description="What a bare number means")] = Unit.INCH
    ruler: Annotated[
        Length | None, Meta(description="Step of the ruler (default: 1/8 in, metric files 1 mm)")
    ] = None
    construction: Annotated[
        Construction, Meta(description="How top and backing are joined (default: turned)")
    ] = Construction.TURNED
    turn_of_cloth: Annotated[
        Amount | None, Meta(description="What the cloth's thickness eats at the fold (default: 0)")
    ] = None
    fabric: dict[FabricName, FabricTable] = field(default_factory=dict)
    backing: BackingTable = field(default_factory=BackingTable)
    seams: SeamsTable = field(default_factory=SeamsTable)
    opening: OpeningTable | None = None
    measured: MeasuredTable | None = None
