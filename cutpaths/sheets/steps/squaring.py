"""The step that trims a top which came out crooked to the largest true rectangle; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import corner_name, letter
from cutpaths.geometry.polygons import along, directions, distance, edges, middle, right_of
from cutpaths.pieces.sewn import to_trim, true_shape
from cutpaths.project.measured import Remedy
from cutpaths.roles import Role
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import loupe
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import Room, whole

ROOM = Room(11.0, 0.0, 66.0, 76.0)
LOUPE, LOUPE_MM = (113.0, 40.0), 24.0
CLOSE_UP = 2.5  # how far round a corner a detail reaches, in what comes off there
LETTER_IN = 8.0  # how far inside a side its letter stands, on the sheet


def squaring(making: Making) -> Iterator[Step]:
    """The step, where the top was measured and is trimmed."""
    measured = making.kit.project.measured
    if measured is None or measured.remedy is not Remedy.TRIM_TOP:
        return
    ring, cut = true_shape(measured), to_trim(measured).ring
    picture = Picture(kit=making.kit, key="trim-top", shows="the top trimmed to a true rectangle")
    view = whole(ring, ROOM)
    spot, far = max(zip(ring, cut, strict=True), key=lambda ends: distance(*ends))
    near = loupe(picture, view, middle(spot, far), CLOSE_UP * distance(spot, far), LOUPE, LOUPE_MM)
    for each in (view, near):
        picture.layer(each, ring, Cloth.TOP_RIGHT)
        picture.line(each, cut, Role.TRIM, closed=True, meaning="cut")
    for i, ((start, end), way) in enumerate(zip(edges(cut), directions(cut), strict=True)):
        place = along(view.point(middle(start, end)), right_of(way), -LETTER_IN)
        picture.letter(letter(i), place)
    yield Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Trim the top square",
        words=(
            "The top came out crooked. Cut it to a true rectangle, along a ruler.",
            *_comes_off(making),
            "Close a rotary cutter when you put it down.",
        ),
        check=f"The top measures {making.numbers['top.width']} across and"
        f" {making.numbers['top.height']} down, and its diagonals are alike.",
        drawing=picture.drawing(),
    )


def _comes_off(making: Making) -> Iterator[str]:
    """What is cut off each side, at the corners where it starts and ends."""
    numbers = making.numbers
    for i in range(making.sides):
        side = letter(i)
        ends = [
            f"{text} at corner {name}"
            for name in (corner_name(i, making.sides), corner_name(i + 1, making.sides))
            if (text := numbers.get(f"measured.trim.{side.lower()}.{name.lower()}"))
        ]
        if ends:
            yield f"Off side {side} cut {' and '.join(ends)}."
