"""LWPOLYLINE entities of a DXF 2010 file, written as text; ezdxf keeps the place and the handles.

Numbers in file units, x right, y up. Most of a sheet is lines, and as an entity of ezdxf each costs
twenty times what its text does: ezdxf asks for forty attributes that none of ours has. The bytes
are those that ezdxf writes (a test compares the two). Entity as in the DXF reference, LWPOLYLINE.
"""

from __future__ import annotations

from collections.abc import Iterable

from cutpaths.shapes import Point
from cutpaths.writers.dxf_library import AbstractTagWriter, BaseLayout, DXFGraphic

_SOLID = "  6\nContinuous\n"


class _Lines(DXFGraphic):
    """The text of lines that follow one another in a layout, as one thing that ezdxf exports."""

    def __init__(self, layout: BaseLayout) -> None:
        super().__init__()
        self.owner = layout.layout_key
        self.text: list[str] = []

    def export_dxf(self, tagwriter: AbstractTagWriter) -> None:
        tagwriter.write_str("".join(self.text))


def add_line(
    layout: BaseLayout, layer: str, points: Iterable[Point], *, closed: bool, solid: bool = False
) -> None:
    """Adds a line on a layer, with its own line type where it is `solid` whatever the layer's is.

    Args:
        layout: where it goes.
        layer: its name.
        points: in file units, rounded.
        closed: whether it returns to its first point.
        solid: whether it has the continuous line type.
    """
    lines = _last_lines(layout)
    corners = [f" 10\n{x}\n 20\n{y}\n" for x, y in points]
    lines.text.append(
        f"  0\nLWPOLYLINE\n  5\n{layout.doc.entitydb.next_handle()}\n330\n{lines.owner}\n"
        f"100\nAcDbEntity\n  8\n{layer}\n{_SOLID if solid else ''}"
        f"100\nAcDbPolyline\n 90\n{len(corners)}\n 70\n{1 if closed else 0}\n{''.join(corners)}"
    )


def _last_lines(layout: BaseLayout) -> _Lines:
    """The lines at the end of a layout, begun where something else stands there."""
    space = layout.entity_space
    last = space[-1] if len(space) else None
    if isinstance(last, _Lines):
        return last
    lines = _Lines(layout)
    space.add(lines)
    return lines
