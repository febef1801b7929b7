"""What a packer made of the pieces, in steps, and the plan that it comes to."""

from __future__ import annotations

from typing import NamedTuple

from cutpaths.cloth.packing.knife import cuts_of
from cutpaths.cloth.packing.plan import Method, Plan
from cutpaths.cloth.packing.sheet import Shape, Sheet

Step = tuple[Shape, int, int]  # a shape set down at x, y


class Filling(NamedTuple):
    """Pieces set down one after the other.

    Attributes:
        area: of the pieces set down before too much was wasted.
        whole: whether those are all.
        steps: the pieces set down.
    """

    area: int
    whole: bool
    steps: list[Step]

    @property
    def height(self) -> int:
        """How far up the strip the pieces reach."""
        return max(y + shape.height for shape, _, y in self.steps)


def plan_of(sheet: Sheet, filling: Filling, method: Method) -> Plan:
    """The plan of a whole filling, exact again, with its cuts where every cut can be from edge to edge."""
    height = sheet.exact(filling.height)
    placements = tuple(sheet.placement(*step) for step in filling.steps)
    ...
