"""The booklet as PDF: its content as data for a typst template, its pictures as SVG.

The template `booklet.typ` stands beside this module and never changes; everything of a project goes
in as one JSON file, so that no text of a person is ever read as markup. Pictures are our own SVG
without their texts, which are set as text over them: they can be selected, searched and heard.
Lengths are mm, places of texts from the upper left corner of their picture.

Left out: links to other places, forms.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any, assert_never

from cutpaths.drawing import Document, Drawing, Item, flatten
from cutpaths.errors import DrawingError
from cutpaths.paint import hex_of
from cutpaths.roles import STYLES
from cutpaths.shapes import Anchor, Text
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Bullets,
    Caution,
    Chapter,
    Chip,
    Columns,
    Contents,
    Key,
    Note,
    Numbered,
    PageBreak,
    Paragraph,
    Picture,
    Pointer,
    Section,
    Table,
    Task,
    Terms,
    Together,
)
from cutpaths.sheets.booklet.booklet import Booklet, BookletDocument
from cutpaths.strokes import text_width
from cutpaths.values import State, field, replace
from cutpaths.writers import svg
from cutpaths.writers.typeset import typeset
from cutpaths.writers.typst_text import CAPITAL, require_letters, texts

TEMPLATE = "booklet.typ"
CONTENT = "content.json"
_BACK = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}

Data = Mapping[str, Any]


def render(document: Document) -> bytes:
    """The bytes of the PDF.

    Raises:
        DrawingError: the document is no booklet, or has letters that the fonts lack.
    """
    if not isinstance(document, BookletDocument):
        raise DrawingError(f"a PDF booklet holds a booklet, and {document.name} is none")
    content = document.content
    require_letters(dict(content.written))
    pictures = _Pictures()
    data = texts(_booklet(content, pictures))
    return typeset(template(), {CONTENT: data, **pictures.files})


def template() -> str:
    """The template as it stands in the package."""
    return (files("cutpaths.writers") / TEMPLATE).read_text(encoding="utf-8")


def _booklet(content: Booklet, pictures: _Pictures) -> Data:
    return {
        "title": content.title,
        "subtitle": content.subtitle,
        "author": content.author,
        "keywords": list(content.keywords),
        "foot": content.foot,
        "width": float(content.paper.width),
        "height": float(content.paper.height),
        "body": content.body,
        "capital": CAPITAL,
        "cover": _blocks(content.cover, pictures),
        "chapters": [_chapter(chapter, pictures) for chapter in content.chapters],
    }


def _chapter(chapter: Chapter, pictures: _Pictures) -> Data:
    return {
        "title": chapter.title,
        "fresh": chapter.fresh,
        "blocks": _blocks(chapter.blocks, pictures),
    }


def _blocks(blocks: Sequence[Block], pictures: _Pictures) -> list[Data]:
    return [_block(block, pictures) for block in blocks]


def _block(block: Block, pictures: _Pictures) -> Data:
    match block:
        case Section(text) | Paragraph(text) | Note(text):
            return {"kind": _KINDS[type(block)], "text": text}
        case Bullets(items) | Numbered(items):
            return {"kind": _KINDS[type(block)], "items": list(items)}
        case Caution(title, items):
            return {"kind": "caution", "title": title, "items": list(items)}
        case Pointer(text=text, to=to):
            return {"kind": "pointer", "text": text, "to": to}
        case Terms(rows):
            return {"kind": "terms", "rows": [list(row) for row in rows]}
        case Table(heads=heads, rows=rows, parts=parts):
            told = {"heads": list(heads), "rows": [list(row) for row in rows]}
            return {"kind": "table", **told, "parts": list(parts)}
        case Key(chips):
            return {"kind": "key", "chips": [_chip(chip) for chip in chips]}
        case _:
            return _with_pictures(block, pictures)


_KINDS: Mapping[type[Block], str] = {
    Section: "section",
    Paragraph: "paragraph",
    Note: "note",
    Bullets: "bullets",
    Numbered: "numbered",
}


def _with_pictures(
    block: Picture | Task | Beside | Together | Columns | Contents | PageBreak,
    pictures: _Pictures,
) -> Data:
    """Blocks that hold pictures or other blocks, and those that hold nothing."""
    match block:
        case Picture():
            return {"kind": "picture", **pictures.data(block)}
        case Task():
            return _task(block, pictures)
        case Beside(picture=picture, blocks=blocks):
            inner = {"picture": pictures.data(picture), "blocks": _blocks(blocks, pictures)}
            return {"kind": "beside", **inner}
        case Together(blocks):
            return {"kind": "together", "blocks": _blocks(blocks, pictures)}
        case Columns(left=left, right=right):
            both = {"left": _blocks(left, pictures), "right": _blocks(right, pictures)}
            return {"kind": "columns", **both}
        case Contents():
            return {"kind": "contents"}
        case PageBreak():
            return {"kind": "break"}
        case _:
            assert_never(block)


def _chip(chip: Chip) -> Data:
    return {
        "tint": hex_of(chip.tint),
        "letter": chip.letter,
        "name": chip.name,
        "more": chip.more,
    }


def _task(task: Task, pictures: _Pictures) -> Data:
    return {
        "kind": "task",
        "number": str(task.number),
        "title": task.title,
        "words": list(task.words),
        "check": task.check,
        "picture": pictures.data(task.picture),
    }


class _Pictures(State):
    """Collects the files of pictures; a drawing shown twice is one file."""

    files: dict[str, bytes] = field(default_factory=dict)
    names: dict[bytes, str] = field(default_factory=dict)

    def data(self, picture: Picture) -> Data:
        """What the template needs of a picture."""
        drawing = picture.drawing
        flat = [part for item in drawing.items for part in flatten(item)]
        lines = tuple(item for item in flat if not isinstance(item.shape, Text))
        width, height = drawing.size
        return {
            "file": self._file(replace(drawing, items=lines)),
            "width": width,
            "height": height,
            "texts": [_text(item, drawing) for item in flat if isinstance(item.shape, Text)],
            "alt": picture.alt,
            "caption": picture.caption,
            "most": picture.height,
            "wide": picture.width,
        }

    def _file(self, drawing: Drawing) -> str:
        made = svg.render(Document(drawing.name, (drawing,)))
        if made not in self.names:
            self.names[made] = f"picture-{len(self.names) + 1}.svg"
            self.files[self.names[made]] = made
        return self.names[made]


def _text(item: Item, drawing: Drawing) -> Data:
    """A text with its place; it may be as wide as the single-line font makes it."""
    text = item.shape
    if not isinstance(text, Text):
        raise TypeError(f"a text was expected, got {text!r}")
    return {
        "string": text.string,
        "x": text.at[0],
        "y": drawing.size[1] - text.at[1],
        "height": text.height,
        "room": text_width(text.string, text.height),
        "angle": text.angle,
        "back": _BACK[text.anchor],
        "colour": hex_of(dict(drawing.pen.inks).get(item.role, STYLES[item.role].colour)),
    }
