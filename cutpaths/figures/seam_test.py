"""The seam test: three strips sewn side by side, which must come out as wide as the sum says; mm.

Strips of ten allowances are sewn along their sides. Two seams take four allowances, so what is left
is 3 x 10 - 4 = 26 allowances raw edge to raw edge, and 10 - 2 = 8 between the seams. At the trade's
1/4 in these are strips of 2 1/2 in that show 2 1/4 + 2 + 2 1/4 in, together 6 1/2 in (hobby pages).
"""

from __future__ import annotations

from cutpaths.figures.model import Figure, length
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction

STRIP, SEWN, MIDDLE = 10, 26, 8  # allowances


def seam_test(kit: Kit) -> tuple[Figure, ...]:
    """What is cut and what is measured; nothing where nothing is sewn with an allowance."""
    if not kit.pieced and kit.project.construction is Construction.FOLDED_OVER:
        return ()
    one, ruler = kit.project.allowance, kit.project.ruler
    return (
        length("test.strip", "three strips, each cut", STRIP * one, ruler),
        length("test.sewn", "sewn side by side, raw edge to raw edge", SEWN * one, ruler),
        length("test.middle", "the middle one, seam to seam", MIDDLE * one, ruler),
    )
