"""What belongs to the corners of a backing: their templates, and the cloth trimmed away; mm."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from fractions import Fraction

from cutpaths.geometry.assembly import Face, Piece, PieceKind
from cutpaths.geometry.blanket import Blanket, Corner
from cutpaths.geometry.marks import corner_name
from cutpaths.geometry.polygons import Ring, box, directions
from cutpaths.geometry.template import Template
from cutpaths.project.measured import Remedy
from cutpaths.project.model import Outline, Project
from cutpaths.shapes import Point, shift
from cutpaths.values import Value


class CardEdge(Value):
    """An edge of a template that lies on raw edges of the backing.

    Attributes:
        start, end: its ends, in the template's frame.
        sides: letters of the sides whose ends it lies on, in the order of the alphabet.
    """

    start: Point
    end: Point
    sides: tuple[str, ...]


class CornerTemplate(Value):
    """A template and the corners it serves.

    Attributes:
        piece: the card.
        corners: names of the corners.
        turned_over: those of them for which it must lie the other face up. None where the borders
            are equal, for then either face will do.
        raw_edges: its two edges that tell one way of laying it from the other; none where the
            borders are equal.
    """

    piece: Piece
    corners: tuple[str, ...]
    turned_over: tuple[str, ...] = ()
    raw_edges: tuple[CardEdge, ...] = ()

    @property
    def face_up(self) -> tuple[str, ...]:
        """The corners for which it lies as it is drawn."""
        return tuple(at for at in self.corners if at not in self.turned_over)


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
        card = template(blanket.corners[i], (back, ways[i]))
        made.append(_corner_template(key, card, project, found))
    return tuple(made)


def _corner_template(
    key: str, card: Template, project: Project, found: list[int]
) -> CornerTemplate:
    """A card made for the first of some corners, and how it lies on each of them."""
    piece = _template_piece(key, card)
    sides = len(project.borders)
    corners = tuple(corner_name(i, sides) for i in found)
    first = _borders_at(project, found[0])
    if first[0] == first[1]:
        return CornerTemplate(piece, corners)
    turned = [_borders_at(project, i) != first for i in found]
    home = piece.places[0].inverse()
    # A name is the side before and the side after; turned over, the card swaps its edges.
    names = [at[::-1] if over else at for at, over in zip(corners, turned, strict=True)]
    return CornerTemplate(
        piece,
        corners,
        tuple(at for at, over in zip(corners, turned, strict=True) if over),
        tuple(
            CardEdge(home.point(start), home.point(end), tuple(sorted({n[e] for n in names})))
            for e, (start, end) in enumerate(card.raw_edges)
        ),
    )


def _borders_at(project: Project, i: int) -> tuple[Fraction, Fraction]:
    """The borders of the side before a corner and of the side after it."""
    return project.borders[i - 1], project.borders[i]


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
    borders = tuple(sorted(_borders_at(project, i)))
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
