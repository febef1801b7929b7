"""Steps of the folded-over construction, from laying top on backing to the folded border; mm.

The backing lies wrong side up and the top right side up on it, as the front view shows them.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.blanket import Corner, CornerType
from cutpaths.geometry.marks import MarkKind, letter
from cutpaths.geometry.polygons import along, distance, edges, middle, sub, unit
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import folded_point, part_inside
from cutpaths.sheets.steps.finishing import finished, top_stitch
from cutpaths.sheets.steps.folded_marks import folds_marked, mark_backing, mark_top, size_words
from cutpaths.sheets.steps.folded_states import (
    corners_folded,
    flat_layers,
    middle_of_top,
    paint_layers,
    side_lines,
    sides_folded,
)
from cutpaths.sheets.steps.folding import Layer
from cutpaths.sheets.steps.ink import pin, scissors
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.marking import join_panels
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import loupe, panel_seams, side_letters
from cutpaths.sheets.steps.side_words import border_words
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import EVERYWHERE, Room, detail, whole
from cutpaths.values import replace

MAIN = Room(11.0, 0.0, 66.0, 74.0)
LOUPE, LOUPE_MM = (113.0, 40.0), 24.0
LEFT, RIGHT = Room(6.0, 0.0, 58.0, 58.0), Room(76.0, 0.0, 58.0, 58.0)


def folding_over(making: Making) -> Iterator[Step]:
    """Marking, laying, corners, both folds of the sides, stitching and the finished blanket."""
    if making.kit.panels is not None:
        yield join_panels(making)
    yield mark_top(making)
    yield mark_backing(making)
    yield _lay(making)
    if making.trimmed_before:
        yield _trimmed(making)
    else:
        yield _trim(making)
    yield _fold_corner(making)
    yield from _other_corners(making)
    yield _first_fold(making)
    yield _second_fold(making)
    yield _press(making)
    yield top_stitch(making)
    yield finished(making)


# --- the cloth, state by state


# --- steps


def _lay(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="lay-top", shows="the top on the backing, wrong sides together")
    view = whole(kit.blanket.backing, Room(24.0, 0.0, 92.0, 80.0))
    picture.layer(view, kit.blanket.backing, Cloth.BACKING_WRONG)
    panel_seams(picture, view, kit)
    paint_layers(picture, view, [Layer(kit.blanket.top, Cloth.TOP_RIGHT)], making)
    for i, mark in enumerate(making.top_marks(MarkKind.CENTER)):
        picture.signs(pin(view.point(mark.points[0]), view.way(making.out(i))))
    picture.entry(Entry.of_pin())
    side_letters(picture, view, making.uncut_backing)
    mark = making.top_marks(MarkKind.CENTER)[0]
    picture.name("center on center", view.point(mark.points[0]), (0.4, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="Lay the top on the backing",
        words=(
            "Lay the backing wrong side up and smooth it.",
            "Lay the top on it, right side up: wrong sides together.",
            "Its raw edges lie on the second folds, center on center: the pins show where.",
            "Pin both layers together all over, or baste them.",
        ),
        check="The backing stands out by the same width on sides of equal borders.",
        drawing=picture.drawing(),
    )


def _around(making: Making, i: int) -> tuple[Point, ...]:
    """Points about corner i that a close view shows."""
    corner = making.kit.blanket.corners[i]
    way = sub(corner.fold_point, corner.backing_point)
    inner = along(corner.fold_point, way, 1.1)
    ends = (along(corner.backing_point, sub(p, corner.backing_point), 1.3) for p in corner.miter)
    return (corner.backing_point, inner, *ends)


def _trim(making: Making) -> Step:
    kit = making.kit
    corner = kit.blanket.corners[0]
    picture = Picture(kit=kit, key="trim-tip", shows=f"the tip of corner {corner.at} cut off")
    view = detail(_around(making, 0), Room(20.0, 0.0, 66.0, 62.0), pad=0.4)
    paint_layers(picture, view, flat_layers(making), making)
    picture.line(view, corner.miter, Role.FOLD, meaning="fold")
    picture.line(view, corner.trim, Role.TRIM, meaning="cut")
    out = unit(sub(corner.backing_point, corner.fold_point))
    step = 5.0 / view.scale
    ring = tuple(along(p, out, step) for p in corner.waste)
    free = replace(view, window=EVERYWHERE)
    picture.layer(free, ring, Cloth.BACKING_WRONG)
    start, tip = making.toward(*view.points((corner.trim[0], corner.trim[1])))
    way = unit(sub(tip, start))
    picture.signs(scissors(along(start, way, 3.0), way))
    picture.name("tip, a triangle", free.point(middle(ring[0], ring[1])), (-0.7, -0.4))
    picture.name("corner fold", view.point(middle(corner.fold_point, corner.miter[1])), (1.0, 0.0))
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Trim the tips",
        words=(
            "Cut the tip off each corner of the backing, along the trim line.",
            *_trim_words(making),
            "Close a rotary cutter when you put it down.",
        ),
        check="The tip is a triangle, and its long edge runs along the corner fold.",
        drawing=picture.drawing(),
    )


def _trimmed(making: Making) -> Step:
    """The step in place of trimming where the tips are cut off already."""
    kit = making.kit
    picture = Picture(kit=kit, key="check-tips", shows="a corner that was trimmed beforehand")
    view = detail(_around(making, 0), Room(20.0, 0.0, 66.0, 62.0), pad=0.4)
    paint_layers(picture, view, flat_layers(making), making)
    folds_marked(picture, view, making)
    corner = kit.blanket.corners[0]
    picture.name("trimmed edge", view.point(middle(corner.trim[0], corner.trim[1])), (-0.7, -0.7))
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Check the tips",
        words=("The tips of the backing were cut off beforehand. Nothing more is trimmed.",),
        check="The trimmed edge runs along the corner fold.",
        drawing=picture.drawing(),
    )


def _trim_words(making: Making) -> Iterator[str]:
    """Where the trim line of each kind of corner ends."""
    cards = making.kit.templates
    for n, card in enumerate(cards, 1):
        where = "It" if len(cards) == 1 else f"At corner {', '.join(card.corners)} it"
        ends = [
            f"{text} from the corner on side {side}"
            if side
            else f"{text} from the corner along either raw edge"
            for side, text in making.numbers.at_corner(n, "trim-line")
        ]
        yield f"{where} ends {' and '.join(ends)}."


def _corner_seen(corner: Corner) -> str:
    """What must be seen of a folded corner."""
    touches = "The fold touches the corner of the top."
    if corner.kind is CornerType.RIGHT_EQUAL:
        return f"{touches} It stands at 45 degrees to both edges."
    return f"{touches} It lies on the marked line, which is not at 45 degrees."


def _fold_corner(making: Making, number: int = 1, i: int = 0) -> Step:
    """Before and after: the tip folded over the top's corner."""
    kit, numbers = making.kit, making.numbers
    corner = kit.blanket.corners[i]
    key = "fold-corner" if number == 1 else f"fold-corner-{number}"
    picture = Picture(kit=kit, key=key, shows=f"corner {corner.at} folded over the top's corner")
    before, after = (detail(_around(making, i), room, pad=0.4) for room in (LEFT, RIGHT))
    paint_layers(picture, before, flat_layers(making), making)
    picture.line(before, corner.miter, Role.FOLD, meaning="fold")
    paint_layers(picture, after, corners_folded(making, [i]), making)
    start = middle(*corner.trim[:: len(corner.trim) - 1])
    end = folded_point(start, corner.miter)
    out = unit(sub(before.point(start), before.point(end)))
    picture.move_arrow(
        along(before.point(start), out, 4.0), along(before.point(end), out, -6.0), 3.0, 1.3
    )
    picture.name("corner of the top", before.point(corner.fold_point), (-0.6, 0.8))
    picture.name("right side of the backing", after.point(end), (0.3, 1.0))
    low = min(before.window[0][1], after.window[0][1]) - 6.4
    for view, text in ((before, "before"), (after, "after")):
        picture.text(text, ((view.window[0][0] + view.window[1][0]) / 2, low))
    ends = [
        f"{text} along side {side}" if side else f"{text} along either raw edge"
        for side, text in numbers.at_corner(number, "corner-fold")
    ]
    corners = kit.templates[number - 1].corners
    return Step(
        key=key,
        stage=Stage.MITER,
        title="Fold the corners in" if number == 1 else f"Fold corner {', '.join(corners)}",
        words=(
            "Fold the corner of the backing over the corner of the top, along the corner fold.",
            f"The fold ends {' and '.join(ends)}.",
            *(
                ()
                if corner.kind is CornerType.RIGHT_EQUAL
                else ("The borders differ: follow the marked line.",)
            ),
            "Press the fold and pin it.",
        ),
        check=_corner_seen(corner),
        drawing=picture.drawing(),
    )


def _other_corners(making: Making) -> Iterator[Step]:
    """The corners of another kind."""
    names = [corner.at for corner in making.kit.blanket.corners]
    for n, card in enumerate(making.kit.templates[1:], 2):
        yield _fold_corner(making, n, names.index(card.corners[0]))


def _strip(making: Making, side: int, key: str, folds: int, shows: str) -> Picture:
    """Before and after of a fold of one side, near the corner where it starts."""
    kit = making.kit
    picture = Picture(kit=kit, key=key, shows=shows)
    layers = corners_folded(making)
    done = sides_folded(making, layers, [side], folds)
    start = sides_folded(making, layers, [side], folds - 1)
    before, after = (detail(_around(making, side), room, pad=0.4) for room in (LEFT, RIGHT))
    paint_layers(picture, before, start, making)
    paint_layers(picture, after, done, making)
    line = part_inside(*side_lines(making, side)[folds - 1], start[0].ring)
    if line is not None:
        picture.line(before, line, Role.FOLD, meaning="fold")
    corner = kit.blanket.corners[side]
    out = making.out(side)
    border = float(kit.project.borders[side])
    on = unit(sub(edges(kit.blanket.top)[side][1], edges(kit.blanket.top)[side][0]))
    spot = along(corner.fold_point, on, distance(corner.fold_point, corner.backing_point) * 0.45)
    away = border * (2 - folds)
    edge = along(spot, out, away + border * 0.9)
    over = along(spot, out, away - border * 0.9)
    picture.move_arrow(before.point(edge), before.point(over), -3.0)
    low = min(before.window[0][1], after.window[0][1]) - 6.4
    for view, text in ((before, "before"), (after, "after")):
        picture.text(text, ((view.window[0][0] + view.window[1][0]) / 2, low))
    name = "edge of the top" if folds == 1 else "border on the top"
    picture.name(
        name, after.point(along(spot, out, 0.0 if folds == 1 else -border / 2)), (0.3, 1.0)
    )
    return picture


def _first_fold(making: Making) -> Step:
    side = making.kit.order[0]
    picture = _strip(making, side, "first-fold", 1, "a side folded once")
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Fold the sides once",
        words=(
            f"Fold side {letter(side)} of the backing over until its raw edge lies on the raw edge"
            " of the top.",
            f"Each fold is {border_words(making)}.",
            "Press it. Do all sides, in the order"
            f" {' '.join(letter(i) for i in making.kit.order)}.",
        ),
        check="The raw edge of the backing lies on the raw edge of the top, all along.",
        drawing=picture.drawing(),
    )


def _second_fold(making: Making) -> Step:
    side = making.kit.order[0]
    picture = _strip(making, side, "second-fold", 2, "a side folded twice")
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Fold the sides again",
        words=(
            "Fold the side once more, along the raw edge of the top, onto the top.",
            "The raw edges are inside now. Pin the border.",
            "At the corner the two borders meet in a miter.",
        ),
        check="The borders meet edge to edge at the corner, and no raw edge shows.",
        drawing=picture.drawing(),
    )


def _press(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="press", shows="all sides folded and pressed")
    view = whole(kit.blanket.finished, Room(11.0, 0.0, 66.0, 74.0))
    border = float(max(kit.project.borders))
    inward = unit(sub(middle_of_top(making), kit.blanket.top[0]))
    near = loupe(
        picture,
        view,
        along(kit.blanket.top[0], inward, border * 1.2),
        2.1 * border,
        LOUPE,
        LOUPE_MM,
    )
    layers = sides_folded(making, corners_folded(making), kit.order, 2)
    for each in (view, near):
        paint_layers(picture, each, layers, making)
    side_letters(picture, view, kit.blanket.finished)
    corner = kit.blanket.top[0]
    spot = along(corner, unit(sub(kit.blanket.top[1], corner)), border * 2.0)
    picture.signs(iron(near.point(along(spot, making.out(0), -border / 2)), 11.0))
    picture.name("miter", near.point(along(corner, inward, border * 0.7)), (-0.3, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Press the border",
        words=(
            f"Press the border: {border_words(making)}.",
            "Pin it all round, the miters first.",
            "Keep the iron away from children, and press only as hot as the cloth allows.",
        ),
        check=f"The blanket measures {size_words(making, 'finished')}.",
        drawing=picture.drawing(),
    )
