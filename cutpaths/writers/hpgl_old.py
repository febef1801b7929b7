"""HP-GL for old plotters: coordinates of 16 bits and no plot size.

The same as `hpgl`, but old plotters take -32768 to 32767 units, which is 819 mm, and read `PS` as
the name of a paper or not at all. What lies beyond is refused.
"""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.machine.plotter import OLD_LEAST, OLD_MOST
from cutpaths.writers.hpgl import plot


def render(document: Document) -> bytes:
    """The bytes of an HP-GL file with the document's one sheet.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    return plot(document, reach=(OLD_LEAST, OLD_MOST), sized=False)
