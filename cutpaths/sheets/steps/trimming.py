"""Steps after a miter is stitched: its tip is trimmed off, or its allowance pressed; mm."""

from __future__ import annotations

from cutpaths.figures.corners import corner_check
from cutpaths.geometry.polygons import (
    along,
    distance,
    dot,
    middle,
    sub,
    unit,
)
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.corner_fold import (
    BEYOND,
    Folding,
    folded_corner,
    sentence,
    side_of_line,
)
from cutpaths.sheets.steps.ink import scissors
from cutpaths.sheets.steps.lines import CUT, FOLD, STITCHES
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import EVERYWHERE, Room, View, detail

LEFT, RIGHT = Room(5.0, 0.0, 60.0, 62.0), Room(76.0, 0.0, 60.0, 62.0)
MEASURED_AT = 0.7  # of the cut, from the fold
MIDDLE = Room(30.0, 0.0, 80.0, 70.0)


def trim_corner(f: Folding) -> Step:
    """Left the folded corner and its tip cut off; right the waste, opened."""
    making, corner = f.making, f.corner
    numbers = making.numbers
    picture = Picture(kit=making.kit, key="trim-corner", shows="the tip trimmed off a corner")
    away = unit(sub(corner.fold_end, corner.fold_point))
    off = shift(*(v * f.reach * 0.25 for v in away))
    waste = f.under(corner.waste), f.still(corner.waste)
    apart = [off.point(p) for ring in waste for p in ring]
    view = detail((*kept(f), *apart), LEFT, pad=0.3)
    folded_corner(picture, view, f, making.trimmed_backing)
    ends = f.dot, corner.fold_point
    picture.line(view, ends, Role.STITCH, meaning=STITCHES)
    for ring, cloth in zip(waste, (Cloth.BACKING_RIGHT, Cloth.BACKING_WRONG), strict=True):
        if len(ring) > 2:
            picture.layer(view, off.ring(ring), cloth)
    between = shift(*(v * f.reach * 0.125 for v in away))
    cut = [between.point(p) for p in side_of_line(f)]
    picture.line(view, cut, Role.TRIM, meaning=CUT)
    picture.dot(view, f.dot)
    start, tip = making.toward(*view.points(cut))
    picture.signs(scissors(along(start, unit(sub(tip, start)), 1.0), unit(sub(tip, start))))
    opened = opened_waste(picture, f, view.scale)
    picture.name("the seam stays", view.point(middle(*ends)), (0.5, 1.0))
    _left_outside(picture, view, f)
    corners = making.kit.templates[f.number - 1].corners
    if len(corners) == making.sides:
        foot = view.window[0][1]
        picture.caption(making.all_corners, (LEFT.left + LEFT.width / 4, foot - 7.0))
    picture.caption(waste_name(f), (RIGHT.left + RIGHT.width / 2, opened))
    names = numbers.at_corner(f.number, "trim-line")
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Trim the corner",
        words=(
            f"Cut on the trim line, along the stitches and {numbers['miter.trim']} outside them.",
            *(trim_words(side, text) for side, text in names),
            "Cut through the two layers of the backing only. Keep the seam and the top clear of the"
            " blades.",
        ),
        check=waste_check(f),
        drawing=picture.drawing(),
    )


def _left_outside(picture: Picture, view: View, f: Folding) -> None:
    """How much cloth stays outside the stitches, square to them."""
    start, end = side_of_line(f)
    seam = view.points((f.dot, f.corner.fold_point))
    place = view.point(along(start, unit(sub(end, start)), distance(start, end) * MEASURED_AT))
    way = unit(sub(seam[1], seam[0]))
    foot = along(seam[0], way, dot(sub(place, seam[0]), way))
    picture.arrow_both(foot, place)
    picture.name(f.making.numbers["miter.trim"], middle(foot, place), (-0.3, 1.0))


def trim_words(side: str, text: str) -> str:
    """Where the trim line of a side ends."""
    where = f"On side {side} the" if side else "The"
    return f"{where} trim line ends {text} from the backing's corner, along the raw edge."


def waste_check(f: Folding) -> str:
    """What of the usual check speaks of the waste."""
    clauses = corner_check(f.corner, folded=False).split("; ")
    return sentence(next(c for c in clauses if "waste" in c))


def waste_name(f: Folding) -> str:
    """The shape of the waste in a few words."""
    return "waste, opened: a triangle" if len(f.corner.waste) == 3 else "waste, opened: four sides"


def opened_waste(picture: Picture, f: Folding, scale: float) -> float:
    """The waste opened flat at the right, at the same scale; returns the height below it."""
    ring = f.corner.waste
    low_x, low_y = min(p[0] for p in ring), min(p[1] for p in ring)
    wide = (max(p[0] for p in ring) - low_x) * scale
    at = RIGHT.left + (RIGHT.width - wide) / 2, 9.0
    view = View(turn=f.making.front_view, low=(low_x, low_y), at=at, scale=scale, window=EVERYWHERE)
    picture.layer(view, ring, Cloth.BACKING_WRONG)
    crease = f.corner.fold_end, side_of_line(f)[0]
    picture.line(view, crease, Role.FOLD, meaning=FOLD)
    return at[1] - 6.0


def kept(f: Folding) -> tuple[Point, ...]:
    """Points of the folded corner that stay when its tip is cut off."""
    on = unit(sub(f.making.corners_of(f.index)[1].miter[0], f.dot))
    more = f.reach * BEYOND
    inner = along(f.corner.fold_point, unit(sub(f.corner.fold_point, f.corner.fold_end)), more)
    return (inner, along(f.dot, on, more), side_of_line(f)[1])


def press_aside(f: Folding) -> Step:
    """Where nothing is cut any more: the allowance is checked, or pressed to one side."""
    making = f.making
    picture = Picture(kit=making.kit, key="press-miter", shows="the miter's allowance")
    view = detail(f.around_half(), MIDDLE, pad=1.8)
    folded_corner(picture, view, f, making.kit.blanket.backing)
    ends = f.dot, f.corner.fold_point
    picture.line(view, ends, Role.STITCH, meaning=STITCHES)
    picture.dot(view, f.dot)
    flat = not f.corner.waste
    raw = middle(f.corner.fold_end, f.dot) if flat else middle(*side_of_line(f))
    right, low = view.window[1]
    picture.signs(iron((right + 12.0, low + 12.0)))
    picture.name("allowance", view.point(middle(raw, middle(*ends))), (-0.7, -0.7))
    words = (
        ("Nothing is trimmed at this corner.", "Press the allowance of the miter to one side.")
        if flat
        else (
            "The corners of the backing were cut off beforehand. Nothing more is trimmed.",
            "Press the allowance of the miter to one side or open.",
        )
    )
    check = corner_check(f.corner, folded=False).split("; ")[-1] if flat else ""
    return Step(
        key=picture.key,
        stage=Stage.MITER,
        title="Press the miter",
        words=words,
        check=sentence(check) if check else "The allowance is even along the whole seam.",
        drawing=picture.drawing(),
    )
