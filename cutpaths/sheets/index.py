"""What the page of a whole folder shows: every file in its group, the proof, figures, cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from cutpaths.drawing import Document, Drawing
from cutpaths.figures import figures_of
from cutpaths.figures.model import Group as FigureGroup
from cutpaths.pieces import Kit
from cutpaths.proof.check import Proof
from cutpaths.sheets.sheet import Output
from cutpaths.values import Value, replace

MAIN = "Blanket"  # the group of figures that is open at once
FRONT = "picture-front"  # the picture at the head of the page
# What files are for that do not say so themselves, by how their names begin; the first that fits.
SAYS = {
    "booklet": "what a maker reads: cloth, cutting, sewing step by step, all sizes",
    "pages-": "a whole piece at true scale, in tiles to join",
    "pages": "how to print, a scale square, templates, shapes and practice corners at true scale",
    "picture-chart": "which patch goes where",
    "picture-": "how it will look",
    "cloth-": "one length of cloth with every cut, at true scale",
    "projector-page": "opens in a browser: calibrates, and throws the marks step by step",
    "projector-": "marks to throw onto the cloth",
    "frame-": "a part of the marks in the projector's own pixels",
    "cutter-all": "to cut from one cloth in one go",
    "cutter-": "to cut singly",
    "cad-": "to look at and to measure: each piece once, with its dimensions",
}


class Shelf(Value):
    """A folder of the hand-over: its heading, and what its files are for in a line or two."""

    title: str
    says: str


SHELVES = {
    "paper": Shelf(
        "On paper",
        "Print at 100 %, never fitted to the page, and measure the scale square where there is "
        "one.",
    ),
    "pictures": Shelf("Pictures", "The finished blanket and the chart of its patches."),
    "cloth": Shelf(
        "The cloth",
        "What to buy, and a drawing of each length with its cuts. Close a rotary cutter whenever "
        "you put it down.",
    ),
    "projector": Shelf(
        "For a projector",
        "Throw them onto the cloth at true scale. Open the page first: it brings the marks to "
        "scale. Do not look into the lens.",
    ),
    "machine": Shelf(
        "For a cutting machine",
        "Outlines to cut and marks to draw, at true scale. Cut one piece from scrap first and "
        "measure it. Never leave a machine running alone.",
    ),
    "cad": Shelf("To check in a drawing program", "Every piece with its dimensions."),
    "records": Shelf("For the records", "Figures and proof for programs and spreadsheets."),
}
CAUTIONS = (
    "Files are true to scale; a program, a printer or a machine that scales them is not. Measure "
    "before you cut.",
    "Rotary cutter: close the blade whenever you put it down, cut away from yourself on a mat, and "
    "keep it away from children.",
    "Iron: it is hot long after it is switched off; do not leave it alone.",
    "Pins and needles: count them before and after.",
    "Laser and cutting machine: never leave it running unattended, and cut only what its maker "
    "allows.",
    "Projector: do not look into its lens, and fix it so that it cannot fall.",
    "No blankets or other soft bedding in the sleep space of a child under 1 (American Academy of "
    "Pediatrics, 2022 recommendations, Pediatrics 150(1) e2022057990).",
    "These are reminders. What the makers of your tools say, your local rules and a qualified "
    "person come first.",
)


class Filed(Value, kw_only=True):
    """A file that has been made: what it is of, where it stands, how long it is.

    `path` is relative to the page, with `/`; `size` in bytes.
    """

    output: Output
    path: str
    size: int


class Card(Value, kw_only=True):
    """One thing in all its formats.

    Attributes:
        title: what it shows.
        says: more about it; may be empty.
        files: its files.
        drawing: what it looks like; None for what is no drawing.
    """

    title: str
    says: str
    files: tuple[Filed, ...]
    drawing: Drawing | None


class Group(Value):
    """The cards of one folder."""

    shelf: Shelf
    cards: tuple[Card, ...]


class IndexContent(Value, kw_only=True):
    """Everything on the page.

    Attributes:
        title: of the project.
        variant: which size, colorway and issue of the pattern it is; may be empty.
        digest: SHA-256 of the project file.
        groups: the files.
        figures: all figures, group by group.
        proof: all checks.
        notes: what a person should know of this project.
        left_out: what could not be made, and why.
    """

    title: str
    variant: str
    digest: str
    groups: tuple[Group, ...]
    figures: tuple[FigureGroup, ...]
    proof: Proof
    notes: tuple[str, ...]
    left_out: tuple[str, ...]


class IndexDocument(Document):
    """A document that is the page of a folder: it has no sheets."""

    content: IndexContent


def index_document(
    kit: Kit, proof: Proof, filed: Sequence[Filed], left_out: Sequence[str]
) -> IndexDocument:
    """The page of a folder with these files."""
    project, figures = kit.project, figures_of(kit)
    beside = (note for file in filed for note in file.output.notes)
    content = IndexContent(
        title=project.title,
        variant=_variant(kit),
        digest=project.digest,
        groups=tuple(_groups(filed)),
        figures=figures.groups,
        proof=proof,
        notes=tuple(dict.fromkeys((*figures.notes, *beside))),
        left_out=tuple(left_out),
    )
    return IndexDocument("index", (), content)


def _variant(kit: Kit) -> str:
    project, pattern = kit.project, kit.project.pattern
    said = (
        f"size {project.size}" if project.size else "",
        f"colorway {project.colorway}" if project.colorway else "",
        f"pattern version {pattern.version}" if pattern.version else "",
        pattern.date,
        f"by {pattern.author}" if pattern.author else "",
    )
    return ", ".join(filter(None, said))


def _groups(filed: Sequence[Filed]) -> Iterator[Group]:
    """The folders in the order of the shelves, then any other by its own name."""
    folders = list(dict.fromkeys(file.output.folder for file in filed))
    known = [name for name in SHELVES if name in folders]
    for name in (*known, *(other for other in folders if other not in SHELVES)):
        files = [file for file in filed if file.output.folder == name]
        shelf = SHELVES.get(name, Shelf(name.capitalize() or "Beside this page", ""))
        yield Group(shelf, _told_apart(tuple(_cards(files))))


def _told_apart(cards: tuple[Card, ...]) -> tuple[Card, ...]:
    """Cards of one title with what else their names say: `BACKING, mirrored`, else all of it."""
    for fuller in (_ended, _named):
        counted = Counter(card.title for card in cards)
        cards = tuple(fuller(card) if counted[card.title] > 1 else card for card in cards)
    return cards


def _ended(card: Card) -> Card:
    """With the end of its name, where that is a number or tells a mirrored twin."""
    end = card.files[0].output.name.rsplit("-", 1)[-1]
    known = end.isdecimal() or end == "mirrored"
    return replace(card, title=f"{card.title}, {end}") if known else card


def _named(card: Card) -> Card:
    return replace(card, title=f"{card.title} ({card.files[0].output.name})")


def _cards(files: Sequence[Filed]) -> Iterator[Card]:
    """A card for each output; a file of another format of the same name joins it."""
    named: dict[tuple[str, bool], list[Filed]] = {}
    for file in files:
        drawn = bool(file.output.document.sheets)
        named.setdefault((file.output.name, drawn), []).append(file)
    for same in named.values():
        output = same[0].output
        sheets = output.document.sheets
        yield Card(
            title=_title(output),
            says="; ".join(filter(None, (_says(output), _face(output), _pages(len(sheets))))),
            files=tuple(same),
            drawing=sheets[0] if sheets else None,
        )


def _title(output: Output) -> str:
    """What all its sheets show, else its name in words: `kit-list` makes `kit list`."""
    shown = {sheet.about.piece for sheet in output.document.sheets}
    return shown.pop() if len(shown) == 1 else output.name.replace("-", " ")


def _says(output: Output) -> str:
    said = (says for start, says in SAYS.items() if output.name.startswith(start))
    return output.says or next(said, "")


def _face(output: Output) -> str:
    """Which face is up on all its sheets."""
    faces = {sheet.about.face for sheet in output.document.sheets}
    return faces.pop() if len(faces) == 1 else ""


def _pages(count: int) -> str:
    return f"{count} pages" if count > 1 else ""
