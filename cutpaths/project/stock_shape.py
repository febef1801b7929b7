"""The shape of what a project file says of buying and joining cloth."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta

from cutpaths.project.kinds import Amount, Count, FabricName, Length, Number, Rectangle, Table
from cutpaths.project.stock import Run, Sold, Washed

Price = Annotated[
    Number, Meta(extra={"must": "be a number such as 12.50"}, extra_json_schema={"minimum": 0})
]
Percent = Annotated[
    Number,
    Meta(
        extra={"must": "be a number of percent such as 7.4", "below": "100"},
        extra_json_schema={"minimum": 0, "exclusiveMaximum": 100},
    ),
]


class ShrinkageTable(Table, frozen=True):
    """What the first wash takes, in percent of the cloth as bought."""

    length: Annotated[
        Percent, Meta(description="Along the selvage, percent", extra={"write": "length = 7.4"})
    ]
    width: Annotated[
        Percent, Meta(description="Selvage to selvage, percent", extra={"write": "width = 2.8"})
    ]


class OnHandTable(Table, frozen=True):
    """Cloth that is there already, as it lies: washed where the fabric is washed before cutting."""

    length: Annotated[
        Length | None, Meta(description="Along the selvage; without it a whole quarter or pack")
    ] = None
    width: Annotated[
        Length | None, Meta(description="Usable width (default: that of the fabric)")
    ] = None
    count: Annotated[Count, Meta(description="How many alike")] = 1


class StockTable(Table, frozen=True):
    """How a cloth is sold, and what is lost of it before pieces are cut."""

    width: Annotated[
        Length | None,
        Meta(description="Usable width, after washing (default: 40 in, metric files 100 cm)"),
    ] = None
    sold: Annotated[Sold, Meta(description="By the length, in fat quarters or in packs")] = (
        Sold.LENGTH
    )
    step: Annotated[
        Length | None,
        Meta(description="Step in which a length is sold (default: 1/8 yd, metric files 0.1 m)"),
    ] = None
    piece: Annotated[
        Rectangle | None,
        Meta(
            description="Fat quarter or pack piece (default: quarter 21 x 18 in, 50 x 50 cm)",
        ),
    ] = None
    count: Annotated[Count | None, Meta(description="Pieces in a pack")] = None
    prints: Annotated[Count | None, Meta(description="Different prints in a pack (default: 1)")] = (
        None
    )
    price: Annotated[
        Price | None, Meta(description="Of a yard or a metre, of one quarter or of one pack")
    ] = None
    shrinkage: ShrinkageTable | None = None
    washed: Annotated[
        Washed | None,
        Meta(description="Washed first when cutting or sewing is done (default: after, see below)"),
    ] = None
    square_up: Annotated[
        Amount | None,
        Meta(description="Cut off each end of a length (default: 1 in, metric files 25 mm)"),
    ] = None
    strip_ends: Annotated[
        Amount | None,
        Meta(description="Cut off each end of a strip (default: 1/2 in, metric files 12 mm)"),
    ] = None
    grain: Annotated[
        dict[FabricName, Run] | None,
        Meta(
            description="For top, backing, filling, panels, patches: the way of lengthwise threads"
        ),
    ] = None
    flannel: Annotated[bool, Meta(description="Whether it is flannel: at most 4 plies")] = False
    plies: Annotated[
        Count | None, Meta(description="Layers cut at once (default: flannel 4, other cloth 6)")
    ] = None
    bolt: Annotated[
        Length | None,
        Meta(description="Length of a bolt (default: 15 yd, metric files 15 m)"),
    ] = None
    bolts: Annotated[Count | None, Meta(description="How many bolts can be had")] = None
    on_hand: Annotated[
        list[OnHandTable] | None, Meta(description="Lengths, remnants, quarters and packs")
    ] = None


class JoinTable(Table, frozen=True):
    """Joins a backing of panels, because it is wider than its cloth."""

    seams: Annotated[
        Literal[1, 2], Meta(description="How many joining seams", extra={"write": "seams = 1"})
    ]
    run: Annotated[
        Literal["down", "across"],
        Meta(
            description="Whether they run from head to foot or from left to right",
            extra={"write": 'run = "down"'},
        ),
    ]
    at: Annotated[
        list[Length] | None,
        Meta(description="Seam lines, from the left or the foot of the backing (default: chosen)"),
    ] = None
    allowance: Annotated[
        Length | None,
        Meta(description="Joining seam allowance (default: 1/2 in, metric files 12 mm)"),
    ] = None
