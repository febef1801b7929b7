"""Triangle pairs sewn before they are cut; mm.

Two squares lie right sides together. A seam runs on either side of one diagonal, one allowance
from it; cut on the diagonal they give two units, each trimmed to its finished size and both
allowances. No bias edge is handled. The squares are those that the triangles would be cut from,
rounded up to the ruler's step; common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from cutpaths.geometry.assembly import Face, Grain, Piece, PieceKind, TrianglePairs
from cutpaths.geometry.layouts.triangles import rounded_up
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.lengths import Ruler
from cutpaths.project.roots import ROOT2

UNITS_OF_TWO_SQUARES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class SewnPair:
    """Squares of two fabrics from which units of two triangles are sewn.

    Attributes:
        fabrics: both; the first one's square is marked, on its wrong side.
        exact: side of the squares that leaves nothing to trim.
        cut: side to cut.
        trim_to: side to which a unit is trimmed.
        units: how many units are needed.
        square: the marked square, wrong side up; it has no places.
    """

    fabrics: tuple[str, str]
    exact: Fraction
    cut: Fraction
    trim_to: Fraction
    units: int
    square: Piece

    @property
    def squares(self) -> int:
        """How many squares to cut of each fabric; twice as many where both are one."""
        return -(-self.units // UNITS_OF_TWO_SQUARES)

    def words(self, ruler: Ruler) -> str:
        """What to do, in a line."""
        one_cloth = self.fabrics[0] == self.fabrics[1]
        squares = f"{2 * self.squares} squares" if one_cloth else f"{self.squares} of each, squares"
        return (
            f"{squares} of {ruler.text(self.cut)}, sewn in pairs on both sides of a "
            f"diagonal, cut on it, trimmed to {ruler.text(self.trim_to)}"
        )


def sewn_pair(key: str, pairs: TrianglePairs, allowance: Fraction, step: Fraction) -> SewnPair:
    """The squares for some pairs of triangles."""
    exact = pairs.finished + allowance * (2 + ROOT2)
    cut = rounded_up(exact, step)
    return SewnPair(
        fabrics=pairs.fabrics,
        exact=exact,
        cut=cut,
        trim_to=pairs.finished + 2 * allowance,
        units=pairs.count,
        square=_marked(key, pairs.fabrics[0], cut, allowance),
    )


def _marked(key: str, fabric: str, side: Fraction, allowance: Fraction) -> Piece:
    edge, off = float(side), float(allowance * ROOT2)
    inner = float(side - allowance * ROOT2)
    return Piece(
        key=key,
        kind=PieceKind.PATCH,
        fabric=fabric,
        face=Face.WRONG,
        grain=Grain((0.0, 1.0), headed=False),
        outline=rectangle(edge, edge),
        marks=(
            Mark(MarkKind.CUT_APART, "", ((0.0, 0.0), (edge, edge))),
            Mark(MarkKind.STITCH, "", ((0.0, off), (inner, edge))),
            Mark(MarkKind.STITCH, "", ((off, 0.0), (edge, inner))),
        ),
        places=(),
        shape=PatchShape(PatchKind.RECTANGLE, side - 2 * allowance, side - 2 * allowance),
    )
