"""What cloth to buy and how to cut it, as a use."""

from __future__ import annotations

from cutpaths.pieces import Kit
from cutpaths.sheets.cloth import cloth_outputs
from cutpaths.sheets.planned import planned
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.values import replace

SAYS = {
    "csv": "every piece and its place on the cloth, for a spreadsheet",
    "json": "what to buy and how to cut it, for programs",
}


def cloth_plans(kit: Kit, _wishes: Wishes) -> tuple[Output, ...]:
    """A drawing of each length of cloth, the list of pieces, and everything for programs.

    Raises:
        InputError: a fabric cannot hold its pieces.
    """
    found = planned(kit)
    if found.error is not None:
        raise found.error
    return tuple(
        replace(output, says=SAYS.get(output.formats[0], ""), notes=found.notes)
        for output in cloth_outputs(found.kit, found.plans, found.notes)
    )
