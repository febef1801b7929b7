"""How patches are cut and sewn, whatever their layout."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from cutpaths.project.patchwork import Pressing
from cutpaths.values import Value


class PatchRules(Value, kw_only=True):
    """What all layouts are given.

    Attributes:
        allowance: seam allowance on all sides of a patch, exact mm.
        directional: for each fabric whether it has an up.
        pressing: how seam allowances are pressed.
        blunted: whether the sharp tips of triangles are cut off square.
    """

    allowance: Fraction
    directional: Mapping[str, bool]
    pressing: Pressing = Pressing.OPEN
    blunted: bool = False
