"""Pictures for the tests: rendered by resvg, read as pixels by Pillow."""

from __future__ import annotations

import io
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from PIL import Image
from shapely.geometry import LineString, Polygon

from cutpaths.drawing import Drawing, flatten, text_paths
from cutpaths.pieces import Kit, build
from cutpaths.project import load, read
from cutpaths.shapes import Path as Line
from cutpaths.shapes import Text
from cutpaths.sheets.chart import chart_sheets
from cutpaths.sheets.fabric_paint import Cloth, cloths_of
from cutpaths.sheets.picture import picture_sheets
from cutpaths.writers import png

FIXTURES = Path(__file__).parent.parent / "fixtures"
NAMES = sorted(path.stem for path in FIXTURES.glob("*.toml") if "[top]" in path.read_text("utf-8"))
TITLE = "A very long title for a blanket, &<half> of it in ½ letters: "

Pixel = tuple[int, int, int]

FOLDED = """
construction = "folded-over"
top = { layout = "squares", patch = 5, columns = 3, rows = 4, fabrics = ["a", "b"] }
border = { width = { A = 1, B = "1 1/2", C = 2, D = "1 1/4" } }
backing = { fabric = "c" }
fabric = { a = {}, b = {}, c = {} }
"""
EXTREMES = {
    "one": (
        'top = { layout = "squares", patch = 12, columns = 1, rows = 1 }\nborder = { width = 2 }'
    ),
    "sixty": (
        'top = { layout = "squares", patch = 2, columns = 60, rows = 60, fabrics = ["a", "b"] }\n'
        'border = { width = 2 }\nbacking = { fabric = "b" }\nfabric = { a = {}, b = {} }'
    ),
    "tall": (
        'top = { layout = "squares", patch = 12, columns = 1, rows = 60 }\nborder = { width = 1 }'
    ),
    "metric": (
        'units = "mm"\nopening = { length = 30 }\nborder = { width = 20 }\n'
        'top = { layout = "squares", patch = 100, columns = 60, rows = 1 }'
    ),
    "triangle": (
        'units = "cm"\ntop = { layout = "outline", regular = { sides = 3, side = 60 } }\n'
        "border = { width = { A = 4, B = 3, C = 2 } }"
    ),
    "folded": FOLDED,
}


@cache
def kit(name: str) -> Kit:
    """The kit of an example, or of an extreme project with a title of 120 letters."""
    if name in EXTREMES:
        return made(EXTREMES[name], (TITLE * 3)[:120].strip())
    return build(load(FIXTURES / f"{name}.toml"))


def made(text: str, title: str = "Picture") -> Kit:
    """The kit of a project given as text without its head."""
    return build(read(f'format = 1\ntitle = "{title}"\n{text}'))


def sheets(kit: Kit, cloths: Mapping[str, Cloth] | None = None) -> dict[str, Drawing]:
    """The pictures of a kit by their short names: front, back, and chart of a pieced top."""
    cloths = cloths or cloths_of(kit.project.fabrics)
    found = (*picture_sheets(kit, cloths), *chart_sheets(kit, cloths))
    return {o.name.removeprefix("picture-"): o.document.sheets[0] for o in found}


def pixels(kit: Kit, name: str, width: int, cloths: Mapping[str, Cloth] | None = None) -> Pixels:
    """One picture of a kit as pixels."""
    cloths = cloths or cloths_of(kit.project.fabrics)
    found = (*picture_sheets(kit, cloths), *chart_sheets(kit, cloths))
    document = next(o.document for o in found if o.name == f"picture-{name}")
    return Pixels(png.render(document, width))


class Pixels:
    """A PNG picture of a blanket; places are mm from the lower left corner of the blanket.

    The blanket is found in the picture by its darkest and lightest pixels alone: everything that is
    not white, between the letters beside it.
    """

    def __init__(self, data: bytes) -> None:
        self.image = Image.open(io.BytesIO(data)).convert("RGB")

    def find(self, width_mm: float, middle_row: int) -> None:
        """Finds the blanket's left and right edge on a row, and so the scale."""
        row = [self.image.getpixel((x, middle_row)) for x in range(self.image.width)]
        runs = _runs([level != (255, 255, 255) for level in row])
        self.left, right = max(runs, key=lambda run: run[1] - run[0])
        # The line round the blanket, 1.1 pixels at 800, lies half outside.
        self.scale = (right - self.left - 1.1 * self.image.width / 800) / width_mm
        column = self.left + (right - self.left) // 3
        levels = [self.image.getpixel((column, y)) for y in range(self.image.height)]
        self.top, self.foot = max(
            _runs([level != (255, 255, 255) for level in levels]), key=lambda run: run[1] - run[0]
        )

    def at(self, x: float, y: float) -> Pixel:
        """The colour at a place of the blanket."""
        place = int(self.left + x * self.scale), int(self.foot - y * self.scale)
        found = self.image.getpixel(place)
        assert isinstance(found, tuple)
        red, green, blue = found[:3]
        return int(red), int(green), int(blue)


def _runs(marked: list[bool]) -> list[tuple[int, int]]:
    """Start and end (exclusive) of each run of marked places."""
    runs = []
    start = None
    for i, mark in enumerate([*marked, False]):
        if mark and start is None:
            start = i
        elif not mark and start is not None:
            runs.append((start, i))
            start = None
    return runs


def text_boxes(sheet: Drawing, gap: float) -> list[tuple[str, Polygon]]:
    """The box of the ink of each text, with half a gap round it."""
    flat = (part for item in sheet.items for part in flatten(item))
    return [
        (
            text.string,
            LineString([p for path in text_paths(text) for p in path.points]).envelope.buffer(
                gap / 2
            ),
        )
        for text in (item.shape for item in flat)
        if isinstance(text, Text)
    ]


def painted(sheet: Drawing, *beginnings: str) -> list[Polygon]:
    """The painted shapes of a sheet whose keys begin so."""
    return [
        Polygon(item.shape.points)
        for item in sheet.items
        if item.paint is not None
        and item.key.startswith(beginnings)
        and isinstance(item.shape, Line)
    ]
