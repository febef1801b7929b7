"""What a packer made of the pieces, in steps, and the plan that it comes to."""

from __future__ import annotations

from typing import NamedTuple

from cutpaths.cloth.packing.plan import Method, Plan
from cutpaths.cloth.packing.sheet import Shape, Sheet


class Filling(NamedTuple):
    """Pieces set down one after the other.

    Attributes:
        area: of the pieces set down before too much was wasted.
        whole: whether those are all.
        steps: each piece as it lies, with its x and y.
    """

    area: int
    whole: bool
    steps: list[tuple[Shape, int, int]]

    @property
    def height(self) -> int:
        """How far along the strip the pieces reach."""
        return max(y + shape.height for shape, _, y in self.steps)


def plan_of(sheet: Sheet, filling: Filling, method: Method) -> Plan:
    """The plan of a whole filling, exact again."""
    return Plan(
        width=sheet.size(sheet.width),
        height=sheet.size(filling.height),
        placements=tuple(sheet.placement(*step) for step in filling.steps),
        method=method,
    )
