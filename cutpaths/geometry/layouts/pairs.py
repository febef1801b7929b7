"""Triangle pairs sewn before they are cut; mm.

Two squares lie right sides together. A seam runs on either side of one diagonal, one allowance
from it; cut on the diagonal they give two units, each trimmed to its finished size and both
allowances. No bias edge is handled. The squares are those that the triangles would be cut from,
rounded up to the ruler's step; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from cutpaths.geometry.assembly import Face, Grain, Piece, PieceKind, TrianglePairs
from cutpaths.geometry.layouts.triangles import rounded_up
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.lengths import Ruler
from cutpaths.project.roots import ROOT2
from cutpaths.shapes import Motion
from cutpaths.values import Value, replace

UNITS_OF_TWO_SQUARES = 2


class SewnPair(Value, kw_only=True):
    """Squares of two fabrics from which units of two triangles are sewn.

    Attributes:
        exact: side of the squares that leaves nothing to trim.
        cut: side to cut.
        trim_to: side to which a unit is trimmed.
        units: how many units are needed.
        marked: the upper square, wrong side up, with the diagonal and both seams.
        plain: the square under it.
    """

    exact: Fraction
    cut: Fraction
    trim_to: Fraction
    units: int
    marked: Piece
    plain: Piece

    def words(self, ruler: Ruler) -> str:
        """What to do, in a line."""
        return (
            f"{self.marked.count} of each, squares of {ruler.text(self.cut)}, sewn in pairs on "
            f"both sides of a diagonal, cut on it, trimmed to {ruler.text(self.trim_to)}"
        )


def sewn_pair(
    key: str,
    pairs: TrianglePairs,
    allowance: Fraction,
    step: Fraction,
    directional: Mapping[str, bool],
) -> SewnPair:
    """The squares for some pairs of triangles.

    Args:
        key: name of the pair; its squares are `key` and `key-UNDER`.
        pairs: what is to be sewn.
        allowance: seam allowance.
        step: the ruler's step.
        directional: for each fabric whether it has an up.
    """
    exact = pairs.finished + allowance * (2 + ROOT2)
    cut = rounded_up(exact, step)
    count = -(-pairs.count // UNITS_OF_TWO_SQUARES)
    upper, under = pairs.fabrics
    plain = Piece(
        key=f"{key}-UNDER",
        kind=PieceKind.PATCH,
        fabric=under,
        face=Face.RIGHT,
        grain=Grain((0.0, 1.0), directional[under]),
        outline=rectangle(float(cut), float(cut)),
        marks=(),
        # Cut apart before anything is set down: it has no place in the top, only a count.
        places=(Motion(),) * count,
        shape=PatchShape(PatchKind.RECTANGLE, cut - 2 * allowance, cut - 2 * allowance),
    )
    return SewnPair(
        exact=exact,
        cut=cut,
        trim_to=pairs.finished + 2 * allowance,
        units=pairs.count,
        marked=replace(
            plain,
            key=key,
            fabric=upper,
            face=Face.WRONG,
            grain=Grain((0.0, 1.0), directional[upper]),
            marks=_marks(cut, allowance),
        ),
        plain=plain,
    )


def _marks(side: Fraction, allowance: Fraction) -> tuple[Mark, ...]:
    """The diagonal, and the seams on both sides of it from raw edge to raw edge."""
    edge, off = float(side), float(allowance * ROOT2)
    inner = float(side - allowance * ROOT2)
    return (
        Mark(MarkKind.CUT_APART, "", ((0.0, 0.0), (edge, edge))),
        Mark(MarkKind.STITCH, "1", ((0.0, off), (inner, edge))),
        Mark(MarkKind.STITCH, "2", ((off, 0.0), (edge, inner))),
    )
