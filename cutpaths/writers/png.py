"""PNG: the picture of a sheet, drawn by resvg from the SVG file of the same sheet.

White where nothing is painted. The size is in pixels and says nothing of the true scale. resvg is
in the extra `pictures` and is loaded only here. Its texts are lines, so that no font is needed and
the same document gives the same bytes on every machine with one version of resvg.

Left out: several sheets, transparency, a resolution.
"""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError, install_words
from cutpaths.writers import svg

WIDTH = 1600  # twice the width that pictures are laid out for
_PX_PER_INCH = 96.0  # CSS Values and Units 3; without it resvg takes a millimetre for nothing


def render(document: Document, width: int = WIDTH) -> bytes:
    """The bytes of a PNG file with the document's one sheet, `width` pixels across.

    Raises:
        DrawingError: there is not one sheet, it holds what cannot be written, or resvg is missing.
    """
    drawn = svg.render(document)
    try:
        import resvg_py
    except ImportError as error:
        raise DrawingError(
            f"PNG needs the extra `pictures`: {install_words('pictures')}, or ask for SVG alone"
        ) from error
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=drawn.decode(),
            width=width,
            dpi=_PX_PER_INCH,
            background="white",
            skip_system_fonts=True,
        )
    )
