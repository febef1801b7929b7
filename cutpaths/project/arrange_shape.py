"""The shape of [arrange]: prints with their squares, and the rules for laying them out."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta, field

from cutpaths.project.kinds import Count, FabricName, Length, Table

CellName = Annotated[
    str,
    Meta(
        pattern="^r[1-9][0-9]{0,5}c[1-9][0-9]{0,5}$",
        extra={"must": "be the name of a cell, such as `r1c12`: row 1 from the head, column 12"},
    ),
]


class PackTable(Table, frozen=True):
    """A precut pack: squares of one size in several prints."""

    size: Annotated[Length, Meta(description="Side of its squares", extra={"write": "size = 5"})]
    count: Annotated[Count | None, Meta(description="How many squares are in it")] = None
    prints: Annotated[
        list[str] | None, Meta(description="Its prints, where it has as many squares of each")
    ] = None
    counts: Annotated[
        dict[FabricName, Count] | None,
        Meta(description="Its prints with their squares, where they differ"),
    ] = None
    bought: Annotated[Count, Meta(description="How many such packs there are (default: 1)")] = 1


class ArrangeTable(Table, frozen=True):
    """Prints to lay out in a top of squares, and the rules for it, for `cutpaths arrange`."""

    prints: Annotated[
        dict[FabricName, Count], Meta(description="How many squares of each print there are")
    ] = field(default_factory=dict)
    pack: Annotated[list[PackTable], Meta(description="Precut packs of prints")] = field(
        default_factory=list
    )
    corners: Annotated[
        bool, Meta(description="Whether none alike may meet corner to corner (default: false)")
    ] = False
    apart: Annotated[
        bool, Meta(description="Whether prints alike are moved far apart (default: true)")
    ] = True
    balance: Annotated[
        dict[FabricName, list[str]],
        Meta(description="Groups of prints, such as light and dark, spread evenly over the rows"),
    ] = field(default_factory=dict)
    pinned: Annotated[
        dict[CellName, str],
        Meta(description="Prints of cells that are settled: r1c1 is at the head and the left"),
    ] = field(default_factory=dict)
