"""Packing list, labels and table of a kit, as outputs."""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.pieces import Kit
from cutpaths.sheets.data import Cell, TableDocument
from cutpaths.sheets.labels.contents import Contents, Part, contents_of
from cutpaths.sheets.labels.kit_list import kit_list
from cutpaths.sheets.labels.labels import labels
from cutpaths.sheets.pages.paper import Paper, usual_paper
from cutpaths.sheets.sheet import Output, Wishes

PLAIN = ("a4", "letter")  # papers that labels are laid out for; others are too large to hand over
COLUMNS = (
    "bundle",
    "piece",
    "what",
    "fabric",
    "count",
    "cut size",
    "cut from, or when",
    "project",
    "variant",
    "batch",
    "project file",
)


def label_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """The packing list, the labels, and all of it as a table."""
    contents, paper = contents_of(kit), plain_paper(kit, wishes)
    table = TableDocument("kit-list", (), COLUMNS, rows(contents))
    return (
        Output(
            name="kit-list",
            document=Document("kit-list", kit_list(kit, contents, paper)),
            formats=("pdf",),
            says=f"what is in the kit, with boxes to tick; {paper.name}",
        ),
        Output(
            name="labels",
            document=Document("labels", labels(kit, contents, paper)),
            formats=("pdf",),
            says=f"a label for the kit and for each bundle, to cut apart; {paper.name}",
        ),
        Output(
            name="kit-list",
            document=table,
            formats=("csv",),
            says="what is in the kit, for a spreadsheet",
        ),
    )


def plain_paper(kit: Kit, wishes: Wishes) -> Paper:
    """The paper that was asked for where it is plain, else the usual one."""
    asked = wishes.paper
    if asked is not None and asked.name.lower() in PLAIN:
        return asked
    return usual_paper(kit.project.ruler.unit)


def rows(contents: Contents) -> tuple[tuple[Cell, ...], ...]:
    """A row of the table for each part."""
    return tuple(_row(contents, part) for part in contents.parts)


def _row(contents: Contents, part: Part) -> tuple[Cell, ...]:
    return (
        part.bundle or "",
        part.key,
        part.what,
        part.fabric,
        part.count,
        part.size,
        part.more,
        contents.title,
        contents.variant,
        contents.batch,
        contents.file,
    )
