"""The shape of a bed file: its tables, keys and types. Rules between keys live in `bed_rules`.

Lengths are exact millimetres once read; a speed is a length a second.
"""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta, field

from cutpaths.lengths import Unit
from cutpaths.machine.bed import Feed, Shown, ToolKind
from cutpaths.project.kinds import Amount, Length, Table, Text
from cutpaths.roles import Role

NONE = "none"  # the tool of a role that the machine leaves out
_ROLES = "|".join(sorted(role.lower() for role in Role))

FormatName = Literal["dxf", "dxf-r12", "hpgl", "hpgl-old", "svg"]
PiecesName = Literal["patches", "top", "backing", "filling", "templates"]
ToolName = Annotated[
    str,
    Meta(
        pattern="^(?!none$)[a-z][a-z0-9_-]{0,39}$",
        extra={"must": "be named in lower-case letters, such as `pen`, and not `none`"},
    ),
]
RoleName = Annotated[
    str,
    Meta(pattern=f"^({_ROLES})$", extra={"must": f"be one of {_ROLES.replace('|', ', ')}"}),
]
Colour = Annotated[
    str, Meta(pattern="^#[0-9a-f]{6}$", extra={"must": 'be a colour such as "#0072b2"'})
]
Number = Annotated[
    int, Meta(ge=1, le=99, extra={"must": "be a whole number from 1 to 99", "write": "number = 1"})
]
Seconds = Annotated[
    int, Meta(ge=0, le=3600, extra={"must": "be a whole number of seconds from 0 to 3600"})
]
Speed = Annotated[Length, Meta(extra={"write": "speed = 60"})]


class MarginTable(Table, frozen=True):
    """What stays free along the bed's edges; a bare length is all four."""

    short: ClassVar[tuple[str, ...]] = ("left", "right", "foot", "head")

    left: Amount | None = None
    right: Amount | None = None
    foot: Amount | None = None
    head: Amount | None = None


class PlaceTable(Table, frozen=True):
    """The area of the bed and how pieces lie on it."""

    width: Annotated[Length, Meta(extra={"write": "width = 900"})]
    height: Annotated[Length, Meta(extra={"write": "height = 600"})]
    margin: MarginTable = field(default_factory=MarginTable)
    spacing: Amount | None = None
    feed: Feed = Feed.UP
    pieces: list[PiecesName] | None = None
    common_cuts: bool = False
    roll: bool = False
    sections: bool = False


class ToolTable(Table, frozen=True):
    """One tool of the machine."""

    kind: Annotated[ToolKind, Meta(extra={"write": 'kind = "drag-knife"'})]
    number: Number
    speed: Speed
    colour: Colour | None = None
    kerf: Amount | None = None
    blade_offset: Amount | None = None
    overcut: Amount | None = None


class TravelTable(Table, frozen=True):
    """What the machine does between cuts."""

    speed: Annotated[Length, Meta(extra={"write": "speed = 300"})]
    tool_change: Seconds = 0


class PlotterTable(Table, frozen=True):
    """How HP-GL files lie on the machine."""

    origin: Literal["corner", "middle"] = "corner"
    turn: Annotated[Literal[0, 90, 180, 270], Meta(extra={"must": "be 0, 90, 180 or 270"})] = 0


class BedTable(Table, frozen=True):
    """A machine's bed: the bed file of cutpaths."""

    format: Annotated[Literal[1], Meta(extra={"write": "format = 1"})]
    name: Annotated[Text, Meta(extra={"write": 'name = "Long table"'})]
    bed: Annotated[PlaceTable, Meta(extra={"write": "the table [bed] with `width = 900`"})]
    tool: Annotated[
        dict[ToolName, ToolTable],
        Meta(extra={"write": 'the table [tool.knife] with `kind = "drag-knife"`'}),
    ]
    travel: Annotated[TravelTable, Meta(extra={"write": "the table [travel] with `speed = 300`"})]
    units: Unit = Unit.INCH
    formats: list[FormatName] | None = None
    shown: Shown = Shown.STROKE
    roles: dict[RoleName, str] = field(default_factory=dict)
    plotter: PlotterTable = field(default_factory=PlotterTable)
