"""The shape of a rig file: its tables, keys and types. Rules between keys live in `rig_rules`."""

from typing import Annotated, Literal

from msgspec import Meta, field

from cutpaths.lengths import Unit
from cutpaths.project.kinds import Amount, Coordinate, Length, Table, Text

PIXELS_LEAST = 320
PIXELS_MOST = 16_384

Pixels = Annotated[
    int,
    Meta(
        ge=PIXELS_LEAST,
        le=PIXELS_MOST,
        extra={"must": f"be a whole number of pixels from {PIXELS_LEAST} to {PIXELS_MOST}"},
    ),
]
Rows = Annotated[int, Meta(ge=3, le=9, extra={"must": "be a whole number from 3 to 9"})]
Inset = Annotated[int, Meta(ge=1, extra={"must": "be a whole number of pixels, 1 at least"})]
PairName = Annotated[
    str,
    Meta(
        pattern="^[1-9][0-9]?-[1-9][0-9]?$",
        extra={"must": 'be named by two crosses, such as "1-4"'},
    ),
]
CrossName = Annotated[
    str, Meta(pattern="^[1-9][0-9]?$", extra={"must": 'be named by a cross, such as "4"'})
]


class PictureTable(Table, frozen=True):
    """The picture and the crosses of its target, in pixels."""

    width: Annotated[Pixels, Meta(extra={"write": "width = 1920"})]
    height: Annotated[Pixels, Meta(extra={"write": "height = 1080"})]
    columns: Rows = 4
    rows: Rows = 3
    inset: Inset | None = None


class TapeTable(Table, frozen=True):
    """How well the tape is read."""

    within: Length | None = None


class ClothTable(Table, frozen=True):
    """How cloth lies in the picture."""

    thickness: Amount | None = None
    margin: Amount | None = None


class LensTable(Table, frozen=True):
    """Where the lens is."""

    height: Annotated[Length, Meta(extra={"write": "height = 1800"})]
    distances: dict[CrossName, Annotated[Length, Meta()]] = field(default_factory=dict)


class RigTable(Table, frozen=True):
    """A projector above a table: the rig file of cutpaths."""

    format: Annotated[Literal[1], Meta(extra={"write": "format = 1"})]
    name: Annotated[Text, Meta(extra={"write": 'name = "Sewing room"'})]
    picture: Annotated[
        PictureTable, Meta(extra={"write": "the table [picture] with `width = 1920`"})
    ]
    units: Unit = Unit.INCH
    tape: TapeTable = field(default_factory=TapeTable)
    cloth: ClothTable = field(default_factory=ClothTable)
    lens: LensTable | None = None
    distances: dict[PairName, Annotated[Length, Meta()]] = field(default_factory=dict)
    positions: dict[CrossName, tuple[Coordinate, Coordinate]] = field(default_factory=dict)
