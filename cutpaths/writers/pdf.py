"""PDF 1.7: one page a sheet, true to scale, with real text.

Millimetres; a page is as large as its sheet, in units of 1/72 in (ISO 32000-1, 8.3.2.3). The lines
of a sheet are those of its SVG file, without the letters, set down on the page at its own size.
Texts are set in the shipped fonts, capitals as high as drawn, and never wider than the single-line
font would draw them, for that is the width for which sheets are laid out. Fonts are embedded; each
page has a bookmark and, as a tagged figure, a text in place of its picture; the file asks viewers
to print it at its actual size (12.2, `PrintScaling`).

Left out: roles and keys (lines differ by pattern, width and colour), layers, links, forms.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from cutpaths.drawing import About, Document, Drawing, Item, flatten
from cutpaths.errors import DrawingError
from cutpaths.lengths import INCH_MM
from cutpaths.paint import hex_of
from cutpaths.roles import STYLES
from cutpaths.shapes import Anchor, Path, Text
from cutpaths.strokes import text_width
from cutpaths.values import replace
from cutpaths.writers import svg
from cutpaths.writers.pdf_printing import at_actual_size
from cutpaths.writers.typeset import typeset
from cutpaths.writers.typst_text import CAPITAL, require_letters, texts
from cutpaths.writers.writable import require_writable

# 14,400 units of 1/72 in (ISO 32000-1, annex C, from memory); more needs a unit of the page's own,
# which most viewers overlook.
LONGEST_MM = 200 * INCH_MM

_DATA = "pages.json"
_BACK = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}
_MARKUP = f"""
#let data = json("{_DATA}")
#set document(
  title: data.title, author: data.author, description: data.description, keywords: data.keywords,
)
#set page(margin: 0mm)
#set text(top-edge: "baseline", bottom-edge: "baseline")
#set par(leading: 0mm, spacing: 0mm)
#let lettering(it) = place(dx: it.x * 1mm, dy: it.y * 1mm, context {{
  let body = text(size: it.size * 1mm, fill: rgb(it.colour), it.string)
  let wide = measure(body).width
  let part = calc.min(1, it.room * 1mm / wide)
  let set-back = -it.back * part * wide
  rotate(-it.angle * 1deg, origin: top + left, box(width: 0mm, height: 0mm,
    place(dx: set-back, scale(x: part * 100%, origin: top + left, box(width: wide, body)))))
}})
#for sheet in data.sheets {{
  page(width: sheet.width * 1mm, height: sheet.height * 1mm, {{
    place(hide(heading(sheet.name)))
    place(image(
      sheet.lines, width: sheet.width * 1mm, height: sheet.height * 1mm, fit: "stretch",
      alt: sheet.alt,
    ))
    for it in sheet.texts {{ lettering(it) }}
  }})
}}
"""


def render(document: Document) -> bytes:
    """The bytes of a PDF file with a page for each sheet.

    Raises:
        DrawingError: there is no sheet, a page would be too long, or it holds what cannot be
            written, such as letters that the fonts lack.
    """
    if not document.sheets:
        raise DrawingError(f"PDF holds one sheet or more, {document.name} has none")
    files: dict[str, bytes] = {}
    pages = []
    for number, drawing in enumerate(document.sheets, start=1):
        require_writable(drawing)
        _require_short(drawing)
        flat = [part for item in drawing.items for part in flatten(item)]
        lettering = [item for item in flat if isinstance(item.shape, Text)]
        _require_letters(drawing, lettering)
        name = f"page-{number}.svg"
        files[name] = _lines(drawing, flat)
        pages.append(_page(drawing, name, lettering))
    about = document.sheets[0].about
    files[_DATA] = texts(
        {
            "title": about.project,
            "author": [about.author] if about.author else [],
            "description": f"{document.name}, at true scale. sha256:{about.digest}",
            "keywords": ["true scale", f"sha256:{about.digest}"],
            "sheets": pages,
        }
    )
    return at_actual_size(typeset(_MARKUP, files))


def _require_short(drawing: Drawing) -> None:
    if max(drawing.size) > LONGEST_MM:
        raise DrawingError(
            f"{drawing.name}: a PDF page can be 5080 mm (200 in) long, "
            f"got {max(drawing.size):.0f} mm. Part it into several pages"
        )


def _require_letters(drawing: Drawing, lettering: list[Item]) -> None:
    about = drawing.about
    said = {"title": about.project, "pattern.author": about.author}
    strings = [item.shape.string for item in lettering if isinstance(item.shape, Text)]
    require_letters(said | {f"text on {drawing.name}": "".join(strings)})


def _lines(drawing: Drawing, flat: list[Item]) -> bytes:
    """Everything but the texts, as SVG in mm."""
    items = tuple(item for item in flat if not isinstance(item.shape, Text) and not _still(item))
    sheet = replace(drawing, items=items, pen=replace(drawing.pen, machine=None))
    return svg.render(Document(drawing.name, (sheet,)))


def _still(item: Item) -> bool:
    """Whether a line has no length, as the extension line of a dimension without an offset."""
    return isinstance(item.shape, Path) and len(set(item.shape.points)) == 1


def _page(drawing: Drawing, lines: str, lettering: list[Item]) -> dict[str, Any]:
    width, height = drawing.size
    return {
        "name": drawing.about.piece,
        "width": width,
        "height": height,
        "lines": lines,
        "alt": _alt(drawing.about),
        "texts": [letter for item in lettering for letter in _letters(drawing, item)],
    }


def _alt(about: About) -> str:
    """What a page shows, for who cannot see it."""
    said = (about.piece, about.face, "lines drawn at true scale")
    return ". ".join(word for word in said if word)


def _letters(drawing: Drawing, item: Item) -> Iterator[dict[str, Any]]:
    """A text for the markup: y runs down there, and sizes are of the font's square."""
    if isinstance(item.shape, Text):
        text = item.shape
        colour = dict(drawing.pen.inks).get(item.role, STYLES[item.role].colour)
        yield {
            "string": text.string,
            "x": text.at[0],
            "y": drawing.size[1] - text.at[1],
            "size": text.height / CAPITAL,
            "room": text_width(text.string, text.height),
            "angle": text.angle,
            "back": _BACK[text.anchor],
            "colour": hex_of(colour),
        }
