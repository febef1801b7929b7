"""What belongs to the corners of a backing: their templates, and the cloth trimmed away; mm."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass

from cutpaths.geometry.assembly import Face, Piece, PieceKind
from cutpaths.geometry.blanket import Blanket, Corner
from cutpaths.geometry.polygons import Ring, box, directions
from cutpaths.geometry.template import Template
from cutpaths.project.measured import Remedy
from cutpaths.project.model import Outline, Project
from cutpaths.shapes import Point, shift


@dataclass(frozen=True, slots=True)
class CornerTemplate:
    """A template and the names of the corners it serves, some of them turned over."""

    piece: Piece
    corners: tuple[str, ...]


def templates(
    project: Project,
    blanket: Blanket,
    template: Callable[[Corner, tuple[Point, Point]], Template],
) -> tuple[CornerTemplate, ...]:
    """A template for each distinct corner; mirrored corners share one."""
    alike: dict[Hashable, list[int]] = {}
    for i in range(len(blanket.corners)):
        alike.setdefault(_corner_class(project, i), []).append(i)
    ways = directions(blanket.seam)
    made = []
    for n, found in enumerate(alike.values(), 1):
        i = found[0]
        back = -ways[i - 1][0], -ways[i - 1][1]
        key = "CORNER-TEMPLATE" if len(alike) == 1 else f"CORNER-TEMPLATE-{n}"
        piece = _template_piece(key, template(blanket.corners[i], (back, ways[i])))
        made.append(CornerTemplate(piece, tuple(blanket.corners[j].at for j in found)))
    return tuple(made)


def _template_piece(key: str, template: Template) -> Piece:
    left, bottom, _, _ = box(template.outline)
    home = shift(-left, -bottom)
    return Piece(
        key=key,
        kind=PieceKind.TEMPLATE,
        fabric="",
        face=Face.EITHER,
        grain=None,
        outline=home.ring(template.outline),
        holes=tuple(home.line(hole) for hole in template.holes),
        marks=(),
        places=(shift(left, bottom),),
    )


def _corner_class(project: Project, i: int) -> Hashable:
    """Equal for corners that are the same or mirrored, from exact numbers alone.

    Each corner of a top to which the backing is cut to fit has an angle of its own.
    """
    if project.measured is not None and project.measured.remedy is Remedy.CUT_TO_FIT:
        return i
    borders = tuple(sorted((project.borders[i - 1], project.borders[i])))
    match project.top:
        case Outline(points=points):
            here, after = points[i], points[(i + 1) % len(points)]
            before = points[i - 1]
            u = after[0] - here[0], after[1] - here[1]
            v = before[0] - here[0], before[1] - here[1]
            scalar = u[0] * v[0] + u[1] * v[1]
            squares_of = (u[0] ** 2 + u[1] ** 2) * (v[0] ** 2 + v[1] ** 2)
            return borders, scalar * abs(scalar) / squares_of
        case _:
            return borders


def waste(project: Project, blanket: Blanket) -> tuple[Piece, ...]:
    """The cloth trimmed from each corner of the backing, wrong side up."""
    return tuple(
        _waste_piece(project.backing_fabric, corner.at, corner.waste)
        for corner in blanket.corners
        if corner.waste
    )


def _waste_piece(fabric: str, at: str, ring: Ring) -> Piece:
    left, bottom, _, _ = box(ring)
    return Piece(
        key=f"WASTE-{at}",
        kind=PieceKind.WASTE,
        fabric=fabric,
        face=Face.WRONG,
        grain=None,
        outline=shift(-left, -bottom).ring(ring),
        marks=(),
        places=(shift(left, bottom),),
    )
