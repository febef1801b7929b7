"""From the exact sizes of a project to the float millimetres that geometry works on."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.blanket import Layers
from cutpaths.geometry.edge_seams import edge_seams
from cutpaths.geometry.layouts.blocks import blocks
from cutpaths.geometry.layouts.bricks import bricks
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.on_point import on_point
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.layouts.squares import squares
from cutpaths.geometry.layouts.strips import strips
from cutpaths.geometry.marks import letter
from cutpaths.geometry.opening import PlacedOpening, longest, place
from cutpaths.geometry.outlines import rectangle, regular
from cutpaths.geometry.polygons import SAME_PLACE_MM, Ring, distance, edges, offset
from cutpaths.lengths import INCH, Ruler
from cutpaths.pieces.sewn import (
    keeps_patch_seams,
    order_of_sewing,
    right_within,
    seam_as_sewn,
)
from cutpaths.project.model import BackingCorners, Opening, Outline, Panel, Project, Regular
from cutpaths.project.patchwork import (
    Blocks,
    Bricks,
    Grid,
    OnPoint,
    Patchwork,
    Squares,
    Strips,
)

USUAL_OPENING = 8 * INCH


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


def layers_of(project: Project, patchwork: Assembly | None) -> Layers:
    """What the construction is laid out from.

    Raises:
        InputError: the opening asked for does not fit; says the longest that would.
    """
    designed = _seam_of_one_cloth(project) if patchwork is None else patchwork.outline
    seam = seam_as_sewn(project, designed)
    lengths = [distance(p, q) for p, q in edges(seam)]
    ticked = patchwork is not None and keeps_patch_seams(project)
    parts = edge_seams(designed, patchwork.all_seams() if patchwork and ticked else ())
    # On a measured top the patch seams keep their share of each side.
    seams = tuple(
        tuple(part * length for part in on_side)
        for on_side, length in zip(parts, lengths, strict=True)
    )
    borders = project.borders
    return Layers(
        seam=seam,
        allowance=float(project.allowance),
        borders=tuple(float(border + project.turn_of_cloth / 2) for border in borders),
        equal_corners=tuple(borders[i - 1] == borders[i] for i in range(len(borders))),
        trim=float(project.trim),
        basting=float(project.basting),
        edge_seams=seams,
        opening=_opening(project, seam, lengths, seams),
        corners_trimmed=project.corners is BackingCorners.TRIMMED,
        right_within=right_within(project),
    )


def _seam_of_one_cloth(project: Project) -> Ring:
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


def _opening(
    project: Project,
    seam: Ring,
    lengths: list[float],
    seams: tuple[tuple[float, ...], ...],
) -> PlacedOpening | None:
    """The turning opening, on the side asked for or the second sewn.

    Raises:
        InputError: the opening asked for does not fit; says the longest that would.
    """
    asked = project.opening
    if asked is None:
        return None
    side = order_of_sewing(project, seam)[1] if asked.side is None else asked.side
    wish = {
        "length": None if asked.length is None else float(asked.length),
        "start": None if asked.start is None else float(asked.start),
    }
    found = place(side, lengths[side], seams[side], **wish)
    if found is None:
        raise InputError(_opening_finding(project, asked, side, lengths[side]))
    return found


def _opening_finding(project: Project, asked: Opening, side: int, length: float) -> Finding:
    """Says what fits instead of the opening asked for."""
    key, value = ("opening.start", asked.start) if asked.start else ("opening.length", asked.length)
    got = "" if value is None else f", got {project.ruler.text(value)}"
    problem = f"must leave 2 in sewn at each dot of side {letter(side)}{got}"
    most = longest(length)
    hint = "Choose a longer side"
    if most > 0:
        hint = f"The longest opening there is {_about(project.ruler, most)}"
    return Finding(key=key, problem=problem, hint=hint)


def _about(ruler: Ruler, mm: float) -> str:
    """A computed length, down to the ruler's step."""
    return ruler.text((Fraction(mm) / ruler.step + Fraction(1, 10**6)).__floor__() * ruler.step)


def opening_notes(project: Project, opening: PlacedOpening | None) -> tuple[str, ...]:
    """What to say of an opening that is not what a person would expect."""
    if opening is None or project.opening is None:
        return ()
    notes = []
    side = letter(opening.side)
    if project.opening.length is None and opening.length < USUAL_OPENING - SAME_PLACE_MM:
        size = _about(project.ruler, opening.length)
        notes.append(f"Side {side} has no room for the usual 8 in opening: it is {size} long.")
    if not opening.clear_of_seams:
        notes.append(f"An end of the opening on side {side} is less than 1/2 in from a patch seam.")
    return tuple(notes)
