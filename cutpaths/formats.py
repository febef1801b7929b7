"""The file formats that drawings are written in; one table, one line a format.

A format's writer and reader are loaded when it is first used, because they load large libraries and
most commands write nothing.
"""

from __future__ import annotations

from importlib import import_module

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.values import Value

_SHOWN = 3


class Format(Value, kw_only=True):
    """One file format.

    Attributes:
        suffix: of its files, with the dot.
        writer: module with `render(document, ...) -> bytes`.
        reader: module with `check(document, data) -> tuple[str, ...]`, the differences in words.
    """

    suffix: str
    writer: str
    reader: str

    def render(self, document: Document, **options: int) -> bytes:
        """The bytes of the document's file; what may be asked for is for its writer to say.

        Raises:
            DrawingError: the format cannot hold the document.
        """
        data: bytes = import_module(self.writer).render(document, **options)
        return data

    def check(self, document: Document, data: bytes) -> tuple[str, ...]:
        """Each difference between a file and its document, in words."""
        differences: tuple[str, ...] = import_module(self.reader).check(document, data)
        return differences


FORMATS: dict[str, Format] = {
    "booklet": Format(
        suffix=".pdf", writer="cutpaths.writers.booklet", reader="cutpaths.readback.booklet"
    ),
    "csv": Format(suffix=".csv", writer="cutpaths.writers.table", reader="cutpaths.readback.table"),
    "json": Format(suffix=".json", writer="cutpaths.writers.data", reader="cutpaths.readback.data"),
    "html": Format(suffix=".html", writer="cutpaths.writers.page", reader="cutpaths.readback.page"),
    "dxf": Format(suffix=".dxf", writer="cutpaths.writers.dxf", reader="cutpaths.readback.dxf"),
    "dxf-r12": Format(
        suffix="-mm.dxf", writer="cutpaths.writers.dxf_r12", reader="cutpaths.readback.dxf_r12"
    ),
    "hpgl": Format(suffix=".hpgl", writer="cutpaths.writers.hpgl", reader="cutpaths.readback.hpgl"),
    "hpgl-old": Format(
        suffix="-old.hpgl", writer="cutpaths.writers.hpgl_old", reader="cutpaths.readback.hpgl_old"
    ),
    "pdf": Format(suffix=".pdf", writer="cutpaths.writers.pdf", reader="cutpaths.readback.pdf"),
    "png": Format(suffix=".png", writer="cutpaths.writers.png", reader="cutpaths.readback.png"),
    "index": Format(
        suffix=".html", writer="cutpaths.writers.index", reader="cutpaths.readback.index"
    ),
    "svg": Format(suffix=".svg", writer="cutpaths.writers.svg", reader="cutpaths.readback.svg"),
}


def render_checked(document: Document, name: str, *, check: bool = True, **options: int) -> bytes:
    """The bytes of a document in the format of a name, read back unless asked not to.

    Options are those of the format's writer: a PNG's `width` in pixels.

    Raises:
        DrawingError: there is no such format, it cannot hold the document, or the file read back
            is not the document.
    """
    data = rendered(document, name, **options)
    if check:
        require_same(document, name, data)
    return data


def rendered(document: Document, name: str, **options: int) -> bytes:
    """The bytes of a document in the format of a name.

    Raises:
        DrawingError: there is no such format, or it cannot hold the document.
    """
    if name not in FORMATS:
        raise DrawingError(f"a format must be {' or '.join(sorted(FORMATS))}, got {name!r}")
    return FORMATS[name].render(document, **options)


def require_same(document: Document, name: str, data: bytes) -> None:
    """Reads a file back.

    Raises:
        DrawingError: it is not the document.
    """
    differences = FORMATS[name].check(document, data)
    if differences:
        more = f"; and {len(differences) - _SHOWN} more" if len(differences) > _SHOWN else ""
        found = "; ".join(differences[:_SHOWN])
        raise DrawingError(f"{document.name} as {name} reads back differently: {found}{more}")
