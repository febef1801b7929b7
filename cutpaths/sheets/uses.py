"""The table of uses: what each asks to be written, and where. A new use is one line in each table.

The order is that of a hand-over: what people read first, then what machines read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from cutpaths.pieces import Kit
from cutpaths.sheets.booklet.make import booklet_sheets
from cutpaths.sheets.cad import cad_sheets
from cutpaths.sheets.cloth_plans import cloth_plans
from cutpaths.sheets.cutter import cutter_sheets
from cutpaths.sheets.labels.make import label_sheets
from cutpaths.sheets.pages.pages import page_sheets
from cutpaths.sheets.pictures import pictures
from cutpaths.sheets.projector import projector_sheets
from cutpaths.sheets.records import records
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.values import replace

USES: dict[str, Callable[[Kit, Wishes], tuple[Output, ...]]] = {
    "booklet": booklet_sheets,
    "labels": label_sheets,
    "pages": page_sheets,
    "pictures": pictures,
    "cloth": cloth_plans,
    "projector": projector_sheets,
    "cutter": cutter_sheets,
    "cad": cad_sheets,
    "records": records,
}

# The folder of each use inside the project's; one of its own name where none is given.
FOLDERS = {"booklet": "paper", "labels": "paper", "pages": "paper", "cutter": "machine"}

# What a person can do without: a folder of everything is made though one of them cannot be.
OPTIONAL = ("booklet", "pictures", "cloth")


def outputs_for(kit: Kit, use: str, wishes: Wishes) -> tuple[Output, ...]:
    """What one use asks to be written, each with its folder."""
    folder = FOLDERS.get(use, use)
    return tuple(replace(output, folder=folder) for output in USES[use](kit, wishes))


def outputs(kit: Kit, uses: Iterable[str], wishes: Wishes) -> tuple[Output, ...]:
    """What the named uses ask to be written, in the order of the table."""
    wanted = set(uses)
    return tuple(o for use in USES if use in wanted for o in outputs_for(kit, use, wishes))
