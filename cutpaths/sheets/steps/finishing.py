"""Steps from turning the work to the finished blanket; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import (
    along,
    between,
    box,
    directions,
    distance,
    edges,
    middle,
    offset,
    right_of,
    sub,
    unit,
)
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.picture import top_stitching
from cutpaths.sheets.seen import edge, inner_edge
from cutpaths.sheets.steps.corner_fold import LEFT_HALF, RIGHT_HALF
from cutpaths.sheets.steps.ink import GAP, pin, stroke
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import LETTER_DISC, Picture
from cutpaths.sheets.steps.scenes import (
    front_side,
    inside_out,
    loupe,
    opening_ends,
    side_letters,
)
from cutpaths.sheets.steps.side_words import border_words
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tools import chip_of_needle, hand_needle, iron
from cutpaths.sheets.steps.view import MIRRORED, Room, View, detail, whole

LEFT, RIGHT = Room(8.0, 0.0, 54.0, 66.0), Room(78.0, 0.0, 54.0, 66.0)
MAIN = Room(11.0, 0.0, 66.0, 76.0)
CENTERED = Room(22.0, 0.0, 96.0, 84.0)
ASIDE = 5.0  # how far beside the miter the arrow to its corner runs, on the sheet
IRON_MM = 11.0
SIZE_OUT = 12.5  # how far outside the blanket its sizes stand
START_AT = 0.35  # where on a side the top stitching starts
LOUPE, LOUPE_MM = (113.0, 40.0), 24.0


def finishing(making: Making) -> Iterator[Step]:
    """Turning, corners, pressing, closing, top stitching, and the finished blanket."""
    if making.kit.opening is not None:
        yield _turn(making)
    yield _corner(making)
    yield _press(making)
    if making.kit.opening is not None:
        yield _close(making)
    yield top_stitch(making)
    yield finished(making)


def _turn(making: Making) -> Step:
    """Before: inside out, the opening marked; after: right side out."""
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="turn", shows="the work turned right side out")
    before = whole(kit.blanket.finished, LEFT, MIRRORED)
    after = whole(kit.blanket.finished, RIGHT)
    inside_out(picture, before, making, ears=False, mitered=True)
    front_side(picture, after, kit)
    _through(picture, before, making)
    _opening_left(picture, after, making)
    y = (before.point(kit.blanket.finished[0])[1] + LEFT.height / 2) * 0.9
    picture.move_arrow((65.0, y), (75.0, y), 0.0, 1.6)
    side = letter(kit.opening.side) if kit.opening is not None else ""
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Turn it right side out",
        words=(
            f"Reach through the opening on side {side} and take hold of the far corner.",
            f"Pull the whole work gently through the opening, {numbers['opening.length']} long.",
            "Do not pull on the ends of the stitches.",
        ),
        check="Both right sides are outside. The opening is the only gap.",
        drawing=picture.drawing(),
    )


def _through(picture: Picture, view: View, making: Making) -> None:
    """The way of the far corner: below the top to the opening, and out there."""
    ends, opening = opening_ends(making), making.kit.opening
    if ends is None or opening is None:
        raise ValueError("must have an opening to turn through")
    first, last = view.points(ends)
    picture.signs(((stroke(first, last, 1.3), GAP),))
    center, out = middle(first, last), view.way(making.out(opening.side))
    far = max(view.points(making.kit.blanket.seam), key=lambda p: distance(p, center))
    way = unit(sub(center, far))
    picture.below_arrow(along(far, way, 3.0), along(center, way, -2.0), width=1.6)
    picture.move_arrow(along(center, out, 1.5), along(center, out, 10.0), 0.0, 1.6)
    picture.name("opening", last, unit(sub(last, first)), within=LEFT_HALF)
    picture.name("far corner", along(far, way, 3.0), (0.3, 1.0), within=LEFT_HALF)


def _opening_left(picture: Picture, view: View, making: Making) -> None:
    """The opening of the work right side out."""
    ends = opening_ends(making)
    if ends is not None:
        first, last = view.points(ends)
        picture.signs(((stroke(first, last, 1.1), GAP),))
        picture.name("opening, still open", middle(first, last), (0.0, -1.0), within=RIGHT_HALF)


def _corner_window(making: Making) -> tuple[Point, ...]:
    """Points about corner 0 of the finished blanket."""
    outer, inner = edge(making.kit), inner_edge(making.kit)
    reach = 2.2 * distance(outer[0], inner[0])
    back = directions(outer)[-1]
    on = directions(outer)[0]
    return (
        outer[0],
        along(outer[0], back, -reach),
        along(outer[0], on, reach),
        along(along(outer[0], back, -reach), on, reach * 0.9),
    )


def _corner(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="push-corners", shows="a finished corner from the front")
    view = detail(_corner_window(making), Room(36.0, 0.0, 68.0, 68.0), pad=0.4)
    front_side(picture, view, kit)
    outer, inner = edge(kit)[0], inner_edge(kit)[0]
    tip = view.point(outer)
    way = unit(sub(tip, view.point(inner)))
    aside = right_of(way)
    start, end = (along(along(tip, way, back), aside, ASIDE) for back in (-34.0, -6.0))
    picture.below_arrow(start, end, width=1.6)
    picture.name("miter", view.point(middle(outer, inner)), (-1.0, 0.4))
    picture.name("corner of the top", view.point(inner), (0.7, 0.7))
    picture.name("push from inside", middle(start, end), (0.9, -0.2))
    left, foot, right, _ = box(view.window)
    picture.caption(making.all_corners, ((left + right) / 2, foot - 7.0))
    at = kit.blanket.corners[0].at
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Push out the corners",
        words=(
            "Push each corner out from inside with something blunt, not with scissors.",
            "Pull the border flat at both sides of the miter.",
        ),
        check=f"At corner {at} one straight miter runs from the top's corner to the blanket's"
        " corner.",
        drawing=picture.drawing(),
    )


def _press(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="press", shows="the border pressed to its width")
    view = whole(edge(kit), MAIN)
    front_side(picture, view, kit)
    reach = 1.4 * max(distance(p, q) for p, q in zip(edge(kit), inner_edge(kit), strict=True))
    side = kit.order[0]
    start, end = edges(inner_edge(kit))[side]
    spot = between(start, end, 0.3)
    near = loupe(picture, view, spot, reach, LOUPE, LOUPE_MM)
    front_side(picture, near, kit)
    hidden = offset(kit.blanket.seam, [float(kit.project.allowance)] * making.sides)
    for each in (view, near):
        picture.hidden(each, hidden, closed=True)
    out = making.out(side)
    width = float(kit.project.borders[side])
    low, high = near.point(spot), near.point(along(spot, out, width))
    picture.arrow_both(low, high)
    text = making.numbers.get("border") or making.numbers[f"border.{letter(side).lower()}"]
    picture.name(text, middle(low, high), (0.0, -1.0))
    on = unit(sub(end, start))
    at = near.point(along(along(spot, out, width / 2), on, reach * 0.5))
    size = min(IRON_MM, width * near.scale * 1.5)
    picture.signs(iron(at, size, near.way((-on[0], -on[1]))))
    if kit.opening is not None:
        first, last = view.points(opening_ends(making) or (spot, spot))
        picture.signs(((stroke(first, last, 1.1), GAP),))
        picture.name("opening: fold both edges in", middle(first, last), (0.2, -1.0))
    side_letters(picture, view, edge(kit))
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Press the border",
        words=(
            "Lay the blanket flat, the top upward.",
            f"Press the border to one width: {border_words(making)}.",
            "Push the raw edges of the seam toward the border, away from the top.",
            *_fold_in_words(making),
            "Keep the iron away from children, and press only as hot as the cloth allows.",
        ),
        check="The border is as wide everywhere as the figures say, and the backing lies flat.",
        drawing=picture.drawing(),
    )


def _fold_in_words(making: Making) -> tuple[str, ...]:
    """What becomes of the edges of the opening, where there is one."""
    return () if making.kit.opening is None else ("Fold both edges of the opening in.",)


def _close(making: Making) -> Step:
    """The opening from the front: its edges folded in, pinned, closed."""
    kit, numbers = making.kit, making.numbers
    opening, ends = kit.opening, opening_ends(making)
    if opening is None or ends is None:
        raise ValueError("must have an opening to close")
    picture = Picture(kit=kit, key="close-opening", shows="the opening pinned and sewn by hand")
    turn = making.front_facing(opening.side)
    way = unit(sub(ends[1], ends[0]))
    out = making.out(opening.side)
    border = float(kit.project.borders[opening.side])
    more = opening.length * 0.35
    points = [
        along(along(p, way, m), out, o)
        for p, m in ((ends[0], -more), (ends[1], more))
        for o in (border, -border * 1.2)
    ]
    view = detail(points, Room(10.0, 0.0, 120.0, 56.0), turn, pad=0.4)
    front_side(picture, view, kit)
    first, last = making.toward(*view.points(ends))
    picture.signs(((stroke(first, last, 1.1), GAP),))
    up = view.way(out)
    for part in (0.0, 0.33, 0.67, 1.0):
        on = first[0] + (last[0] - first[0]) * part, first[1] + (last[1] - first[1]) * part
        picture.signs(pin(on, up))
    on = unit(sub(last, first))
    low = along(first, up, -4.2)
    picture.move_arrow(low, along(low, on, min(18.0, distance(first, last) * 0.3)))
    picture.signs(hand_needle(along(first, on, distance(first, last) * 0.45), unit((on[0], 0.7))))
    picture.entry(Entry.of_pin())
    picture.entry(Entry("hand needle", chip_of_needle()))
    picture.name("start", first, (-on[0] * 0.4, -1.0))
    picture.name("stop", last, (on[0] * 0.4, -1.0))
    picture.name("both edges folded in", along(first, on, distance(first, last) * 0.8), (0.3, 1.0))
    left, _, _, head = box(view.window)
    picture.letter(letter(opening.side), (left + LETTER_DISC, head + 5.0))
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Close the opening",
        words=(
            f"Fold both raw edges in along the opening, {numbers['opening.length']}.",
            "Fold on the line of the seam, so that it runs on straight.",
            "Pin the edges. Close the gap by hand with ladder stitches, from the"
            f" {making.hand.value} to the {making.hand.other.value}.",
            "Or let the top stitching close it.",
        ),
        check=f"The seam of side {letter(opening.side)} looks the same from dot to dot.",
        drawing=picture.drawing(),
    )


def top_stitch(making: Making) -> Step:
    """The top stitching seen from the front."""
    kit = making.kit
    picture = Picture(kit=kit, key="top-stitch", shows="the top stitching")
    view = whole(edge(kit), MAIN)
    front_side(picture, view, kit, pale=making.turned)
    x = directions(edge(kit))
    outer = edge(kit)[0]
    reach = 1.25 * max(distance(edge(kit)[0], inner_edge(kit)[0]), 8.0)
    spot = along(along(outer, x[0], reach * 0.75), x[-1], -reach * 0.75)
    near = loupe(picture, view, spot, reach, LOUPE, LOUPE_MM)
    front_side(picture, near, kit, pale=making.turned)
    lines = top_stitching(kit)
    for each in (view, near):
        for ring in lines:
            picture.line(each, ring, Role.TOPSTITCH, closed=True, meaning="top stitching")
    words: tuple[str, ...] = (
        "Sew on the seam between top and border, all round.",
        "Sew once more near the edge of the blanket, all round.",
    )
    if not making.turned:
        words = ("Sew all round, on the border, close to its inner fold.",)
    ring = lines[0]
    start, end = edges(ring)[0]
    way = unit(sub(near.point(end), near.point(start)))
    place = near.point(along(spot, unit(sub(end, start)), 0.0))
    on_line = _foot_on(place, near.point(start), way)
    picture.name("in the seam" if making.turned else "close to the fold", on_line, (0.3, 1.0))
    for ring in lines[1:]:
        spot_on = _foot_on(place, near.point(ring[0]), way)
        picture.name("near the edge", spot_on, (0.0, -1.0))
    corner = near.point(ring[0])
    picture.name("turn, needle down", corner, (0.8, 0.8))
    low = along(along(corner, way, 4.0), right_of(way), 3.0)
    picture.move_arrow(low, along(low, way, 11.0))
    begin = between(*edges(ring)[0], START_AT)
    picture.dot(view, begin)
    picture.name("start and stop", view.point(begin), (0.2, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="Sew the top stitching",
        words=(
            *words,
            "Start in the middle of a side, not at a corner. Turn at the corners with the needle"
            " down.",
        ),
        check="Turn it over: the stitches have caught the backing all round."
        if making.turned
        else "The stitches catch the border's fold everywhere.",
        drawing=picture.drawing(),
    )


def _foot_on(point: Point, start: Point, way: Point) -> Point:
    """The foot of a perpendicular on a line."""
    reach = (point[0] - start[0]) * way[0] + (point[1] - start[1]) * way[1]
    return along(start, way, reach)


def finished(making: Making) -> Step:
    """The finished blanket with its size."""
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="finished", shows="the finished blanket from the front")
    view = whole(edge(kit), CENTERED)
    front_side(picture, view, kit)
    for ring in top_stitching(kit):
        picture.line(view, ring, Role.TOPSTITCH, closed=True, meaning="top stitching")
    side_letters(picture, view, edge(kit))
    left, foot, right, head = box(view.points(edge(kit)))
    across, down = numbers["finished.width"], numbers["finished.height"]
    picture.measure((left, foot - SIZE_OUT), (right, foot - SIZE_OUT), across)
    picture.measure((right + SIZE_OUT, foot), (right + SIZE_OUT, head), down)
    return Step(
        key=picture.key,
        stage=Stage.FINISHING,
        title="The finished blanket",
        words=(
            f"It measures {across} across and {down} down.",
            f"The border is {border_words(making)}.",
        ),
        check="Measure it through the middle, both ways.",
        drawing=picture.drawing(),
    )
