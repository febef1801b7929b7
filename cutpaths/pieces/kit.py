"""From a project to its pieces with all their marks.

Pieces lie as they are marked or cut: patches right side up, top and backing wrong side up. Their
places carry them to the front view: the backing by a shift, the top by a mirror and a shift.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from cutpaths.errors import Finding, InputError
from cutpaths.geometry import turned
from cutpaths.geometry.assembly import Assembly, Face, Grain, Piece, PieceKind
from cutpaths.geometry.blanket import Blanket
from cutpaths.geometry.grain_line import grain_line
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.opening import PlacedOpening
from cutpaths.geometry.polygons import box, keeps_directions, offset
from cutpaths.geometry.template import folded_template, turned_template
from cutpaths.later import Later
from cutpaths.pieces.corners import CornerTemplate, templates, waste
from cutpaths.pieces.layers import layers_of
from cutpaths.pieces.opening import opening_notes
from cutpaths.pieces.pairs import cut_singly, sewn_pairs
from cutpaths.pieces.sewn import order_of_sewing, sewn_notes, with_trimmed_size
from cutpaths.pieces.tops import patchwork_of
from cutpaths.project.model import Construction, Patchwork, Project
from cutpaths.shapes import Motion, shift
from cutpaths.values import Value, replace

if TYPE_CHECKING:
    from cutpaths.geometry import folded
    from cutpaths.geometry.layouts.pairs import SewnPair
    from cutpaths.pieces import panels
else:
    folded = Later("cutpaths.geometry.folded")
    panels = Later("cutpaths.pieces.panels")

FILLING = "FILLING"

# The one place that asks for the construction: how it is laid out, and its corner template.
_CONSTRUCTIONS = {
    Construction.TURNED: (turned.lay_out, turned_template),
    Construction.FOLDED_OVER: (lambda layers: folded.lay_out(layers), folded_template),
}


class Kit(Value, kw_only=True):
    """All the pieces of one blanket.

    Attributes:
        project: what they were made from.
        blanket: top and backing laid out in the front view.
        opening: the turning opening; None when folded over.
        order: sides in sewing order, by index.
        top: the top as sewn, wrong side up.
        patchwork: the top as its parts; the top itself when it is one cloth.
        backing: the backing, wrong side up.
        templates: a corner template for each distinct corner.
        waste: what is trimmed from each corner.
        notes: what a person should know, the project's notes first.
        pairs: squares whose triangles are sewn before they are cut.
        panels: the backing as the panels it is joined of; None where it is one cloth.
        filling: what is laid between the layers; None where nothing is.
    """

    project: Project
    blanket: Blanket
    opening: PlacedOpening | None
    order: tuple[int, ...]
    top: Piece
    patchwork: Assembly
    backing: Piece
    templates: tuple[CornerTemplate, ...]
    waste: tuple[Piece, ...]
    notes: tuple[str, ...]
    pairs: tuple[SewnPair, ...] = ()
    panels: Assembly | None = None
    filling: Piece | None = None

    @property
    def cloth(self) -> tuple[Piece, ...]:
        """The pieces to cut from cloth; what is sewn before cutting as the squares it is cut to."""
        squares = (square for pair in self.pairs for square in (pair.marked, pair.plain))
        backing = (self.backing,) if self.panels is None else self.panels.pieces()
        filling = () if self.filling is None else (self.filling,)
        return (*cut_singly(self.patchwork, self.pairs), *squares, *backing, *filling)

    @property
    def pieced(self) -> bool:
        """Whether the top is sewn of several patches."""
        return self.patchwork.parts != (self.top,)


def build(project: Project) -> Kit:
    """Makes every piece of a project.

    Raises:
        InputError: the sizes cannot be made; one finding for each reason, with its key.
    """
    project = with_trimmed_size(project)
    lay_out, template = _CONSTRUCTIONS[project.construction]
    patchwork = patchwork_of(project)
    layers = layers_of(project, patchwork)
    blanket = lay_out(layers)
    top = _top(project, blanket, pieced=patchwork is not None)
    backing = _backing(project, blanket)
    if patchwork is None:
        patchwork = Assembly(outline=blanket.seam, parts=(top,), seams=())
    return Kit(
        project=project,
        blanket=blanket,
        opening=layers.opening,
        order=order_of_sewing(project, blanket.seam),
        top=top,
        patchwork=patchwork,
        backing=backing,
        panels=panels.panels_of(project, blanket, backing) if project.join else None,
        filling=_filling(project, blanket),
        templates=templates(project, blanket, template),
        waste=waste(project, blanket),
        pairs=sewn_pairs(project, patchwork),
        notes=(
            *project.notes,
            *sewn_notes(project, blanket.seam),
            *opening_notes(project, layers.opening),
        ),
    )


def _top(project: Project, blanket: Blanket, *, pieced: bool) -> Piece:
    """The top as sewn, wrong side up: the mirror image of the front view."""
    _, bottom, right, _ = box(blanket.top)
    to_front = Motion.quarters(0, right, bottom, mirrored=True)
    fabric = "" if pieced else _fabric_of(project)
    piece = Piece(
        key=turned.TOP,
        kind=PieceKind.TOP,
        fabric=fabric,
        face=Face.WRONG,
        grain=None if pieced else _grain(project, fabric),
        outline=to_front.inverse().ring(blanket.top),
        marks=tuple(mark.moved(to_front.inverse()) for mark in blanket.top_marks),
        places=(to_front,),
    )
    return _with_grain_line(piece)


def _backing(project: Project, blanket: Blanket) -> Piece:
    """The backing, wrong side up: as in the front view."""
    left, bottom, _, _ = box(blanket.backing)
    piece = Piece(
        key=turned.BACKING,
        kind=PieceKind.BACKING,
        fabric=project.backing_fabric,
        face=Face.WRONG,
        grain=_grain(project, project.backing_fabric),
        outline=shift(-left, -bottom).ring(blanket.backing),
        marks=tuple(mark.moved(shift(-left, -bottom)) for mark in blanket.backing_marks),
        places=(shift(left, bottom),),
    )
    return _with_grain_line(piece)


def _filling(project: Project, blanket: Blanket) -> Piece | None:
    """The filling, as it lies in the blanket; it has no marks, and either face may be up.

    Raises:
        InputError: a side of it would be lost.
    """
    if project.filling is None:
        return None
    # The fold eats half the turn of cloth, so the blanket ends that much inside the crease.
    inward = float(project.filling.less + project.turn_of_cloth / 2)
    ring = offset(blanket.finished, [-inward] * len(blanket.finished))
    if not all(keeps_directions(ring, blanket.finished)):
        problem = f"must leave every side a length, got {project.ruler.text(project.filling.less)}"
        raise InputError(Finding(key="filling.less", problem=problem))
    left, bottom, _, _ = box(ring)
    return Piece(
        key=FILLING,
        kind=PieceKind.FILLING,
        fabric=project.filling.fabric,
        face=Face.EITHER,
        grain=None,
        outline=shift(-left, -bottom).ring(ring),
        marks=(),
        places=(shift(left, bottom),),
    )


def _fabric_of(project: Project) -> str:
    """The fabric of a top of one cloth."""
    return "" if isinstance(project.top, Patchwork) else project.top.fabric


def _grain(project: Project, fabric: str) -> Grain:
    """Threads run from foot to head; the cloth has an up where its fabric is directional."""
    headed = any(f.directional for f in project.fabrics if f.name == fabric)
    return Grain((0.0, 1.0), headed)


def _with_grain_line(piece: Piece) -> Piece:
    """Adds the grain line, in the middle of the piece."""
    if piece.grain is None:
        return piece
    line = grain_line(piece.outline, piece.grain.way)
    return replace(piece, marks=(*piece.marks, Mark(MarkKind.GRAIN, "", line)))
