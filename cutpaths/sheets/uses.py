"""The table of uses: what each asks to be written. A new use is one line here."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from cutpaths.pieces import Kit
from cutpaths.sheets.cad import cad_sheets
from cutpaths.sheets.cutter import cutter_sheets
from cutpaths.sheets.projector import projector_sheets
from cutpaths.sheets.sheet import Output, Wishes

USES: dict[str, Callable[[Kit, Wishes], tuple[Output, ...]]] = {
    "cad": cad_sheets,
    "cutter": cutter_sheets,
    "projector": projector_sheets,
}


def outputs(kit: Kit, uses: Iterable[str], wishes: Wishes) -> tuple[Output, ...]:
    """What the named uses ask to be written, in the order of the table."""
    wanted = set(uses)
    return tuple(o for name, sheets in USES.items() if name in wanted for o in sheets(kit, wishes))
