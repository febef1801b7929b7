"""The faces of the two cloths in step pictures, and how each is told from the others.

The top is warm and the backing cool; a right side is plain and dark, a wrong side pale and striped,
each cloth with stripes of its own slope, so that all four are told apart without colours too.
"""

from __future__ import annotations

from enum import Enum

from cutpaths.paint import Colour, Paint, from_hex, mixed
from cutpaths.values import Value


class Cloth(Enum):
    """A face of one of the two cloths, by the words of its key."""

    TOP_RIGHT = "top, right side"
    TOP_WRONG = "top, wrong side"
    BACKING_RIGHT = "backing, right side"
    BACKING_WRONG = "backing, wrong side"


class Tint(Value):
    """How a face is painted.

    Attributes:
        paint: its colour.
        stripes: colour of its stripes; None for a right side, which has none.
        slope: whether the stripes rise to the right (1) or fall (-1).
    """

    paint: Paint
    stripes: Paint | None = None
    slope: int = 1


TINTS = {
    Cloth.TOP_RIGHT: Tint(Paint(colour=from_hex("#f2b25c"))),
    Cloth.TOP_WRONG: Tint(
        Paint(colour=from_hex("#fdeed8")), Paint(colour=from_hex("#dfaf72")), slope=1
    ),
    Cloth.BACKING_RIGHT: Tint(Paint(colour=from_hex("#7ba7c9"))),
    Cloth.BACKING_WRONG: Tint(
        Paint(colour=from_hex("#e4eff6")), Paint(colour=from_hex("#93b7d0")), slope=-1
    ),
}
OUTLINE = Paint(colour=from_hex("#2f2f2f"))
STRIPES_MM = 2.4  # from stripe to stripe on the sheet
STRIPE_MM = 0.28

_BROWN, _CREAM = from_hex("#8a4b12"), from_hex("#fff3dc")
# How far the lightest shade of the top's right side goes to cream, the darkest to brown.
_LIGHTEST, _DARKEST, _DARKER_OF_TWO = -0.55, 0.3, 0.0


def shades(count: int) -> tuple[Paint, ...]:
    """Shades for so many fabrics of the top, the lightest first; one alone has the plain colour."""
    if count < 2:
        return (TINTS[Cloth.TOP_RIGHT].paint,) * count
    darkest = _DARKER_OF_TWO if count == 2 else _DARKEST
    step = (darkest - _LIGHTEST) / (count - 1)
    return tuple(_shade(_LIGHTEST + step * n) for n in range(count))


def _shade(part: float) -> Paint:
    """The top's colour with a part of brown, or of cream where the part is below nothing."""
    other = _BROWN if part > 0 else _CREAM
    return Paint(colour=mixed(TINTS[Cloth.TOP_RIGHT].paint.colour, other, abs(part)))


def ink(text: str) -> Colour:
    """A colour of lines, from `#rrggbb`."""
    return from_hex(text)
