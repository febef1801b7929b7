"""PDF pages by pypdfium2 (PDFium): sizes, texts, path segments, and what is seen at 300 dpi."""

from __future__ import annotations

import ctypes

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as raw

DPI = 300
MM_PER_UNIT = 25.4 / 72

Point = tuple[float, float]


def sizes_mm(data: bytes) -> list[Point]:
    """Width and height of each page."""
    document = pypdfium2.PdfDocument(data)
    return [(w * MM_PER_UNIT, h * MM_PER_UNIT) for w, h in (page.get_size() for page in document)]


def text_of(data: bytes, page: int) -> str:
    """The text of a page as a reader would copy it."""
    return str(pypdfium2.PdfDocument(data)[page].get_textpage().get_text_range())


def bookmarks(data: bytes) -> list[tuple[str, int]]:
    """Titles of the bookmarks and the pages they lead to, from 0."""
    found = []
    for mark in pypdfium2.PdfDocument(data).get_toc():
        dest = mark.get_dest()
        found.append((str(mark.get_title()), -1 if dest is None else int(dest.get_index())))
    return found


def segments_mm(data: bytes, page: int) -> list[Point]:
    """The ends of all segments of all paths on a page, in order."""
    document = pypdfium2.PdfDocument(data)
    found: list[Point] = []
    for item in document[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        matrix = item.get_matrix()
        for n in range(raw.FPDFPath_CountSegments(item.raw)):
            segment = raw.FPDFPath_GetPathSegment(item.raw, n)
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            u = matrix.a * x.value + matrix.c * y.value + matrix.e
            v = matrix.b * x.value + matrix.d * y.value + matrix.f
            found.append((u * MM_PER_UNIT, v * MM_PER_UNIT))
    return found


def grey(data: bytes, page: int) -> npt.NDArray[np.uint8]:
    """A page at 300 dpi: rows from the head, 0 black to 255 white."""
    image = pypdfium2.PdfDocument(data)[page].render(scale=DPI / 72, grayscale=True)
    return np.asarray(image.to_numpy(), dtype=np.uint8).reshape(image.height, image.width)
