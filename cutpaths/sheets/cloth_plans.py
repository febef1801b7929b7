"""What cloth to buy and how to cut it, as a use."""

from __future__ import annotations

from dataclasses import replace

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.joining import with_panels
from cutpaths.cloth.notes import cloth_notes
from cutpaths.cloth.searched_strips import Search
from cutpaths.pieces import Kit
from cutpaths.sheets.booklet.facts import EFFORT
from cutpaths.sheets.cloth import cloth_outputs
from cutpaths.sheets.sheet import Output, Wishes

SAYS = {
    "csv": "every piece and its place on the cloth, for a spreadsheet",
    "json": "what to buy and how to cut it, for programs",
}


def cloth_plans(kit: Kit, _wishes: Wishes) -> tuple[Output, ...]:
    """A drawing of each length of cloth, the list of pieces, and everything for programs.

    Raises:
        InputError: a fabric cannot hold its pieces.
    """
    search = Search(EFFORT)
    joined, advice = with_panels(kit, search)
    plans = plans_of(joined, search)
    notes = (*cloth_notes(plans, kit.project.ruler), *advice)
    return tuple(
        replace(output, says=SAYS.get(output.formats[0], ""))
        for output in cloth_outputs(joined, plans, notes)
    )
