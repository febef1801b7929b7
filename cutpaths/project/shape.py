"""The shape of a project file: its tables, keys and types, and what each key is for.

These structs are the one description of the file: `fill` reads tables by them and the JSON Schema
is made from them. Lengths are exact millimetres once read. Rules between keys live elsewhere.
"""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta, field

from cutpaths.lengths import Unit
from cutpaths.project.arrange_shape import ArrangeTable
from cutpaths.project.kinds import (
    Amount,
    BlockName,
    Coordinate,
    Count,
    FabricName,
    Length,
    Patch,
    Rectangle,
    SideLetter,
    Table,
    Text,
)
from cutpaths.project.layout_shape import (
    BlocksTable,
    BlockTable,
    BricksTable,
    GridTable,
    OnPointTable,
    PatchesTable,
    StripsTable,
)
from cutpaths.project.measured import Remedy
from cutpaths.project.model import BackingCorners, Construction
from cutpaths.project.pattern_shape import PatternTable
from cutpaths.project.stock_shape import JoinTable, StockTable

FORMAT = 1
EVERY = "every"  # the key of the short form of `EachSide`: one width for all sides
EachSide = dict[SideLetter, Length]
DiagonalName = Annotated[
    str,
    Meta(pattern="^(DA-BC|AB-CD)$", extra={"must": "be named by its corners, DA-BC or AB-CD"}),
]
EachDiagonal = dict[DiagonalName, Length]


Colour = Annotated[
    str,
    Meta(pattern="^#[0-9a-fA-F]{6}$", extra={"must": 'be a colour such as "#3a879c"'}),
]


class SwatchTable(Table, frozen=True):
    """A picture of a cloth at true scale, for pictures of the blanket."""

    file: Annotated[
        str,
        Meta(
            pattern=r"^[^/\\:\x00-\x1f]{1,100}\.([Pp][Nn][Gg]|[Jj][Pp][Ee]?[Gg])$",
            description="PNG or JPEG file in the folder of the project",
            extra={
                "must": 'be a PNG or JPEG file in the folder of the project, such as "sand.png"',
                "write": 'file = "sand.png"',
            },
        ),
    ]
    width: Annotated[
        Length,
        Meta(description="Width of cloth that it shows", extra={"write": "width = 5"}),
    ]


class FabricTable(Table, frozen=True):
    """One cloth. Its name, in lower case, is how the top and the backing ask for it."""

    label: Annotated[Text | None, Meta(description="Name on labels; else the fabric's name")] = None
    directional: Annotated[
        bool, Meta(description="Whether its print or nap has an up (default: false)")
    ] = False
    colour: Annotated[Colour | None, Meta(description="Colour in pictures; else one is chosen")] = (
        None
    )
    swatch: Annotated[
        SwatchTable | None, Meta(description="Picture of the cloth, repeated in pictures")
    ] = None
    stock: StockTable | None = None


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
    join: JoinTable | None = None


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


class FillingTable(Table, frozen=True):
    """A layer of batting between top and backing, cut smaller than the finished blanket."""

    fabric: Annotated[
        str | None,
        Meta(description="Name of its fabric; may be left out where no fabric has a table"),
    ] = None
    less: Annotated[
        Amount | None,
        Meta(description="How much smaller on every side (default: 1/8 in, metric files 3 mm)"),
    ] = None


class MeasuredTable(Table, frozen=True):
    """The sewn top as taped, raw edge to raw edge: through its middle, all round, or both."""

    width: Annotated[Length | None, Meta(description="Across, through the middle")] = None
    height: Annotated[Length | None, Meta(description="Down, through the middle")] = None
    sides: Annotated[
        EachSide | None, Meta(description="Along the edges: A foot, B right, C head, D left")
    ] = None
    diagonals: Annotated[
        EachDiagonal | None, Meta(description="From corner to corner, one or both; with sides")
    ] = None
    remedy: Annotated[
        Remedy | None,
        Meta(description="What is done about the difference (default: the least that serves)"),
    ] = None


class FileTable(Table, frozen=True):
    """A self-bound, mitered blanket: the project file of cutpaths."""

    format: Annotated[
        Literal[1], Meta(description="Version of this file format", extra={"write": "format = 1"})
    ]
    title: Annotated[Text, Meta(extra={"write": 'title = "Tide pool"'})]
    top: Annotated[
        SquaresTable
        | GridTable
        | BlocksTable
        | OnPointTable
        | StripsTable
        | BricksTable
        | PanelTable
        | OutlineTable,
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
    block: dict[BlockName, BlockTable] = field(default_factory=dict)
    patches: PatchesTable | None = None
    backing: BackingTable = field(default_factory=BackingTable)
    seams: SeamsTable = field(default_factory=SeamsTable)
    opening: OpeningTable | None = None
    filling: FillingTable | None = None
    measured: MeasuredTable | None = None
    arrange: ArrangeTable | None = None
    pattern: PatternTable | None = None
