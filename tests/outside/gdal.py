"""DXF by GDAL, through fiona. GDAL does not look at the unit: numbers are those of the file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import fiona

from cutpaths.values import Value

Point = tuple[float, float]


class Feature(Value):
    """What GDAL makes of an entity, blocks set down where they are inserted."""

    layer: str
    kind: str
    text: str | None
    lines: tuple[tuple[Point, ...], ...]


def read(data: bytes, folder: Path) -> list[Feature]:
    """The features of a file, by way of a folder."""
    path = folder / "gdal.dxf"
    path.write_bytes(data)
    # From DXF 2007 on the letters are UTF-8.
    options = {"DXF_ENCODING": "UTF-8", "DXF_MERGE_BLOCK_GEOMETRIES": "FALSE"}
    with fiona.Env(**options), fiona.open(path) as features:
        return [_feature(feature) for feature in features]


def _feature(feature: Any) -> Feature:
    properties = feature.properties
    # R12 has no subclasses.
    kind = (properties["SubClasses"] or "").split(":")[-1].removeprefix("AcDb")
    geometry = feature.geometry
    coordinates = geometry["coordinates"]
    lines: Iterator[Any]
    match geometry["type"]:
        case "Point":
            lines = iter([[coordinates]])
        case "LineString":
            lines = iter([coordinates])
        case _:
            lines = iter(coordinates)
    flat = tuple(tuple((p[0], p[1]) for p in line) for line in lines)
    return Feature(properties["Layer"], kind, properties["Text"], flat)
