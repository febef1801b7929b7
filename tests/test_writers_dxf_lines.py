"""Lines of DXF files that are written as text: as ezdxf writes them."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from ezdxf.layouts.base import BaseLayout
from sample_drawings import cad, marked

from cutpaths.drawing import Document
from cutpaths.shapes import Point
from cutpaths.writers import dxf


def _by_ezdxf(
    layout: BaseLayout, layer: str, points: Iterable[Point], *, closed: bool, solid: bool = False
) -> None:
    own = {"linetype": "Continuous"} if solid else {}
    layout.add_lwpolyline(points, close=closed, dxfattribs={"layer": layer} | own)


@pytest.mark.parametrize("document", [cad(), marked()], ids=["cad", "marked"])
def test_lines_are_the_bytes_of_ezdxf(document: Document, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same file, handles included, as when each line is an entity of ezdxf (1.4)."""
    ours = dxf.render(document)
    monkeypatch.setattr(dxf, "add_line", _by_ezdxf)
    assert b"LWPOLYLINE" in ours
    assert ours == dxf.render(document)


def test_lines_between_other_things_keep_their_place() -> None:
    """Handles rise through a layout, whatever stands between its lines (DXF reference, group 5)."""
    text = dxf.render(cad()).decode().split("\n")
    tags = list(zip(text[::2], text[1::2], strict=False))
    start = tags.index(("  2", "ENTITIES"))
    end = tags.index(("  0", "ENDSEC"), start)
    handles = [int(value, 16) for code, value in tags[start:end] if code == "  5"]
    assert len(handles) > 1
    assert handles == sorted(set(handles))
