"""Where the dimensions of the CAD sheet stand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from shapely.geometry import LineString, Polygon

from cutpaths.drawing import Dimension, Placed
from cutpaths.geometry.polygons import along, distance, right_of, sub, unit
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.shapes import Circle
from cutpaths.sheets.cad import cad_sheets
from cutpaths.sheets.sheet import Wishes

FIXTURES = sorted((Path(__file__).parent.parent / "fixtures").glob("*.toml"))
NEAR_MM = 1e-6
FAR_MM = 1000.0


def _between_holes(kit: Kit) -> Iterator[tuple[Polygon, Dimension]]:
    """Each template's card as it lies on the sheet, with the dimension from hole to hole."""
    items = cad_sheets(kit, Wishes())[0].document.only_sheet("dxf").items
    for template in kit.templates:
        own = [item.shape for item in items if item.key == template.piece.key.lower()]
        motion = next(shape.motion for shape in own if isinstance(shape, Placed))
        holes = [motion.point(h.center) for h in template.piece.holes if isinstance(h, Circle)]
        for shape in own:
            if isinstance(shape, Dimension) and all(
                min(distance(end, hole) for hole in holes) < NEAR_MM
                for end in (shape.start, shape.end)
            ):
                yield Polygon(motion.ring(template.piece.outline)), shape


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_lines_to_holes_cross_as_little_card_as_they_can(path: Path) -> None:
    """The extension lines of the dimension between holes leave the card by its nearer edge."""
    kit = build(load(path))
    found = list(_between_holes(kit))
    assert len(found) == len(kit.templates)
    for card, dimension in found:
        right, out = right_of(unit(_way(dimension))), -1 if dimension.offset > 0 else 1
        crossed, spared = (
            sum(
                card.intersection(LineString([end, along(end, right, sign * FAR_MM)])).length
                for end in (dimension.start, dimension.end)
            )
            for sign in (out, -out)
        )
        assert crossed <= spared + NEAR_MM


def _way(dimension: Dimension) -> tuple[float, float]:
    return sub(dimension.end, dimension.start)
