"""Prints in pictures: at true scale, and as their cloth really lies."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from pictures import Pixel, Pixels, made, pixels, sheets
from PIL import Image

from cutpaths.sheets.fabric_paint import cloths_of

INCH = 25.4
COLOURS = {
    "red": (200, 30, 30),
    "green": (30, 140, 60),
    "blue": (30, 60, 170),
    "gold": (230, 190, 40),
    "grey": (128, 128, 128),
}
SHADES = 12
WIDE = 16.5  # in, of the finished panel below, which is square
REPEAT = 1.5

PANEL = """
top = {{ layout = "panel", cut = {{ width = 12.5, height = 12.5 }}, fabric = "a" }}
border = {{ width = {{ A = 2, B = 2.5, C = 2.5, D = 2 }} }}
backing = {{ fabric = "b" }}
turn_of_cloth = "{turn}"
fabric = {{ a = {{}}, b = {{ swatch = {{ file = "b.png", width = 1.5 }} }} }}
"""
# What follows what along a line: across the head third of the print, and down the print.
ACROSS = {"red green", "green blue", "blue red"}
DOWN = {"gold grey", "grey red", "grey green", "grey blue", "red gold", "green gold", "blue gold"}


def _signs(path: Path) -> None:
    """A swatch without symmetry: in its head third red, green, blue; below it gold, then grey."""
    image = Image.new("RGB", (150, 150), COLOURS["gold"])
    for n, name in enumerate(("red", "green", "blue")):
        image.paste(COLOURS[name], (50 * n, 0, 50 * n + 50, 50))
    image.paste(COLOURS["grey"], (0, 100, 150, 150))
    image.save(path)


def _stripes(path: Path) -> None:
    """Upright stripes, half red and half gold."""
    image = Image.new("RGB", (100, 40), COLOURS["red"])
    image.paste(COLOURS["gold"], (50, 0, 100, 40))
    image.save(path)


@cache
def _panel(name: str, turn: str = "0") -> Pixels:
    """Front or back of the panel, its backing with signs."""
    kit = made(PANEL.format(turn=turn))
    with TemporaryDirectory() as folder:
        _signs(Path(folder) / "b.png")
        picture = pixels(kit, name, 1000, cloths_of(kit.project.fabrics, Path(folder)))
    picture.find(WIDE * INCH, 600)
    return picture


def _name(colour: Pixel) -> str:
    """Which of the swatches' colours it is; empty for a mixture of two, or a line."""
    for name, pure in COLOURS.items():
        if max(abs(a - b) for a, b in zip(colour, pure, strict=True)) <= SHADES:
            return name
    return ""


def _flat(picture: Pixels, x: float, y: float) -> str:
    """The colour about a place, inches; empty near the edge of two colours."""
    about = {
        _name(picture.at(x * INCH + dx, y * INCH + dy)) for dx in (-1, 0, 1) for dy in (-1, 0, 1)
    }
    return about.pop() if len(about) == 1 else ""


def _along(picture: Pixels, x: float, y: float, way: tuple[int, int], length: float) -> list[str]:
    """The colours along a line of the blanket, inches, each as often as it comes anew."""
    steps = [length * n / 150 for n in range(151)]
    seen = (_name(picture.at((x + way[0] * s) * INCH, (y + way[1] * s) * INCH)) for s in steps)
    kept = [name for name in seen if name]
    return kept[:1] + [b for a, b in pairwise(kept) if a != b]


def _changes(lines: list[list[str]]) -> set[str]:
    return {f"{a} {b}" for line in lines for a, b in pairwise(line)}


@pytest.mark.parametrize(
    ("name", "corner", "size", "upright"),
    [
        ("back", (6.0, 6.0), (3.0, 3.0), True),
        ("front", (0.2, 6.0), (1.7, 3.0), True),
        ("front", (14.1, 6.0), (2.2, 3.0), True),
        ("front", (6.0, 0.2), (3.0, 1.7), False),
        ("front", (6.0, 14.1), (3.0, 2.2), False),
    ],
    ids=["back", "left", "right", "foot", "head"],
)
def test_a_print_lies_upright_or_turned_but_never_mirrored(
    name: str, corner: tuple[float, float], size: tuple[float, float], upright: bool
) -> None:
    """The back is upright; folded round, the sides stay so, head and foot are upside down."""
    picture, sign = _panel(name), 1 if upright else -1
    start = corner if upright else (corner[0] + size[0], corner[1] + size[1])
    # From the print's own upper left corner, whichever way it lies.
    left, head = start[0], start[1] + size[1] if upright else start[1] - size[1]
    down = [
        _along(picture, left + sign * size[0] * n / 12, head, (0, -sign), size[1])
        for n in range(1, 12)
    ]
    rows = [
        _along(picture, left, head - sign * size[1] * n / 40, (sign, 0), size[0])
        for n in range(1, 40)
    ]
    across = [row for row in rows if set(row) <= {"red", "green", "blue"}]
    assert "gold grey" in _changes(down)
    assert _changes(down) <= DOWN
    assert _changes(across) == ACROSS


@pytest.mark.parametrize(("turn", "eaten"), [("0", 0.0), ("1/4", 0.125)])
def test_the_border_shows_what_lies_beyond_the_fold(turn: str, eaten: float) -> None:
    """At depth d from the edge the front shows the cloth that goes on behind it.

    That is the back, a whole number of repeats less d inside; the turn of cloth lies between.
    """
    front, back = _panel("front", turn), _panel("back", turn)
    compared = 0
    for depth in (0.35, 0.6, 0.85, 1.1, 1.35, 1.6):
        inside = 3 * REPEAT - depth - 2 * eaten
        for along in (2.9 + 0.37 * n for n in range(29)):
            for x, y, u, v in (
                (along, depth, along, inside),
                (along, WIDE - depth, along, WIDE - inside),
                (depth, along, inside, along),
                (WIDE - depth, along, WIDE - inside, along),
            ):
                # The back is turned over: what is at the left there is at the right here.
                seen = _flat(front, x, y)
                beyond = _flat(back, WIDE - u, v)
                if seen and beyond:
                    assert (seen, depth, along) == (beyond, depth, along)
                    compared += 1
    assert compared > 400


def test_a_print_is_true_to_scale(tmp_path: Path) -> None:
    """A stripe of 2 in comes again each 2 in of the blanket."""
    _stripes(tmp_path / "b.png")
    kit = made(PANEL.format(turn="0").replace("width = 1.5", "width = 2"))
    back = pixels(kit, "back", 1600, cloths_of(kit.project.fabrics, tmp_path))
    back.find(WIDE * INCH, 1000)
    # Between the two lines of stitching down the sides.
    row = [_name(back.at(x * 0.1, 8 * INCH)) for x in range(700, 3600)]
    golden = [name == "gold" for name in row]
    starts = [i for i, (before, here) in enumerate(pairwise(golden)) if here and not before]
    steps = [b - a for a, b in pairwise(starts)]
    assert len(steps) in (4, 5)
    assert sum(steps) / len(steps) * 0.1 == pytest.approx(2 * INCH, abs=0.2)


def test_a_print_lies_as_its_patch_is_turned(tmp_path: Path) -> None:
    """On a square on point, upright stripes run from lower right to upper left."""
    _stripes(tmp_path / "a.png")
    kit = made(
        'top = { layout = "on-point", patch = { finished = 8 }, columns = 1, rows = 1,'
        ' fabrics = ["a"], setting = "b" }\nborder = { width = 1 }\nbacking = { fabric = "b" }\n'
        'fabric = { a = { directional = true, swatch = { file = "a.png", width = 2 } }, b = {} }'
    )
    wide = 8 * 2**0.5 + 2
    picture = pixels(kit, "front", 1600, cloths_of(kit.project.fabrics, tmp_path))
    picture.find(wide * INCH, 900)
    middle = wide / 2 * INCH
    for out in range(-40, 41, 8):
        along = {
            _name(picture.at(middle + out - step, middle + out + step)) for step in range(-30, 31)
        }
        assert len(along - {""}) <= 1
    across = {_name(picture.at(middle + step, middle + step)) for step in range(-50, 51, 2)}
    assert {"red", "gold"} <= across


def test_patches_of_one_print_are_cut_from_different_places(tmp_path: Path) -> None:
    """Neighbours do not show the cloth as if it had never been cut; there are eight places."""
    _signs(tmp_path / "a.png")
    kit = made(
        'top = { layout = "squares", patch = 5, columns = 5, rows = 5 }\nborder = { width = 2 }\n'
        'fabric = { a = { swatch = { file = "a.png", width = 3 } } }'
    )
    front = sheets(kit, cloths_of(kit.project.fabrics, tmp_path))["front"]
    paints = [i.paint for i in front.items if i.key == "patch-1"]
    assert len(paints) == 25
    assert len(set(paints)) == 8
    assert all(a != b for a, b in pairwise(paints))
