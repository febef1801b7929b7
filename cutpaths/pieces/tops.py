"""Tops as they are designed: their patches, and the seam polygon of a top of one cloth; mm."""

from __future__ import annotations

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.blocks import blocks
from cutpaths.geometry.layouts.bricks import bricks
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.on_point import on_point
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.layouts.squares import squares
from cutpaths.geometry.layouts.strips import strips
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import Ring, offset
from cutpaths.project.model import Outline, Panel, Project, Regular
from cutpaths.project.patchwork import Blocks, Bricks, Grid, OnPoint, Patchwork, Squares, Strips


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
            return squares(finished, chart, rules)
        case Grid(columns=columns, rows=rows, cells=cells):
            return grid(columns, rows, cells, rules)
        case Blocks(declared=declared, chart=sets, sashing=sashing):
            return blocks(declared, sets, sashing, rules)
        case OnPoint(finished=finished, chart=chart, setting=setting):
            return on_point(finished, chart, setting, rules)
        case Strips(widths=widths, fabrics=fabrics, length=length, run=run):
            return strips(widths, fabrics, length, run, rules)
        case Bricks(width=width, height=height, chart=chart):
            return bricks(width, height, chart, rules)


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
