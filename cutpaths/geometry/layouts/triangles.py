"""The trade's way to cut triangles: squares, cut once or twice on the diagonal; exact, mm.

A half-square triangle of finished side f comes from a square of f + s(2 + sqrt 2), a quarter-square
triangle of finished long edge f from one of f + 2 s(1 + sqrt 2); at s = 1/4 in that is 0.8536 and
1.2071 in more, and the trade adds 7/8 and 1 1/4. The finished size and what the seams add are each
rounded up to the ruler's step, as the trade's tables do it. Triangles on point come from the
diagonal of the square in the same way. Half a rectangle comes from a rectangle, and which diagonal
is cut matters.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.lengths import Ruler
from cutpaths.project.roots import ROOT2, root
from cutpaths.values import Value

_CUTS = {PatchKind.HALF: 1, PatchKind.QUARTER: 2}
_TIMES = {1: "once", 2: "twice"}


class Blank(Value):
    """The square or rectangle that triangles are cut from.

    Attributes:
        exact: width and height that leave no waste.
        cut: the same, rounded up to the ruler's step: what to cut.
        cuts: how often it is cut on the diagonal: 1 gives two triangles, 2 give four.
        rising: which diagonal is cut, as it lies right side up; None where it does not matter.
    """

    exact: tuple[Fraction, Fraction]
    cut: tuple[Fraction, Fraction]
    cuts: int
    rising: bool | None

    def words(self, ruler: Ruler, count: int) -> str:
        """What to cut, as the trade says it: `2 squares of 3 7/8 in, cut once on the diagonal`."""
        width, height = (ruler.text(size) for size in self.cut)
        diagonal = f"cut {_TIMES[self.cuts]} on the diagonal"
        many = "" if count == 1 else "s"
        if self.rising is None:
            return f"{count} square{many} of {width}, {diagonal}"
        way = "rises" if self.rising else "falls"
        return (
            f"{count} rectangle{many} of {width} x {height}, right side up, "
            f"{diagonal} that {way} to the right"
        )


class Blanks(Value):
    """Alike blanks of one fabric, and the pieces that come from them.

    Attributes:
        fabric: name of the fabric.
        blank: what is cut.
        count: how many.
        keys: keys of the triangles that they give.
    """

    fabric: str
    blank: Blank
    count: int
    keys: tuple[str, ...]


def rounded_up(size: Fraction, step: Fraction) -> Fraction:
    """The least multiple of a step that is not less than a size."""
    return -(-size // step) * step


def blank_of(
    shape: PatchShape, allowance: Fraction, step: Fraction, *, stands: bool = False
) -> Blank | None:
    """What a triangle is cut from; None for rectangles, and for quarters of a rectangle.

    Args:
        shape: the triangle's shape.
        allowance: seam allowance.
        step: the ruler's step.
        stands: whether the triangle lies turned by a quarter in its piece's frame.
    """
    match shape.kind:
        case PatchKind.QUARTER if shape.square:
            added = 2 * allowance * (1 + ROOT2)
            return _blank(shape, (shape.width, shape.width), (added, added), step, None)
        case PatchKind.HALF:
            width, height = shape.width, shape.height
            long = root(width * width + height * height)
            added_across = allowance * (1 + (long + width) / height)
            added_down = allowance * (1 + (long + height) / width)
            if shape.square:
                added_across = added_down = allowance * (2 + ROOT2)
            sizes, added_sizes = (width, height), (added_across, added_down)
            if stands:
                sizes, added_sizes = sizes[::-1], added_sizes[::-1]
            return _blank(shape, sizes, added_sizes, step, None if shape.square else stands)
    return None


def _blank(
    shape: PatchShape,
    sizes: tuple[Fraction, Fraction],
    added: tuple[Fraction, Fraction],
    step: Fraction,
    rising: bool | None,
) -> Blank:
    return Blank(
        exact=(sizes[0] + added[0], sizes[1] + added[1]),
        cut=(
            rounded_up(sizes[0], step) + rounded_up(added[0], step),
            rounded_up(sizes[1], step) + rounded_up(added[1], step),
        ),
        cuts=_CUTS[shape.kind],
        rising=rising,
    )


def blanks_of(pieces: Iterable[Piece], allowance: Fraction, step: Fraction) -> tuple[Blanks, ...]:
    """What to cut for all triangles among some pieces.

    From a print with an up, a blank gives each way round once; from other cloth all its triangles
    are alike.
    """
    found: dict[tuple[str, Blank], list[Piece]] = {}
    for piece in pieces:
        if piece.shape is not None:
            blank = blank_of(piece.shape, allowance, step, stands=_stands(piece))
            if blank is not None:
                found.setdefault((piece.fabric, blank), []).append(piece)
    return tuple(
        Blanks(fabric, blank, _needed(blank, alike), tuple(piece.key for piece in alike))
        for (fabric, blank), alike in found.items()
    )


def _stands(piece: Piece) -> bool:
    """Whether a half triangle's right angle is at the lower right or the upper left."""
    if piece.shape is None or piece.shape.kind is not PatchKind.HALF:
        return False
    corners = piece.marks[0].points
    return corners[1][0] == corners[0][0]


def _needed(blank: Blank, alike: list[Piece]) -> int:
    if any(piece.grain is not None and piece.grain.headed for piece in alike):
        return _needed_headed(blank, alike)
    return -(-sum(piece.count for piece in alike) // (2 * blank.cuts))


def _needed_headed(blank: Blank, alike: list[Piece]) -> int:
    """Each diagonal of a square gives its own two ways round."""
    if blank.cuts == 2 or blank.rising is not None:
        return max(piece.count for piece in alike)
    rising = [piece.count for piece in alike if _stands(piece)]
    falling = [piece.count for piece in alike if not _stands(piece)]
    return max(rising, default=0) + max(falling, default=0)
