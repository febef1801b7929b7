"""Steps that sew the turned top to its backing, side by side; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import MarkKind, letter
from cutpaths.geometry.polygons import along, box, distance, dot, edges, middle, sub, unit
from cutpaths.shapes import Anchor, Point
from cutpaths.sheets.steps.ink import GAP, pin, stroke
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making, belongs_to
from cutpaths.sheets.steps.other_sides import lay_flat, next_side, other_sides
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.rings import encloses
from cutpaths.sheets.steps.scenes import (
    dots_of,
    ear,
    inside_out,
    loupe,
    opening_ends,
    pins_of,
    ready_to_sew,
    seam_of,
    side_letters,
)
from cutpaths.sheets.steps.side_words import opening_corner, side_title
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tools import chip_of_foot, foot
from cutpaths.sheets.steps.view import MIRRORED, Room, View, detail, whole

MAIN = Room(14.0, 0.0, 74.0, 80.0)
LOUPE = (113.0, 40.0)
LOUPE_MM = 24.0
SPARE_STEPS = 20  # how finely a place on the spare cloth is looked for
BELOW_PINS = 9.4  # where the number of a pin stands
BELOW_NUMBERS = 7.0  # and from there the letter of its side
LETTER_IN = 5.0  # how far inside the backing the letters of the other sides stand
PIN_SIZE = 1.6  # of a pin in a detail
CLEAR_OF_FOOT = 6.0  # of a pin that is still in
FOOT_AT = 0.3  # how far a side is sewn where the foot stands
DEEP = 0.42  # how deep a view along a side is, as a part of its length
CLOSE_UP = 3.2  # how far round a dot a detail reaches, in seam allowances


def joining(making: Making) -> Iterator[Step]:
    """Pinning and sewing of the sides, the opening, and what the work then looks like."""
    first = making.kit.order[0]
    yield _pin(making, first)
    yield _sew(making, first)
    yield _sewn(making, first)
    yield next_side(making)
    if making.kit.opening is not None:
        yield _opening(making, making.kit.opening.side)
    yield other_sides(making)
    yield lay_flat(making)
    yield _all(making)


def _whole_side(making: Making, side: int) -> View:
    return whole(making.kit.blanket.backing, MAIN, making.sewing(side))


def _reach(making: Making) -> float:
    """How far round a dot a detail shows the cloth: the allowance can be seen in it."""
    return float(making.kit.project.allowance) * CLOSE_UP


def _pin(making: Making, side: int) -> Step:
    name = letter(side)
    picture = Picture(kit=making.kit, key="pin-centers", shows="a side pinned at its marks")
    view = _whole_side(making, side)
    ready_to_sew(picture, view, making, side)
    pins = pins_of(picture, view, making, side)
    dots_of(picture, view, making, side)
    here = making.corners_of(side)[0].miter[1]
    near = loupe(picture, view, here, _reach(making), LOUPE, LOUPE_MM)
    ready_to_sew(picture, near, making, side)
    out = near.way(making.out(side))
    picture.signs(pin(near.point(here), out, PIN_SIZE))
    picture.dot(near, here)
    side_letters(picture, view, making.uncut_backing, only=[side], gap=BELOW_PINS + BELOW_NUMBERS)
    others = [i for i in range(making.sides) if i != side]
    side_letters(picture, view, making.uncut_backing, only=others, gap=-LETTER_IN)
    _numbers(picture, pins, view.way(making.out(side)))
    picture.name("pin through both dots", near.point(here), (0.0, 1.0))
    quarters = ("Pin the quarter marks.",) if pins["quarter"] else ()
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="Pin the centers",
        words=(
            "Lay the backing right side up.",
            f"Lay the top on it, right sides together, side {name} on side {name}.",
            "Pin the center marks on each other first.",
            "Push a pin through the dot of the top and through the dot of the backing at each end.",
            *quarters,
            *_easing(making),
            "Spread the cloth evenly between the pins. The raw edges lie on each other.",
        ),
        check=f"Dot lies on dot at both ends of side {name}. The backing reaches past both.",
        drawing=picture.drawing(),
    )


def _numbers(picture: Picture, pins: dict[str, list[Point]], out: Point) -> None:
    """The order of the pins below their heads, and what each number says beside them."""
    order = (("center", "center on center"), ("dot", "dot on dot"), ("quarter", "quarter marks"))
    for number, (kind, text) in enumerate((o for o in order if pins[o[0]]), 1):
        for place in pins[kind]:
            picture.number(f"{number}", along(place, out, BELOW_PINS))
        low = LOUPE[1] - LOUPE_MM - 1.0 - 6.4 * number
        picture.text(f"{number} {text}", (LOUPE[0] - LOUPE_MM + 3.0, low), anchor=Anchor.START)


def _easing(making: Making) -> Iterator[str]:
    """What is eased in where top and backing are not alike."""
    for key, text in making.numbers.texts.items():
        if key.startswith("measured.ease."):
            name = key.rpartition(".")[2]
            where = f"On side {name.upper()}" if len(name) == 1 else f"Along the {name}"
            yield f"{where} {text}."


def _sew(making: Making, side: int) -> Step:
    name = letter(side)
    picture = Picture(kit=making.kit, key="sew-side", shows="a side sewn from dot to dot")
    view = _whole_side(making, side)
    here, far = (corner.miter for corner in making.corners_of(side))
    start, end = here[1], far[0]
    near = loupe(picture, view, start, _reach(making), LOUPE, LOUPE_MM)
    for each in (view, near):
        ready_to_sew(picture, each, making, side)
        seam_of(picture, each, making, side)
    dots_of(picture, view, making, side)
    picture.dot(near, start)
    first, last = view.point(start), view.point(end)
    up = view.way(making.out(side))
    way, long = unit(sub(last, first)), distance(first, last)
    low = along(first, up, -4.2)
    picture.move_arrow(low, along(low, way, min(16.0, long * 0.25)))
    at = along(first, way, long * FOOT_AT)
    for place in _pins_ahead(making, view, side, at, way):
        picture.signs(pin(place, up))
    picture.entry(Entry.of_pin())
    picture.signs(foot(at, way))
    picture.entry(Entry("machine foot", chip_of_foot()))
    side_letters(picture, view, making.uncut_backing, only=[side], gap=BELOW_PINS)
    picture.name("start at this dot", first, unit((0.3 * way[0], 1.0)))
    picture.name("stop at this dot", last, unit((0.0, 1.0)))
    picture.name("no stitch beyond the dot", near.point(start), (0.0, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="Sew from dot to dot",
        words=(
            f"Sew side {name}, {making.numbers.allowance} from the raw edges.",
            "Start at the dot, sew a few stitches back and forth, then sew to the other dot.",
            "Stop at that dot and back-tack there too. Take the pins out before the needle.",
            "Do not sew into the ends beyond the dots.",
        ),
        check=f"The seam is {making.numbers.side(side)} long, from dot to dot.",
        drawing=picture.drawing(),
    )


def _pins_ahead(making: Making, view: View, side: int, at: Point, way: Point) -> list[Point]:
    """Places of the pins that the foot has not reached yet, on the sheet."""
    place = making.onto_backing(side)
    kinds = (MarkKind.CENTER, MarkKind.QUARTER)
    marks = [m for kind in kinds for m in making.top_marks(kind, belongs_to(side))]
    found = [view.point(place.point(mark.points[0])) for mark in marks]
    return [p for p in found if dot(sub(p, at), way) > CLEAR_OF_FOOT]


def _near_side(making: Making, side: int) -> View:
    """The part of the work that lies along a side, as it is sewn."""
    turn = making.sewing(side)
    back = turn.inverse()
    left, foot, right, _ = box([turn.point(p) for p in edges(making.uncut_backing)[side]])
    depth = (right - left) * DEEP
    points = [back.point((x, y)) for x in (left, right) for y in (foot, foot + depth)]
    return detail(points, Room(10.0, 0.0, 120.0, 62.0), turn, pad=2.4)


def _sewn(making: Making, side: int) -> Step:
    name = letter(side)
    picture = Picture(kit=making.kit, key="side-sewn", shows="the backing reaches past the seam")
    view = _near_side(making, side)
    ready_to_sew(picture, view, making, side)
    seam_of(picture, view, making, side)
    dots_of(picture, view, making, side)
    here, far = making.corners_of(side)
    start, end = edges(making.uncut_backing)[side]
    for corner, dot_at in ((start, here.miter[1]), (end, far.miter[0])):
        spot = _on_spare(making, side, corner, dot_at)
        if spot is not None:
            picture.name("spare cloth: keep it", view.point(spot), (0.0, 1.0))
        if not making.trimmed_before:
            first, last = view.point(corner), view.point(dot_at)
            low = first[1] - 3.5
            picture.arrow_both((first[0], low), (last[0], low))
            text = _overhang(making, side, corner)
            picture.name(text, ((first[0] + last[0]) / 2, low), (0.0, -1.0))
    side_letters(picture, view, making.uncut_backing, only=[side])
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="Check: the backing is larger",
        words=(
            f"The backing reaches past both ends of side {name}. It must.",
            "This cloth becomes the corners. Do not cut it off.",
        ),
        check=_spare_check(making, side),
        drawing=picture.drawing(),
    )


def _on_spare(making: Making, side: int, corner: Point, dot_at: Point) -> Point | None:
    """A place where the backing is seen past a dot, as near to the raw edge as there is one.

    None where the top hides all of it, because the backing's corners are cut off.
    """
    backing = making.kit.blanket.backing
    top = making.onto_backing(side).ring(making.kit.blanket.top)
    middle_of, inward = middle(corner, dot_at), making.out(side)
    step = distance(corner, dot_at) / SPARE_STEPS
    for n in range(1, SPARE_STEPS + 1):
        place = along(middle_of, inward, -n * step)
        if encloses(backing, place) and not encloses(top, place):
            return place
    return None


def _spare_check(making: Making, side: int) -> str:
    """What lies past the ends of a seam; without sizes where the corners are cut off."""
    if making.trimmed_before:
        return "Past each end of the seam lies spare backing."
    return f"Past each end of the seam lies spare backing: {_spare(making, side)}."


def _overhang(making: Making, side: int, corner: Point) -> str:
    """How far the dot of a side stands from the backing's corner at one of its ends."""
    found = next(c for c in making.corners_of(side) if c.backing_point == corner)
    return making.dot_along(found.at, letter(side))


def _spare(making: Making, side: int) -> str:
    """How far the dots of a side stand from the ends of its raw edge."""
    found = [making.dot_along(corner.at, letter(side)) for corner in making.corners_of(side)]
    if found[0] == found[1]:
        return f"{found[0]} from the dot to the corner, along the raw edge"
    return f"{found[0]} at the start and {found[1]} at the end, along the raw edge"


def _opening(making: Making, side: int) -> Step:
    name, numbers, corner = letter(side), making.numbers, opening_corner(making)
    picture = Picture(kit=making.kit, key="opening", shows="the side with the turning opening")
    ends = opening_ends(making) or ((0.0, 0.0), (0.0, 0.0))
    place = making.onto_backing(side)
    first, last = place.point(ends[0]), place.point(ends[1])
    view = _near_side(making, side)
    ready_to_sew(picture, view, making, side)
    seam_of(picture, view, making, side)
    dots_of(picture, view, making, side)
    start, end = view.points((first, last))
    picture.signs(((stroke(start, end, 1.3), GAP),))
    on = unit(sub(end, start))
    dots = [view.point(p) for p in _dots(making, side)]
    up = view.way(making.out(side))
    for from_, to in ((dots[0], start), (end, dots[1])):
        low = along(from_, up, -4.2)
        picture.move_arrow(low, along(low, on, min(15.0, 0.8 * distance(from_, to))))
    picture.name(f"leave open: {numbers['opening.length']}", middle(start, end), (0.0, -1.0))
    picture.name(f"start: dot at corner {corner}", dots[0], (-0.3, -1.0))
    picture.name("stop", dots[1], (0.3, -1.0))
    picture.name("stop, back-tack", start, unit((-0.8 * on[0], 0.6)))
    picture.name("start again, back-tack", end, unit((0.8 * on[0], 0.6)))
    side_letters(picture, view, making.uncut_backing, only=[side], gap=BELOW_PINS)
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title=f"Leave the opening on {side_title(side)}",
        words=(
            f"On side {name} leave the turning opening, {numbers['opening.length']} long.",
            f"Sew from the dot at corner {corner} to the first end,"
            f" {numbers['opening.start']} along the seam, and back-tack.",
            f"Start again at the second end, {numbers['opening.end']} along from the"
            f" dot at corner {corner}, back-tack, and sew to the other dot.",
        ),
        check=f"A gap of {numbers['opening.length']} is left, with back-tacks at both its ends.",
        drawing=picture.drawing(),
    )


def _dots(making: Making, side: int) -> tuple[Point, Point]:
    """Where a side starts and ends on the backing."""
    here, far = making.corners_of(side)
    return here.miter[1], far.miter[0]


def _all(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="sides-sewn", shows="all sides sewn, the corners still loose")
    points = [*kit.blanket.finished, *(p for i in range(making.sides) for p in ear(making, i))]
    view = whole(points, Room(12.0, 0.0, 64.0, 78.0), MIRRORED)
    inside_out(picture, view, making, ears=True)
    corner, dot_at, loose = kit.blanket.corners[0], kit.blanket.seam[0], ear(making, 0)
    reach = 1.25 * max(distance(dot_at, p) for p in loose)
    near = loupe(picture, view, dot_at, reach, LOUPE, LOUPE_MM)
    inside_out(picture, near, making, ears=True)
    picture.dot(near, dot_at)
    spot = sum(x for x, _ in loose) / len(loose), sum(y for _, y in loose) / len(loose)
    picture.name("loose corner of the backing", near.point(spot), (0.6, -0.8))
    picture.name("both dots meet here", near.point(dot_at), (0.0, 1.0))
    side_letters(picture, view, kit.blanket.finished)
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="All sides are sewn",
        words=(
            "All sides are sewn from dot to dot. The work lies inside out.",
            "A loose corner of the backing stands off wherever two sides meet.",
            "Which way it lies does not matter: the corners are mitered next.",
        ),
        check=f"At corner {corner.at} the two seams end at one dot of the top and do not cross.",
        drawing=picture.drawing(),
    )
