"""Kinds of values in a project file, and the tables that several layouts share."""

from fractions import Fraction
from typing import Annotated, ClassVar

from msgspec import Meta, Struct

PATCHES_MOST = 250_000

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


class Number(Fraction):
    """A plain number, of no unit, exact; told from a length by its type."""


class Day(str):
    """A date as TOML writes it, or text that stands for one; told from other text by its type."""

    __slots__ = ()


Coordinate = Annotated[Fraction, Meta(extra={"least": "none"})]
Count = Annotated[
    int,
    Meta(
        ge=1,
        le=PATCHES_MOST,
        extra={"must": f"be a whole number from 1 to {PATCHES_MOST:,}"},
    ),
]
TEXT_MOST = 120  # letters
Text = Annotated[
    str,
    Meta(
        max_length=TEXT_MOST,
        min_length=1,
        extra={"must": f"be text of 1 to {TEXT_MOST} letters"},
    ),
]
NAME_PATTERN = "^[a-z][a-z0-9_-]{0,39}$"  # of all that a person names; capitals are for sides
FabricName = Annotated[
    str,
    Meta(
        pattern=NAME_PATTERN,
        extra={"must": "be named in lower-case letters, such as `sand`; capitals are for sides"},
    ),
]
BlockName = Annotated[
    str,
    Meta(
        pattern=NAME_PATTERN,
        extra={"must": "be named in lower-case letters, such as `star`; capitals are for sides"},
    ),
]
SideLetter = Annotated[
    str, Meta(pattern="^[A-Z]$", extra={"must": "be the letter of a side, such as A"})
]


class Table(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """A table of the file; `short` names the keys that a bare length stands for."""

    short: ClassVar[tuple[str, ...]] = ()


class Patch(Table, frozen=True):
    """Size of a square patch, cut or finished; a bare length is the cut size."""

    short: ClassVar[tuple[str, ...]] = ("cut",)

    cut: Annotated[Length | None, Meta(description="Raw edge to raw edge")] = None
    finished: Annotated[Length | None, Meta(description="Seam line to seam line")] = None


class Rectangle(Table, frozen=True):
    """Width and height."""

    width: Annotated[Length, Meta(extra={"write": "width = 30"})]
    height: Annotated[Length, Meta(extra={"write": "height = 36"})]
