"""All steps of a kit, in the order of the making; mm."""

from __future__ import annotations

from cutpaths.pieces import Kit
from cutpaths.sheets.steps.finishing import finishing
from cutpaths.sheets.steps.folding_over import folding_over
from cutpaths.sheets.steps.joining import joining
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.marking import marking
from cutpaths.sheets.steps.mitering import mitering
from cutpaths.sheets.steps.patchwork import patchwork
from cutpaths.sheets.steps.squaring import squaring
from cutpaths.sheets.steps.step import Hand, Step


def steps_of(kit: Kit, *, hand: Hand = Hand.RIGHT) -> tuple[Step, ...]:
    """Every step of the making of a kit's blanket, in words and pictures of its own geometry.

    What is drawn and said follows the construction, the outline, the type of each corner, and
    whether there are patches, pairs, panels or an opening. Scissors and needle are drawn in `hand`.
    """
    making = Making(kit, hand)
    if not making.turned:
        return (*patchwork(making), *squaring(making), *folding_over(making))
    return (
        *patchwork(making),
        *squaring(making),
        *marking(making),
        *joining(making),
        *mitering(making),
        *finishing(making),
    )
