"""A window: an upright rectangle of the piece that one placement of the cloth shows; mm."""

from __future__ import annotations

from cutpaths.projector.needs import Box
from cutpaths.values import Value


class Window(Value):
    """A window: lower left corner, size, whether it is turned by a quarter, and what it holds.

    What it holds are bits: of the boxes that it must hold with others, by their numbers.
    """

    left: float
    bottom: float
    width: float
    height: float
    turned: bool
    holds: int

    @property
    def box(self) -> Box:
        """Left, bottom, right and top."""
        return self.left, self.bottom, self.left + self.width, self.bottom + self.height
