"""Steps of one mitered corner of the turned construction, in words that follow its type; mm.

A corner is seen on the backing's wrong side, as the front view shows it. The half on the side
before it is folded under, along the crease, and comes to lie right side up below the other half.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.figures.corners import corner_check
from cutpaths.geometry.blanket import CornerType
from cutpaths.geometry.polygons import (
    along,
    box,
    distance,
    dot,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces.corners import CornerTemplate
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.steps.corner_fold import (
    LEFT,
    LEFT_HALF,
    RIGHT,
    RIGHT_HALF,
    Folding,
    angle_at_fold,
    captions_below,
    flat_corner,
    fold_arrow,
    folded_corner,
    sentence,
    side_of_line,
)
from cutpaths.sheets.steps.cutting import Segment, long_line
from cutpaths.sheets.steps.ink import pin
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.lines import CUT, STITCHES
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import tacks
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tools import chip_of_foot, foot
from cutpaths.sheets.steps.trimming import press_aside, trim_corner, trim_words
from cutpaths.sheets.steps.view import Room, View, detail

PAD = 1.8  # round a folded corner, so that its lower half is seen to peep out
FOOT_AT = 0.55  # how far the miter is sewn where the foot stands
MIDDLE = Room(30.0, 0.0, 80.0, 70.0)


def mitering(making: Making) -> Iterator[Step]:
    """All steps of the first kind of corner, then one for each other kind."""
    found = [_folding(making, n, card) for n, card in enumerate(making.kit.templates, 1)]
    first = found[0]
    yield _fold(first)
    yield _line(first)
    yield _stitch(first)
    if first.corner.waste and not making.trimmed_before:
        yield trim_corner(first)
    else:
        yield press_aside(first)
    for other in found[1:]:
        yield _other(other)


def _folding(making: Making, number: int, card: CornerTemplate) -> Folding:
    names = [corner.at for corner in making.kit.blanket.corners]
    index = names.index(card.corners[0])
    return Folding(making, making.kit.blanket.corners[index], number, index)


def _names(f: Folding) -> str:
    """The corners that are made like this one."""
    corners = f.making.kit.templates[f.number - 1].corners
    return f"corner {corners[0]}" if len(corners) == 1 else f"corners {', '.join(corners)}"


def _its(f: Folding) -> str:
    return "its" if len(f.making.kit.templates[f.number - 1].corners) == 1 else "their"


def _fold(f: Folding) -> Step:
    """Before: the corner flat, an arrow from half to half; after: folded, dot on dot."""
    making = f.making
    picture = Picture(kit=making.kit, key="fold-corner", shows=f"corner {f.corner.at} folded")
    flat, half = detail(f.around(), LEFT), detail(f.around_half(), RIGHT, pad=PAD)
    flat_corner(picture, flat, f)
    folded_corner(picture, half, f, making.kit.blanket.backing)
    start, end = fold_arrow(picture, flat, f)
    picture.signs(pin(half.point(f.dot), (0.5, -0.87)))
    picture.dot(half, f.dot)
    words, on_raw = _edges_name(f)
    picture.entry(Entry.of_pin())
    picture.name(words, half.point(on_raw), (-0.3, -1.0), within=RIGHT_HALF)
    _name_dots(picture, f, (start, end), half.point(f.dot))
    fold_at = middle(f.corner.fold_point, long_line(*f.crease, f.reach * 0.5)[0])
    picture.name("fold", half.point(fold_at), (-1.0, 0.3), within=RIGHT_HALF)
    captions_below(picture, (flat, half), ("before", "after"))
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Fold the corner" if len(making.kit.templates) == 1 else f"Fold corner {f.corner.at}",
        words=(
            *_alike_words(f),
            "Turn the work over, the backing's wrong side up. Keep the top out of the way.",
            "Fold the loose corner in half, right sides together: the half of side"
            f" {f.corner.at[0]} goes below.",
            *_match_words(f),
            "Pin through both dots.",
        ),
        check=_match_check(f),
        drawing=picture.drawing(),
    )


def _name_dots(picture: Picture, f: Folding, flat: Segment, folded: Point) -> None:
    """Both dots of the flat corner, and the place where they meet once it is folded."""
    before, after = tuple(f.corner.at)
    picture.name(f"dot of side {before}", flat[0], (0.8, 0.5), within=LEFT_HALF)
    picture.name(f"dot of side {after}", flat[1], (0.3, 1.0), within=LEFT_HALF)
    picture.name("both dots", folded, (0.5, 0.8), within=RIGHT_HALF)


def _caption(picture: Picture, f: Folding, view: View) -> None:
    """How many corners are made like the one in the picture, below it."""
    corners = f.making.kit.templates[f.number - 1].corners
    left, foot, right, _ = box(view.window)
    every = len(corners) == f.making.sides
    text = f.making.all_corners if every else _names(f)
    picture.caption(text, ((left + right) / 2, foot - 7.0))


def _alike_words(f: Folding) -> tuple[str, ...]:
    """Which other corners are made like the one in the picture."""
    first, *rest = f.making.kit.templates[f.number - 1].corners
    if not rest:
        return (f"This is corner {first}. The others follow.",)
    others = f"corner {rest[0]}" if len(rest) == 1 else f"corners {', '.join(rest)}"
    return (f"The picture shows corner {first}. Do {others} in the same way.",)


def _match_words(f: Folding) -> tuple[str, ...]:
    """What must lie on what, by the type of the corner."""
    if f.corner.kind is CornerType.RIGHT_EQUAL:
        return ("Dot lies on dot, and the raw edges match.",)
    if f.unequal:
        return (
            "Dot lies on dot. Crease along the marked fold.",
            "The borders differ, so the raw edges must not match.",
        )
    return ("Dot lies on dot. Crease along the marked fold.",)


def _edges_name(f: Folding) -> tuple[str, Point]:
    """What to see of the raw edges, and where."""
    if f.making.trimmed_before and f.corner.trim:
        return "trimmed edges match", middle(*side_of_line(f))
    raw = f.corner.backing_point, f.making.corners_of(f.index)[1].backing_point
    on_raw = along(raw[0], unit(sub(raw[1], raw[0])), 0.3 * distance(raw[0], f.dot))
    return "raw edges apart" if f.unequal else "raw edges match", on_raw


def _match_check(f: Folding) -> str:
    pushed = "A pin through one dot comes out at the other."
    if f.making.trimmed_before and f.corner.trim:
        return f"{pushed} The trimmed edges lie on each other."
    if f.unequal:
        return f"{pushed} The raw edges lie apart."
    return f"{pushed} The raw edges lie on each other."


def _line(f: Folding) -> Step:
    numbers = f.making.numbers
    picture = Picture(kit=f.making.kit, key="draw-miter", shows="the miter line on a folded corner")
    view = detail(f.around_half(), MIDDLE, pad=PAD)
    folded_corner(picture, view, f, f.making.kit.blanket.backing)
    picture.miter(view, f.dot, f.corner.fold_point)
    for point in (f.dot, f.corner.fold_point):
        picture.dot(view, point)
    angle_at_fold(picture, view, f)
    picture.name("dot", view.point(f.dot), (0.7, 0.7))
    picture.name("fold point, on the fold", view.point(f.corner.fold_point), (-1.0, 0.0))
    length = numbers[f"corner.{f.number}.dot-to-fold"]
    picture.name(length, view.point(middle(f.dot, f.corner.fold_point)), (0.3, -1.0))
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Check the miter line",
        words=(
            "The miter line is marked already. Draw it again where it is faint.",
            f"It runs from the dot to the fold, {length} long, and meets the fold at"
            f" {numbers[f'corner.{f.number}.miter']}.",
            *_nearest_words(length),
        ),
        check=_line_check(f) or f"The line runs from the dot to the marked fold, {length}.",
        drawing=picture.drawing(),
    )


def _nearest_words(length: str) -> tuple[str, ...]:
    """What the sign before a length means, where it has one."""
    return ("The sign ~ stands before the nearest mark of the ruler.",) if "~" in length else ()


def _line_check(f: Folding) -> str:
    """What of the usual check speaks of the miter line; empty where nothing does."""
    clauses = corner_check(f.corner, folded=False).split("; ")
    return next((sentence(c) for c in clauses if "miter line" in c), "")


def _stitch(f: Folding) -> Step:
    picture = Picture(kit=f.making.kit, key="stitch-miter", shows="the miter stitched")
    view = detail(f.around_half(), MIDDLE, pad=PAD)
    folded_corner(picture, view, f, f.making.kit.blanket.backing)
    ends = f.dot, f.corner.fold_point
    picture.line(view, ends, Role.STITCH, meaning=STITCHES)
    tacks(picture, view, ends)
    for point in ends:
        picture.dot(view, point)
    start, end = view.points(ends)
    way = unit(sub(end, start))
    side = right_of(way)
    outward = sub(view.point(f.corner.fold_end), end)
    side = side if dot(side, outward) < 0 else (-side[0], -side[1])
    low = along(start, side, 5.0)
    picture.move_arrow(low, along(low, way, distance(start, end) * 0.4))
    picture.signs(foot(along(start, way, distance(start, end) * FOOT_AT), way))
    picture.entry(Entry("machine foot", chip_of_foot()))
    _caption(picture, f, view)
    picture.name("start at the dot", start, (0.6, 0.8))
    picture.name("stop at the fold", end, (-1.0, 0.0))
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Stitch the miter",
        words=(
            "Sew on the line from the dot to the fold.",
            "Back-tack at the dot and at the fold.",
            "Sew through the two layers of the backing only. Do not catch the top.",
        ),
        check="The stitches start where the side seams end and stop at the fold.",
        drawing=picture.drawing(),
    )


def _other(f: Folding) -> Step:
    """One of the other kinds of corner, in one step."""
    making, numbers = f.making, f.making.numbers
    key = f"corner-{f.number}"
    picture = Picture(kit=making.kit, key=key, shows=f"corner {f.corner.at} folded and stitched")
    flat, half = detail(f.around(), LEFT), detail(f.around_half(), RIGHT, pad=PAD)
    flat_corner(picture, flat, f)
    folded_corner(picture, half, f, making.kit.blanket.backing)
    picture.line(half, (f.dot, f.corner.fold_point), Role.STITCH, meaning=STITCHES)
    cuts = bool(f.corner.waste) and not making.trimmed_before
    if cuts:
        picture.line(half, side_of_line(f), Role.TRIM, meaning=CUT)
    for point in (f.dot, f.corner.fold_point):
        picture.dot(half, point)
    angle_at_fold(picture, half, f)
    start, end = fold_arrow(picture, flat, f)
    _name_dots(picture, f, (start, end), half.point(f.dot))
    captions_below(picture, (flat, half), ("before", "folded"))
    length = numbers[f"corner.{f.number}.dot-to-fold"]
    trims = numbers.at_corner(f.number, "trim-line") if cuts else ()
    return Step(
        key=key,
        stage=Stage.MITER,
        title=f"Miter {_names(f)}",
        words=(
            f"Fold {_names(f)} in the same way, at {_its(f)} own marks.",
            *_match_words(f),
            f"Stitch from the dot to the fold, {length}.",
            *(trim_words(side, text) for side, text in trims),
        ),
        check=sentence(corner_check(f.corner, folded=False).replace("; ", ". ")).replace(
            ". the", ". The"
        ),
        drawing=picture.drawing(),
    )
