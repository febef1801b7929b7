"""The table of uses: what each asks to be written, and where. A new use is one line in each table.

The order is that of a hand-over: what people read first, then what machines read. The sheets of a
use are loaded when it is asked for: all of them together take longer than most uses do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from cutpaths.later import Later
from cutpaths.pieces import Kit
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.values import replace

if TYPE_CHECKING:
    from cutpaths.sheets import cad, cloth_plans, cutter, pictures, projector, records
    from cutpaths.sheets.booklet import make as booklet
    from cutpaths.sheets.labels import make as labels
    from cutpaths.sheets.pages import pages
else:
    booklet = Later("cutpaths.sheets.booklet.make")
    labels = Later("cutpaths.sheets.labels.make")
    pages = Later("cutpaths.sheets.pages.pages")
    pictures = Later("cutpaths.sheets.pictures")
    cloth_plans = Later("cutpaths.sheets.cloth_plans")
    projector = Later("cutpaths.sheets.projector")
    cutter = Later("cutpaths.sheets.cutter")
    cad = Later("cutpaths.sheets.cad")
    records = Later("cutpaths.sheets.records")

USES: dict[str, Callable[[Kit, Wishes], tuple[Output, ...]]] = {
    "booklet": lambda kit, wishes: booklet.booklet_sheets(kit, wishes),
    "labels": lambda kit, wishes: labels.label_sheets(kit, wishes),
    "pages": lambda kit, wishes: pages.page_sheets(kit, wishes),
    "pictures": lambda kit, wishes: pictures.pictures(kit, wishes),
    "cloth": lambda kit, wishes: cloth_plans.cloth_plans(kit, wishes),
    "projector": lambda kit, wishes: projector.projector_sheets(kit, wishes),
    "cutter": lambda kit, wishes: cutter.cutter_sheets(kit, wishes),
    "cad": lambda kit, wishes: cad.cad_sheets(kit, wishes),
    "records": lambda kit, wishes: records.records(kit, wishes),
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
