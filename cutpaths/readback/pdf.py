"""Reads PDF files of the kind that is written here, and compares each page with its sheet.

Millimetres, x right, y up. A PDF keeps no roles: a line is known by its width, colour and pattern,
and is named after the roles that have them. Numbers in the file are rounded to single precision,
which is a thousandth of a millimetre at most on a page of 5 m.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from typing import Any

from cutpaths.drawing import Document, Drawing, flatten
from cutpaths.paint import hex_of
from cutpaths.readback.compare import Slack, differences, place_difference
from cutpaths.readback.expected import PAINT, strokes_of
from cutpaths.readback.found import Found, Kind, Point, ReadError
from cutpaths.readback.pdf_content import MM, PRINT, Content, Mark, Route, read_content
from cutpaths.readback.pdf_fonts import Font, read_font
from cutpaths.readback.pdf_objects import Name, PdfFile, Reference, read_objects
from cutpaths.readback.pdf_texts import text_differences
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Path, Text
from cutpaths.values import replace

SLACK = Slack(coordinate=0.002, length=0.006, area=0.002)
_DEPTH_MOST = 50
_TAKEN_OVER = ("MediaBox", "CropBox", "Resources", "Rotate")

Style = tuple[float, str, tuple[float, ...]]


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document; empty where it does not."""
    try:
        file = read_objects(data)
        root = file.entries(file.trailer.get("Root"))
        pages = list(_pages(file, root.get("Pages"), {}, 0))
        lines = [*_whole(document, file, root, len(pages))]
        fonts: dict[object, Font] = {}
        for number, (drawing, page) in enumerate(
            zip(document.sheets, pages, strict=False), start=1
        ):
            lines += [f"page {number}: {words}" for words in _page(file, drawing, page, fonts)]
    except (ReadError, KeyError) as error:
        return (f"not a PDF file as it is written here: {error}",)
    return tuple(lines)


def _pages(file: PdfFile, node: Any, above: dict[str, Any], depth: int) -> Iterator[dict[str, Any]]:
    """The pages of a tree in order, each with what it takes over (7.7.3.4)."""
    entries = {**above, **file.entries(node)}
    if depth > _DEPTH_MOST:
        raise ReadError("there is no end to the tree of pages")
    if entries.get("Type") == Name("Page"):
        yield entries
        return
    taken = {
        k: v for k, v in entries.items() if k in ("MediaBox", "CropBox", "Resources", "Rotate")
    }
    for kid in file.resolve(entries.get("Kids", [])):
        yield from _pages(file, kid, taken, depth + 1)


def _whole(document: Document, file: PdfFile, root: dict[str, Any], pages: int) -> Iterator[str]:
    """What concerns the file and not one page."""
    if pages != len(document.sheets):
        yield f"must have {len(document.sheets)} pages, found {pages}"
    title, has = document.sheets[0].about.project, ""
    if "Info" in file.trailer:
        has = _text(file.resolve(file.entries(file.trailer["Info"]).get("Title", b"")))
    if _plain(title) != _plain(has):
        yield f"the title must be {title!r}, found {has!r}"
    preferences = file.entries(root.get("ViewerPreferences", {}))
    if preferences.get("PrintScaling") != Name("None"):
        yield "must ask to be printed without scaling"
    marks = file.entries(root.get("Outlines", {})).get("Count", 0.0)
    if marks != len(document.sheets):
        yield f"must have {len(document.sheets)} bookmarks, found {marks:g}"


def _page(
    file: PdfFile, drawing: Drawing, page: dict[str, Any], known: dict[object, Font]
) -> Iterator[str]:
    """The differences of one page; fonts that are read are added to those that are known."""
    left, bottom, right, top = map(float, file.resolve(page["MediaBox"]))
    yield from place_difference(
        "its lower left corner", (0.0, 0.0), (left * MM, bottom * MM), SLACK
    )
    size = (right - left) * MM, (top - bottom) * MM
    yield from place_difference("its size", drawing.size, size, SLACK)
    for entry, plain in (("Rotate", 0.0), ("UserUnit", 1.0), ("CropBox", page["MediaBox"])):
        found = file.resolve(page.get(entry, plain))
        if found != plain:
            yield f"must have no other {entry}, found {found!r}"
    content = read_content(_contents(file, page), _fonts(file, page, known))
    names = _names(drawing)
    must = [_styled(drawing, item, names) for item in strokes_of(_without_texts(drawing))]
    has = [found for mark in content.marks for found in _found(mark, names)]
    yield from differences(must, has, SLACK, may_double=True)
    texts = [p.shape for i in drawing.items for p in flatten(i) if isinstance(p.shape, Text)]
    yield from text_differences(texts, content.runs)
    yield from _clips(drawing, content)


def _fonts(file: PdfFile, page: dict[str, Any], known: dict[object, Font]) -> dict[str, Font]:
    """The fonts of a page by their names there; pages share fonts."""
    fonts = file.entries(file.entries(page.get("Resources", {})).get("Font", {}))
    for value in fonts.values():
        if isinstance(value, Reference) and value not in known:
            known[value] = read_font(file, value)
    return {
        name: known[value] if isinstance(value, Reference) else read_font(file, value)
        for name, value in fonts.items()
    }


def _contents(file: PdfFile, page: dict[str, Any]) -> bytes:
    """The content of a page, which may be in several streams."""
    found = file.resolve(page.get("Contents"))
    parts = found if isinstance(found, list) else [page.get("Contents")]
    return b"\n".join(file.contents(part) for part in parts)


def _clips(drawing: Drawing, content: Content) -> Iterator[str]:
    """Nothing of a page may be hidden."""
    width, height = drawing.size
    for clip in content.clips:
        xs, ys = [x for x, _ in clip.points], [y for _, y in clip.points]
        beyond = min(xs), min(ys), width - max(xs), height - max(ys)
        if max(beyond) > SLACK.coordinate:
            yield f"a part of it is hidden: it is cut off {max(beyond):.3f} mm inside its edge"


# --- what must be there


def _without_texts(drawing: Drawing) -> Drawing:
    """The sheet's lines and painted shapes."""
    flat = (part for item in drawing.items for part in flatten(item))
    # A line without length draws nothing.
    lines = tuple(
        part
        for part in flat
        if not isinstance(part.shape, Text)
        and not (isinstance(part.shape, Path) and len(set(part.shape.points)) == 1)
    )
    return replace(drawing, items=lines, pen=replace(drawing.pen, machine=None))


def _styled(drawing: Drawing, item: Found, names: dict[Style, str]) -> Found:
    """What must be found, named as a PDF can tell it."""
    if item.role == PAINT:
        fill = item.fill if item.tile is None else PRINT
        return replace(item, key="", tile=None, fill=fill)
    return replace(item, key="", role=names[_style(drawing, Role(item.role))])


def _names(drawing: Drawing) -> dict[Style, str]:
    """How lines of each style are called: by the roles that have it."""
    named: dict[Style, list[str]] = {}
    for role in Role:
        named.setdefault(_style(drawing, role), []).append(role.value)
    return {style: " or ".join(roles) for style, roles in named.items()}


def _style(drawing: Drawing, role: Role) -> Style:
    style, pen = STYLES[role], drawing.pen
    colour = hex_of(dict(pen.inks).get(role, style.colour))
    dashes = tuple(dash * pen.stretch for dash in style.pattern) if pen.patterned else ()
    return _rounded(style.width * pen.scale, colour, dashes)


def _rounded(width: float, colour: str, dashes: Iterable[float]) -> Style:
    return round(width, 3), colour, tuple(round(dash, 3) for dash in dashes)


# --- what is there


def _found(mark: Mark, names: dict[Style, str]) -> Iterator[Found]:
    for route in mark.routes:
        if mark.fill:
            edge = mark.line or "none"
            yield replace(_line(route, PAINT), fill=mark.fill, edge=edge)
            continue
        style = _rounded(mark.width, mark.line, mark.dashes)
        unknown = f"a line {mark.width:.3f} mm wide, {mark.line}, dashes {mark.dashes}"
        name = names.get(style, unknown)
        yield _circle(route, name) or _line(route, name)


def _line(route: Route, name: str) -> Found:
    points = route.points
    return Found(role=name, kind=Kind.LINE, points=points, closed=route.closed)


def _circle(route: Route, name: str) -> Found | None:
    """A closed line of curves whose ends lie on a circle."""
    if not (route.closed and route.curved):
        return None
    xs, ys = [x for x, _ in route.points], [y for _, y in route.points]
    center: Point = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    radius = (max(xs) - min(xs)) / 2
    apart = [((x - center[0]) ** 2 + (y - center[1]) ** 2) ** 0.5 for x, y in route.points]
    if any(abs(each - radius) > SLACK.coordinate for each in apart):
        return None
    return Found(role=name, kind=Kind.CIRCLE, points=(center,), size=radius)


def _text(data: Any) -> str:
    """A text outside of pages (7.9.2.2)."""
    if not isinstance(data, bytes):
        raise ReadError(f"a text was expected, found {data!r}")
    if data.startswith(b"\xfe\xff"):
        return data[2:].decode("utf-16-be")
    return data.decode("latin-1")


def _plain(text: str) -> str:
    """A text with its letters taken apart: fractions may be written either way."""
    return unicodedata.normalize("NFKD", text)
