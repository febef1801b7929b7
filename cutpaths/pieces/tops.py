"""Tops as they are designed: their patches, and the seam polygon of a top of one cloth; mm."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import Ring, offset
from cutpaths.later import Later
from cutpaths.project.model import Outline, Panel, Project, Regular
from cutpaths.project.patchwork import Blocks, Bricks, Grid, OnPoint, Patchwork, Squares, Strips

if TYPE_CHECKING:
    from cutpaths.geometry.layouts import blocks, bricks, grid, on_point, squares, strips
else:  # a project has one of them
    blocks = Later("cutpaths.geometry.layouts.blocks")
    bricks = Later("cutpaths.geometry.layouts.bricks")
    grid = Later("cutpaths.geometry.layouts.grid")
    on_point = Later("cutpaths.geometry.layouts.on_point")
    squares = Later("cutpaths.geometry.layouts.squares")
    strips = Later("cutpaths.geometry.layouts.strips")


def patchwork_of(project: Project) -> Assembly | None:
    """The patches of a pieced top; None for a top of one cloth."""
    if not isinstance(project.top, Patchwork):
        return None
    rules = PatchRules(
        allowance=project.allowance,
        directional={fabric.name: fabric.directional for fabric in project.fabrics},
        pressing=project.pressing,
        blunted=project.blunted,
    )
    match project.top:
        case Squares(finished=finished, chart=chart):
            return squares.squares(finished, chart, rules)
        case Grid(columns=columns, rows=rows, cells=cells):
            return grid.grid(columns, rows, cells, rules)
        case Blocks(declared=declared, chart=sets, sashing=sashing):
            return blocks.blocks(declared, sets, sashing, rules)
        case OnPoint(finished=finished, chart=chart, setting=setting):
            return on_point.on_point(finished, chart, setting, rules)
        case Strips(widths=widths, fabrics=fabrics, length=length, run=run):
            return strips.strips(widths, fabrics, length, run, rules)
        case Bricks(width=width, height=height, chart=chart):
            return bricks.bricks(width, height, chart, rules)


def seam_of_one_cloth(project: Project) -> Ring:
    """The seam polygon of a top of one cloth."""
    match project.top:
        case Outline(points=points, outset=outset):
            ring = tuple((float(x), float(y)) for x, y in points)
            return offset(ring, [-float(outset)] * len(ring)) if outset else ring
        case Regular(sides=sides, side=side):
            return regular(sides, float(side))
        case Panel(width=width, height=height):
            return rectangle(float(width), float(height))
        case _:
            raise TypeError("a pieced top's outline is that of its patchwork")
