"""Steps that sew a pieced top: laying out, pairs, units, rows, and pressing; mm."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.assembly import Stage as Sewing
from cutpaths.geometry.polygons import Ring, box, cross, distance, dot, right_of, sub, unit
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.exploded import Lines
from cutpaths.sheets.steps.ink import pin
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.pairs import pair_step
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.pieced import Pieced, at_scale, center_of, part_only, view_of
from cutpaths.sheets.steps.pressing import press_top, sewn_check
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.two_patches import two_patches
from cutpaths.sheets.steps.view import Room, View

LEFT, RIGHT = Room(5.0, 0.0, 58.0, 66.0), Room(77.0, 0.0, 58.0, 66.0)
PIN_SIZE = 0.7  # of a pin on a part
NEAR_MM = 0.05
_TITLES = {
    Sewing.UNIT: "Sew the units",
    Sewing.ROW: "Sew the rows",
    Sewing.TOP: "Join the rows",
}
_KEYS = {Sewing.UNIT: "sew-units", Sewing.ROW: "sew-rows", Sewing.TOP: "join-rows"}
_PARTS = {Sewing.UNIT: "unit", Sewing.ROW: "row", Sewing.TOP: "top"}


def patchwork(making: Making) -> Iterator[Step]:
    """All steps of a pieced top; none of one cloth or one patch."""
    if not making.kit.pieced:
        return
    work = Pieced(making)
    if not work.stages:
        return
    for pair in making.kit.pairs[:1]:
        yield pair_step(making, pair)
    yield _lay_out(work)
    yield two_patches(work)
    for stage in work.stages:
        yield _sew(work, stage)
    yield press_top(work)


def _lay_out(work: Pieced) -> Step:
    making = work.making
    picture = Picture(kit=making.kit, key="lay-out", shows="all patches laid out, right side up")
    groups = work.groups(0)
    moves = work.apart(groups, 0)
    view = view_of(work, moves, Room(20.0, 0.0, 100.0, 84.0))
    work.explode(picture, view, groups, moves)
    _size_of_patch(picture, work, view, moves)
    left, foot, right, head = box(
        [shift(*moves[i]).point(p) for i, each in enumerate(work.patches) for p in each.raw]
    )
    corner = view.point((left, head))
    if work.whole:
        center = (corner[0] + view.point((right, head))[0]) / 2
        picture.name("head", (center, corner[1]), (0.0, 1.0))
    picture.name("foot", (view.point(((left + right) / 2, foot))), (0.0, -1.0))
    part_only(picture, work, view, moves)
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Lay out the patches",
        words=(
            "Lay all patches right side up, as the picture of the front shows them.",
            "The head is farthest from you, side A is nearest.",
        ),
        check=f"{work.count} patches lie there, and none is turned the wrong way."
        if _counted(making, work.count)
        else "Every place is filled, and no patch is turned the wrong way.",
        drawing=picture.drawing(),
    )


def _size_of_patch(picture: Picture, work: Pieced, view: View, moves: dict[int, Point]) -> None:
    """How large a patch is cut, where all are alike."""
    text = work.making.numbers.get("patch.cut")
    if text:
        left = min(range(len(work.patches)), key=lambda i: sum(work.patches[i].raw[0]))
        spot = view.point(shift(*moves[left]).point(center_of(work.patches[left].raw)))
        picture.name(f"cut {text}", spot, (-1.0, 0.0))


def _counted(making: Making, number: int) -> bool:
    """Whether the figures give that number of patches, of one kind."""
    return any(
        text.startswith(f"{number} ")
        for key, text in making.numbers.texts.items()
        if key.endswith(".count")
    )


def _sew(work: Pieced, stage: Sewing) -> Step:
    """Before and after of one stage of sewing."""
    making = work.making
    number = work.stages.index(stage)
    key = _KEYS[stage]
    picture = Picture(kit=making.kit, key=key, shows=f"{stage} sewn")
    shown = []
    for room, until in ((LEFT, number), (RIGHT, number + 1)):
        groups = work.groups(until)
        shown.append((room, groups, work.apart(groups, until)))
    scale = min(view_of(work, moves, room).scale for room, _, moves in shown)
    for room, groups, moves in shown:
        view = at_scale(work, moves, room, scale)
        work.explode(picture, view, groups, moves)
        part_only(picture, work, view, moves)
        if number and room is LEFT:
            _pins_at_seams(picture, work, stage, (view, moves))
    picture.move_arrow((65.0, 33.0), (75.0, 33.0), 0.0, 1.6)
    only = len(work.stages) == 1
    title = "Sew the parts together" if only else _TITLES[stage]
    figure = making.numbers.get(f"seams.{stage.name.lower()}.count")
    after = len(work.groups(number + 1))
    last = number == len(work.stages) - 1
    return Step(
        key=key,
        stage=Stage.TOP,
        title=title,
        words=(
            _sew_words(work, stage, only=only),
            *((f"There are {figure} to sew.",) if figure else ()),
            *_match_seams(stage, last=last),
        ),
        check=sewn_check(making) if last else _groups_check(after, stage),
        drawing=picture.drawing(),
    )


def _pins_at_seams(
    picture: Picture, work: Pieced, stage: Sewing, shown: tuple[View, dict[int, Point]]
) -> None:
    """Pins on the first open seam where sewn seams meet it, on the part to one side of it."""
    view, moves = shown
    seam = next(each for each in work.seams if each.stage is stage)
    sewn = work.stages[: work.stages.index(stage)]
    ends = [p for s in work.seams if s.stage in sewn for p in (s.start, s.end)]
    across = right_of(unit(sub(seam.end, seam.start)))
    beside = set(Lines(work.patches).beside(seam.start, seam.end))
    found: dict[tuple[float, float], int] = {}
    for i in sorted(beside):
        patch = work.patches[i]
        if dot(sub(center_of(patch.finished), seam.start), across) > 0:
            met = (p for p in ends if _meets(p, seam) and _is_corner(p, patch.finished))
            found |= {(round(x, 3), round(y, 3)): i for x, y in met}
    for (x, y), i in found.items():
        place = view.point(shift(*moves[i]).point((x, y)))
        picture.signs(pin(place, view.way((-across[0], -across[1])), PIN_SIZE))
    if found:
        picture.entry(Entry.of_pin())


def _meets(p: Point, seam: Seam) -> bool:
    """Whether a point lies on a seam, not at its ends."""
    way = sub(seam.end, seam.start)
    long = distance(seam.start, seam.end)
    off, on = cross(unit(way), sub(p, seam.start)), dot(unit(way), sub(p, seam.start))
    return abs(off) < NEAR_MM and NEAR_MM < on < long - NEAR_MM


def _is_corner(p: Point, ring: Ring) -> bool:
    return any(distance(p, q) < NEAR_MM for q in ring)


def _sew_words(work: Pieced, stage: Sewing, *, only: bool) -> str:
    if only:
        return "Sew the parts together, one after the other."
    if stage is Sewing.TOP:
        before = work.stages[work.stages.index(stage) - 1]
        return f"Sew the {_PARTS[before]}s together to the top, in their order."
    return f"Sew the patches of each {_PARTS[stage]} together, in their order."


def _match_seams(stage: Sewing, *, last: bool) -> tuple[str, ...]:
    if stage is Sewing.UNIT:
        return ()
    pin = ("Pin first where two seams meet.",)
    return pin if last else ()


def _groups_check(after: int, stage: Sewing) -> str:
    return f"All {_PARTS[stage]}s are sewn, and laid out as before." if after > 1 else ""
