"""Steps that mark the top and the backing of the folded-over construction; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import MarkKind, letter
from cutpaths.geometry.polygons import along, distance, middle, sub, unit
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.steps.lines import CENTER
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import loupe, panel_seams, side_letters, top_cloth
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.ticks import tick
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import MIRRORED, Room, View, whole

MAIN = Room(11.0, 0.0, 66.0, 74.0)
LOUPE = (113.0, 40.0)


def mark_top(making: Making) -> Step:
    """The centers of the top, wrong side up: as the figures tell how it lies."""
    kit = making.kit
    picture = Picture(kit=kit, key="mark-top", shows="the centers of the top, wrong side up")
    view = whole(kit.blanket.top, Room(24.0, 0.0, 92.0, 74.0), MIRRORED)
    top_cloth(picture, view, kit, Cloth.TOP_WRONG, making.front_view)
    outward = 3.0 / view.scale
    for mark in making.top_marks(MarkKind.CENTER):
        out = making.out("ABCDEFGHIJKLMNOPQRSTUVWXYZ".index(mark.at))
        at = mark.points[0]
        tick(picture, view, (along(at, out, -outward / 2), at), CENTER)
    side_letters(picture, view, kit.blanket.top)
    first = making.top_marks(MarkKind.CENTER)[0]
    picture.name("center of the raw edge", view.point(first.points[0]), (0.4, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the top",
        words=(
            "Press the top flat and lay it wrong side up. It is now the mirror image of the front,"
            " and so are its letters.",
            "Mark the center of each raw edge, inside the width that the border will hide.",
            "Put a pin through each center mark, so that it shows on the right side.",
        ),
        check=f"The top measures {size_words(making, 'top')}, raw edge to raw edge.",
        drawing=picture.drawing(),
    )


def size_words(making: Making, what: str) -> str:
    """Width and height of a part, as the figures have them."""
    numbers = making.numbers
    return f"{numbers[f'{what}.width']} across and {numbers[f'{what}.height']} down"


MARKED = (
    (MarkKind.SECOND_FOLD, Role.FOLD, "fold"),
    (MarkKind.FIRST_FOLD, Role.FOLD, "fold"),
    (MarkKind.CORNER_FOLD, Role.FOLD, "fold"),
    (MarkKind.TIP_TRIM, Role.TRIM, "trim line"),
)


def folds_marked(picture: Picture, view: View, making: Making) -> None:
    """The fold and trim lines that are marked on the backing."""
    for kind, role, meaning in MARKED:
        for mark in making.backing_marks(kind):
            picture.line(view, mark.points, role, meaning=meaning)


def corner_reach(making: Making, i: int) -> tuple[Point, float]:
    """Middle and radius of what a detail shows of a corner."""
    corner = making.kit.blanket.corners[i]
    spot = middle(corner.backing_point, corner.fold_point)
    reach = max(distance(spot, p) for p in (*corner.miter, corner.fold_point))
    return middle(spot, corner.fold_point), reach * 1.1


def mark_backing(making: Making) -> Step:
    """The folds and trims of the backing, wrong side up."""
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="mark-backing", shows="the folds of the backing, wrong side up")
    view = whole(kit.blanket.backing, MAIN)
    near = loupe(picture, view, *corner_reach(making, 0), LOUPE, 25.0)
    for each in (view, near):
        picture.layer(each, kit.blanket.backing, Cloth.BACKING_WRONG)
        panel_seams(picture, each, kit)
        folds_marked(picture, each, making)
    for mark in making.backing_marks(MarkKind.CENTER):
        tick(picture, view, mark.points, CENTER)
    side_letters(picture, view, making.uncut_backing)
    corner = kit.blanket.corners[0]
    near_end = along(corner.fold_point, unit(sub(corner.miter[1], corner.miter[0])), 0.0)
    picture.name("corner of the top", near.point(near_end), (0.8, 0.8))
    picture.name("corner fold", near.point(middle(corner.fold_point, corner.miter[1])), (1.0, 0.2))
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the backing",
        words=(
            f"Lay the backing wrong side up. It is cut {size_words(making, 'backing')}.",
            *fold_words(making),
            *corner_words(making),
            *trim_words(making),
            "Mark the center of each second fold.",
        ),
        check="Inside the second folds the top fits exactly:"
        f" {numbers['top.width']} by {numbers['top.height']}.",
        drawing=picture.drawing(),
    )


def fold_words(making: Making) -> Iterator[str]:
    """Where the folds of each border lie."""
    for key, first in making.numbers.texts.items():
        if key.startswith("first-fold"):
            second = making.numbers[key.replace("first-fold", "second-fold")]
            side = key.removeprefix("first-fold").removeprefix(".").upper()
            alike = [
                letter(i)
                for i, border in enumerate(making.kit.project.borders)
                if side and border == making.kit.project.borders[ord(side) - ord("A")]
            ]
            where = (
                f"On side{'s' * (len(alike) > 1)} {' and '.join(alike)} mark" if side else "Mark"
            )
            yield f"{where} the first fold {first} and the second {second} in from the raw edge."


def corner_words(making: Making) -> Iterator[str]:
    """Where the corner folds end."""
    for where, ends in _at_corners(making, "corner-fold"):
        yield f"At {where} draw the corner fold: {ends}."


def trim_words(making: Making) -> Iterator[str]:
    """Where the trim lines end, where tips are trimmed later."""
    if making.trimmed_before:
        return
    for where, ends in _at_corners(making, "trim-line"):
        yield f"At {where} draw the trim line: {ends}."
    yield "Measure corner folds and trim lines from the backing's corner."


def _at_corners(making: Making, name: str) -> Iterator[tuple[str, str]]:
    """Which corners, and where their lines of a name end; none where there is no such line."""
    numbers, cards = making.numbers, making.kit.templates
    for n, card in enumerate(cards, 1):
        where = "each corner" if len(cards) == 1 else f"corner {', '.join(card.corners)}"
        ends = [
            f"{text} along side {side}" if side else f"{text} along either raw edge"
            for side, text in numbers.at_corner(n, name)
        ]
        if ends:
            yield where, " and ".join(ends)
