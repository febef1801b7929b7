"""Reads a booklet's PDF and compares it with its content; the standard library alone.

What is compared: the size of every page, title and author, the bookmarks of chapters, that the
file is tagged with a text for every picture, and that every text of the content can be read in
its order. Letters that look alike, spaces and the ends of lines are not told apart. Lengths in mm.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from typing import Any

from cutpaths.drawing import Document
from cutpaths.readback.found import ReadError
from cutpaths.readback.pdf_content import MM, Run, read_content
from cutpaths.readback.pdf_fonts import read_font
from cutpaths.readback.pdf_objects import Name, PdfFile, Reference, read_objects
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Bullets,
    Caution,
    Columns,
    Key,
    Note,
    Numbered,
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

SLACK_MM = 0.01
FOOT_MM = 20.0  # what stands lower is the foot of the page
_DEPTH_MOST = 60
_SHOWN = 60
_SPACES = dict.fromkeys(map(ord, " \t\n\u00a0\u200b\u00ad"))


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not."""
    if not isinstance(document, BookletDocument):
        return ("a booklet was expected to have a booklet's content",)
    content = document.content
    try:
        file = read_objects(data)
        root = file.entries(file.trailer.get("Root"))
        pages = list(_pages(file, root.get("Pages"), {}, 0))
        found: list[str] = [
            *_sizes(content, file, pages),
            *_about(content, file),
            *_bookmarks(content, file, root),
            *_tags(content, file, root),
            *_texts(content, file, pages),
        ]
    except (ReadError, KeyError, ValueError) as error:
        return (f"not a PDF file as it is written here: {error}",)
    return tuple(found)


def _pages(file: PdfFile, node: Any, above: dict[str, Any], depth: int) -> Iterator[dict[str, Any]]:
    """The pages of a tree in order, each with what it takes over (ISO 32000-1, 7.7.3.4)."""
    if depth > _DEPTH_MOST:
        raise ReadError("there is no end to the tree of pages")
    entries = {**above, **file.entries(node)}
    if entries.get("Type") == Name("Page"):
        yield entries
        return
    taken = {k: v for k, v in entries.items() if k in ("MediaBox", "Resources", "Rotate")}
    for kid in file.resolve(entries.get("Kids", [])):
        yield from _pages(file, kid, taken, depth + 1)


def _sizes(content: Booklet, file: PdfFile, pages: Sequence[dict[str, Any]]) -> Iterator[str]:
    wanted = float(content.paper.width), float(content.paper.height)
    if len(pages) < len([c for c in content.chapters if c.fresh]):
        yield f"must have a page for each chapter, found {len(pages)} pages"
    for number, page in enumerate(pages, 1):
        left, foot, right, head = (float(each) * MM for each in file.resolve(page["MediaBox"]))
        size = right - left, head - foot
        if any(abs(a - b) > SLACK_MM for a, b in zip(size, wanted, strict=True)):
            yield (
                f"page {number} must be {wanted[0]:.1f} x {wanted[1]:.1f} mm,"
                f" found {size[0]:.1f} x {size[1]:.1f} mm"
            )


def _about(content: Booklet, file: PdfFile) -> Iterator[str]:
    info = file.entries(file.trailer["Info"])
    for key, wanted in (("Title", content.title), ("Author", content.author)):
        found = _outside(file.resolve(info.get(key, b"")))
        if _plain(found) != _plain(wanted):
            yield f"the {key.lower()} must be {wanted!r}, found {found!r}"


def _bookmarks(content: Booklet, file: PdfFile, root: dict[str, Any]) -> Iterator[str]:
    """Chapters are bookmarks of the first level, in order (12.3.3)."""
    found: list[str] = []
    at = file.entries(root["Outlines"]).get("First")
    while at is not None and len(found) <= len(content.chapters):
        entries = file.entries(at)
        found.append(_plain(_outside(file.resolve(entries["Title"]))))
        at = entries.get("Next")
    wanted = [_plain(chapter.title) for chapter in content.chapters]
    if found != wanted:
        yield f"the bookmarks must be the {len(wanted)} chapters, found {found}"


def _tags(content: Booklet, file: PdfFile, root: dict[str, Any]) -> Iterator[str]:
    """Tagged (14.8), in a language, with a text in place of every picture (14.9.3)."""
    if file.entries(root.get("MarkInfo", {})).get("Marked") is not True:
        yield "must be tagged"
    if not root.get("Lang"):
        yield "must name its language"
    heard = {_plain(text) for text in _alternatives(file, root["StructTreeRoot"], set())}
    for picture in pictures_of(content):
        if _plain(picture.alt) not in heard:
            yield f"a picture must have the text {picture.alt[:_SHOWN]!r}, found none"


def _alternatives(file: PdfFile, node: Any, seen: set[int]) -> Iterator[str]:
    """The texts in place of pictures, in the whole tree of tags."""
    waiting = [node]
    while waiting:
        each = waiting.pop()
        if isinstance(each, Reference):
            if each.number in seen:
                continue
            seen.add(each.number)
        value = file.resolve(each)
        if isinstance(value, list):
            waiting += value
        elif isinstance(value, dict):
            if "Alt" in value:
                yield _outside(file.resolve(value["Alt"]))
            if "K" in value:
                waiting.append(value["K"])


def pictures_of(content: Booklet) -> Iterator[Picture]:
    """Every picture of a booklet."""
    for block in _flat(content):
        if isinstance(block, Picture):
            yield block
        elif isinstance(block, Task):
            yield block.picture


def _flat(content: Booklet) -> Iterator[Block]:
    """Every block, those that stand together one by one."""
    waiting = [*reversed(content.cover)]
    for chapter in content.chapters:
        waiting[:0] = [*reversed(chapter.blocks), Section(chapter.title)]
    while waiting:
        block = waiting.pop()
        if isinstance(block, Together):
            waiting += reversed(block.blocks)
        elif isinstance(block, Columns):
            waiting += reversed((*block.left, *block.right))
        elif isinstance(block, Beside):
            waiting += [*reversed(block.blocks), block.picture]
        else:
            yield block


def _texts(content: Booklet, file: PdfFile, pages: Sequence[dict[str, Any]]) -> Iterator[str]:
    """Every text can be read, and those of chapters in their order."""
    read = _plain("".join(_page_text(file, page) for page in pages))
    at = 0
    for text in (content.title, content.subtitle, *_words(content)):
        found = read.find(_plain(text), at)
        if found < 0:
            yield f"the text {text[:_SHOWN]!r} cannot be read where it must stand"
            return
        at = found + len(_plain(text))


def _page_text(file: PdfFile, page: dict[str, Any]) -> str:
    """The text of a page above its foot."""
    return "".join(run.string for run in runs_of(file, page) if run.start[1] > FOOT_MM)


def runs_of(file: PdfFile, page: dict[str, Any]) -> tuple[Run, ...]:
    """The runs of text on a page."""
    fonts = file.entries(file.entries(page.get("Resources", {})).get("Font", {}))
    known = {name: read_font(file, font) for name, font in fonts.items()}
    contents = file.resolve(page.get("Contents"))
    parts = contents if isinstance(contents, list) else [page.get("Contents")]
    stream = b"\n".join(file.contents(part) for part in parts)
    return read_content(stream, known).runs


def _words(content: Booklet) -> Iterator[str]:
    """The texts of blocks in the order in which they are read."""
    for block in _flat(content):
        match block:
            case Section(text) | Paragraph(text) | Note(text) | Pointer(text=text):
                yield text
            case Picture(caption=text):
                yield text
            case Bullets(items) | Numbered(items):
                yield from items
            case Caution(title, items):
                yield from (title, *items)
            case Task():
                yield from (block.title, *block.words, block.check, block.picture.caption)
            case _:
                yield from _cells(block)


def _cells(block: Block) -> Iterator[str]:
    """The texts of what is set in rows and columns."""
    match block:
        case Terms(rows):
            yield from (text for row in rows for text in row)
        case Table(heads=heads, rows=rows):
            # Heads may come again on the next page, between any two rows.
            yield from (*heads, *(text for row in rows for text in row))
        case Key(chips):
            yield from (text for c in chips for text in (c.letter, c.name, c.more))


def _outside(data: Any) -> str:
    """A text outside of pages (7.9.2.2)."""
    if not isinstance(data, bytes):
        raise ReadError(f"a text was expected, found {data!r}")
    if data.startswith(b"\xfe\xff"):
        return data[2:].decode("utf-16-be")
    return data.decode("latin-1")


def _plain(text: str) -> str:
    """A text without spaces, its letters taken apart: fractions may be written either way."""
    return unicodedata.normalize("NFKD", text).translate(_SPACES)
