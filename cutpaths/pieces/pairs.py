"""The squares of a project whose triangles are sewn in pairs before they are cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cutpaths.geometry.assembly import Assembly, Piece
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.later import Later
from cutpaths.project.model import Project

if TYPE_CHECKING:
    from cutpaths.geometry.layouts import pairs as pairing
    from cutpaths.geometry.layouts.pairs import SewnPair
else:
    pairing = Later("cutpaths.geometry.layouts.pairs")


def sewn_pairs(project: Project, patchwork: Assembly) -> tuple[SewnPair, ...]:
    """Pairs of squares with their marks, `PAIR-1` and on; none where triangles are cut singly."""
    if not project.pairs:
        return ()
    directional = {fabric.name: fabric.directional for fabric in project.fabrics}
    return tuple(
        pairing.sewn_pair(
            f"PAIR-{number}", pairs, project.allowance, project.ruler.step, directional
        )
        for number, pairs in enumerate(patchwork.pairs, 1)
    )


def cut_singly(patchwork: Assembly, pairs: tuple[SewnPair, ...]) -> tuple[Piece, ...]:
    """The patches that do not come from pairs: all but halves of squares, where there are pairs."""
    return tuple(piece for piece in patchwork.pieces() if not (pairs and _half_square(piece)))


def _half_square(piece: Piece) -> bool:
    return piece.shape is not None and piece.shape.square and piece.shape.kind is PatchKind.HALF
