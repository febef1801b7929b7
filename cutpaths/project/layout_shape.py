"""The shape of [top] for patchwork of more than squares, and of [block.NAME] and [patches]."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta

from cutpaths.project.kinds import Count, Length, Patch, Rectangle, Table
from cutpaths.project.patchwork import Pressing, Run

_TURNS = Meta(description="Fabrics that take turns, each row starting one further")
SizeMeant = Annotated[
    Literal["finished", "cut"],
    Meta(description="Whether sizes are finished or cut ones (default: finished)"),
]


class Cells(Table, frozen=True):
    """Columns and rows, each of its own size, and the cells that fill them.

    A list of one size stands for all columns, or for all rows.
    """

    widths: Annotated[
        list[Length],
        Meta(description="Of columns, from the left", extra={"write": "widths = [6, 1.5, 6]"}),
    ]
    heights: Annotated[
        list[Length],
        Meta(description="Of rows, from the head", extra={"write": "heights = [6, 1.5, 6]"}),
    ]
    chart: Annotated[
        list[str],
        Meta(
            description="Rows of cells seen from the front, the head row first",
            extra={"write": "chart = ['sand sea/sand']"},
        ),
    ]
    size: SizeMeant = "finished"


class GridTable(Cells, tag_field="layout", tag="grid", frozen=True):
    """A top of columns and rows, each of its own size."""


class BlockTable(Cells, frozen=True):
    """A small grid that a top of blocks names."""


class SashingTable(Table, frozen=True):
    """Strips between blocks."""

    width: Annotated[Length, Meta(description="Finished width", extra={"write": "width = 1.5"})]
    fabric: Annotated[str, Meta(description="Fabric of the strips")]
    cornerstone: Annotated[
        str | None, Meta(description="Fabric of squares where strips cross (default: none)")
    ] = None
    around: Annotated[bool, Meta(description="Whether strips run round the outside too")] = False


class BlocksTable(Table, tag_field="layout", tag="blocks", frozen=True):
    """A top of blocks, turned and mirrored as the chart says."""

    chart: Annotated[
        list[str],
        Meta(
            description="Rows of block names seen from the front, the head row first",
            extra={"write": 'chart = ["star star>"]'},
        ),
    ]
    sashing: SashingTable | None = None


class OnPointTable(Table, tag_field="layout", tag="on-point", frozen=True):
    """A top of squares on point, with setting triangles at its sides and corners."""

    patch: Annotated[Patch, Meta(extra={"write": "patch = 5"})]
    setting: Annotated[
        str,
        Meta(description="Fabric of the setting triangles", extra={"write": 'setting = "sand"'}),
    ]
    columns: Annotated[Count | None, Meta(description="Squares across in a full row")] = None
    rows: Annotated[Count | None, Meta(description="Full rows down")] = None
    fabrics: Annotated[
        list[str] | None, Meta(description="Fabrics that take turns, row by row")
    ] = None
    chart: Annotated[
        list[str] | None,
        Meta(
            description="Full rows and the rows between them in turn, which have one name less; "
            "fabric names seen from the front, the head row first"
        ),
    ] = None


class StripsTable(Table, tag_field="layout", tag="strips", frozen=True):
    """A top of strips."""

    widths: Annotated[
        list[Length],
        Meta(
            description="Of strips, from the left or from the head",
            extra={"write": "widths = [3, 2, 3]"},
        ),
    ]
    length: Annotated[Length, Meta(description="Of all strips", extra={"write": "length = 40"})]
    fabrics: Annotated[list[str] | None, Meta(description="Fabrics that take turns")] = None
    run: Annotated[Run, Meta(description="Which way strips run (default: down)")] = Run.DOWN
    size: SizeMeant = "finished"


class BricksTable(Table, tag_field="layout", tag="bricks", frozen=True):
    """A top of bricks, every second row shifted by half a brick."""

    cut: Annotated[Rectangle | None, Meta(description="Size of a brick as cut")] = None
    finished: Annotated[Rectangle | None, Meta(description="Its size between seams")] = None
    columns: Annotated[Count | None, Meta(description="Whole bricks across")] = None
    rows: Annotated[Count | None, Meta(description="Rows down")] = None
    fabrics: Annotated[list[str] | None, _TURNS] = None
    chart: Annotated[
        list[str] | None,
        Meta(
            description="Whole rows and shifted rows in turn, which have one name more; "
            "fabric names seen from the front, the head row first"
        ),
    ] = None


class PatchesTable(Table, frozen=True):
    """How the patches of a pieced top are cut and sewn."""

    pressing: Annotated[
        Pressing, Meta(description="How seam allowances are pressed (default: open)")
    ] = Pressing.OPEN
    tips: Annotated[
        Literal["sharp", "blunted"],
        Meta(description="Whether the tips of triangles are cut off (default: sharp)"),
    ] = "sharp"
    pairs: Annotated[
        bool, Meta(description="Whether pairs of triangles are sewn before they are cut")
    ] = False
