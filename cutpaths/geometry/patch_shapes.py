"""Shapes of patches, by their exact finished sizes; mm.

In its own frame a rectangle stands on its width; a half triangle has its right angle at the lower
left; a quarter triangle stands on its long edge, its point in the middle above.
"""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction

from cutpaths.values import Value


class PatchKind(StrEnum):
    """What a patch is a part of."""

    RECTANGLE = "rectangle"
    HALF = "half"  # of a rectangle, split by one diagonal
    QUARTER = "quarter"  # of a rectangle, split by both diagonals


class PatchShape(Value):
    """A patch's shape.

    Attributes:
        kind: what it is a part of.
        width, height: finished sizes: of a half triangle its legs, of a quarter triangle its long
            edge and what stands on it.
    """

    kind: PatchKind
    width: Fraction
    height: Fraction

    @property
    def square(self) -> bool:
        """Whether what it is a part of is a square."""
        tall = 2 * self.height if self.kind is PatchKind.QUARTER else self.height
        return self.width == tall

    @property
    def name(self) -> str:
        """What the trade calls it."""
        whole = "square" if self.square else "rectangle"
        return whole if self.kind is PatchKind.RECTANGLE else f"{self.kind}-{whole} triangle"

    def corners(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Finished outline, counter-clockwise, from the lower left corner at the origin."""
        width, height, none = self.width, self.height, Fraction(0)
        match self.kind:
            case PatchKind.RECTANGLE:
                return (none, none), (width, none), (width, height), (none, height)
            case PatchKind.HALF:
                return (none, none), (width, none), (none, height)
            case PatchKind.QUARTER:
                return (none, none), (width, none), (width / 2, height)
