"""The use `booklet`: everything that a maker needs on paper, as one PDF."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.lengths import Unit
from cutpaths.pieces import Kit
from cutpaths.project.model import Project
from cutpaths.sheets.booklet.arranging import arranging
from cutpaths.sheets.booklet.booklet import BODY, LARGE_BODY, Booklet, BookletDocument
from cutpaths.sheets.booklet.care import care
from cutpaths.sheets.booklet.cover import cover, subtitle
from cutpaths.sheets.booklet.cutting import cutting
from cutpaths.sheets.booklet.facts import Facts, facts_of
from cutpaths.sheets.booklet.first_pages import how_to_read, take_care
from cutpaths.sheets.booklet.making import making
from cutpaths.sheets.booklet.needs import what_you_need
from cutpaths.sheets.booklet.reference import all_sizes, to_colour, words_used
from cutpaths.sheets.pages.paper import Paper, usual_paper
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.steps import Hand

FORMATS = ("booklet",)
NAME = "booklet"
# Letters in the line at the foot of a page, which has the widest letters in it.
TITLE_MOST, VERSION_MOST, FOOT_MOST = 40, 12, 64
PAPERS = ("A4", "letter")  # all others are too large to hold in the hand


def booklet_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """The booklet of a kit."""
    document = BookletDocument(NAME, (), booklet_of(kit, wishes))
    return (Output(name=NAME, document=document, formats=FORMATS),)


def booklet_of(kit: Kit, wishes: Wishes) -> Booklet:
    """The content of the booklet."""
    hand = Hand.LEFT if wishes.left_handed else Hand.RIGHT
    facts, project = facts_of(kit, wishes.beside, hand), kit.project
    return Booklet(
        title=project.title,
        subtitle=subtitle(facts),
        author=project.pattern.author,
        keywords=_keywords(facts),
        digest=project.digest,
        foot=_foot(project),
        paper=_paper(wishes.paper, project.ruler.unit),
        body=LARGE_BODY if wishes.large_print else BODY,
        cover=cover(facts),
        chapters=(
            how_to_read(facts),
            take_care(),
            what_you_need(facts),
            cutting(facts),
            *arranging(facts),
            *making(facts),
            care(facts),
            words_used(facts),
            all_sizes(facts),
            to_colour(facts),
        ),
        written=tuple(_written(project)),
    )


def _paper(wished: Paper | None, unit: Unit) -> Paper:
    """The paper asked for, if it can be held in the hand, else the usual one."""
    usual = usual_paper(unit)
    return wished if wished is not None and wished.name in PAPERS else usual


def _foot(project: Project) -> str:
    """Title, size, colorway and version, in one line."""
    version = _short(project.pattern.version, VERSION_MOST)
    parts = (
        _short(project.title, TITLE_MOST),
        project.size,
        project.colorway,
        f"version {version}" if version else "",
    )
    return _short(", ".join(filter(None, parts)), FOOT_MOST)


def _short(text: str, most: int) -> str:
    """A text of so many letters at most.

    >>> _short("Tide pool", 20), _short("Tide pool by the old pier", 13)
    ('Tide pool', 'Tide pool ...')
    """
    return text if len(text) <= most else f"{text[: most - 3].rstrip()} ..."


def _keywords(facts: Facts) -> tuple[str, ...]:
    """What the booklet is found by."""
    top = "patchwork" if facts.kit.pieced else "one-piece top"
    way = "folded over" if facts.folded_over else "sewn and turned"
    return ("blanket", "self-bound", "mitered corners", top, way)


def _written(project: Project) -> Iterator[tuple[str, str]]:
    """Texts of the project file by their keys."""
    yield "title", project.title
    for key in project.pattern.__struct_fields__:
        yield f"pattern.{key}", getattr(project.pattern, key)
    for fabric in project.fabrics:
        yield f"fabric.{fabric.name}.label", fabric.label
