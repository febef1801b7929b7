"""Steps that sew a pieced top: laying out, pairs, units, rows, and pressing; mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.assembly import Stage as Sewing
from cutpaths.geometry.polygons import (
    Ring,
    along,
    box,
    distance,
    edges,
    middle,
    offset,
    right_of,
    signed_area,
    sub,
    unit,
)
from cutpaths.paint import Paint
from cutpaths.project.patchwork import Pressing
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.cutting import Segment, folded, side_of
from cutpaths.sheets.steps.exploded import Patch, moved_apart, parts, patches_of
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.pairs import pair_step, step_away
from cutpaths.sheets.steps.picture import OUTLINE_MM, Picture
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth, shade
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import MIRRORED, Room, View, whole

LEFT, RIGHT = Room(5.0, 0.0, 58.0, 66.0), Room(77.0, 0.0, 58.0, 66.0)
FIRST, MIDDLE = Room(5.0, 0.0, 45.0, 34.0), Room(61.0, 0.0, 21.0, 34.0)
THIRD = Room(93.0, 0.0, 42.0, 34.0)
FEW_SEAMS = 400
SMALL_MM, FINE_MM = 8.0, 0.2  # smaller patches on the sheet have a finer outline
_ORDER = (Sewing.UNIT, Sewing.ROW, Sewing.TOP)
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
    work = _Work(making)
    if not work.stages:
        return
    for pair in making.kit.pairs[:1]:
        yield pair_step(making, pair)
    yield _lay_out(work)
    yield _two_patches(work)
    for stage in work.stages:
        yield _sew(work, stage)
    yield _press(work)


class _Work:
    """The patches of a top and how they hang together stage by stage."""

    def __init__(self, making: Making) -> None:
        self.making = making
        self.patches = patches_of(making.kit)
        self.seams = making.kit.patchwork.all_seams()
        self.stages = [s for s in _ORDER if any(seam.stage is s for seam in self.seams)]
        names = [fabric.name for fabric in making.kit.project.fabrics]
        used = sorted({patch.fabric for patch in self.patches}, key=names.index)
        sizes = (box(patch.raw) for patch in self.patches)
        self.small = min(min(b[2] - b[0], b[3] - b[1]) for b in sizes)
        self.number = {name: i for i, name in enumerate(used)}

    def groups(self, until: int) -> tuple[tuple[int, ...], ...]:
        """Parts that hang together once the first so many stages are sewn."""
        sewn = self.stages[:until]
        return parts(self.patches, [s for s in self.seams if s.stage in sewn])

    def apart(self, groups: Sequence[Sequence[int]], until: int) -> dict[int, Point]:
        """How far each patch is moved so that parts which are not sewn yet stand apart."""
        sewn = self.stages[:until]
        open_seams = [seam for seam in self.seams if seam.stage not in sewn]
        allowance = float(self.making.kit.project.allowance)
        return moved_apart(self.patches, groups, open_seams, allowance)

    def layer(self, picture: Picture, view: View, i: int, move: Point) -> None:
        """A patch, right side up, raw; its finished outline is drawn over its neighbours later."""
        patch = self.patches[i]
        ring = shift(*move).ring(patch.raw)
        paint = shade(self.number[patch.fabric])
        width = FINE_MM if self.small * view.scale < SMALL_MM else OUTLINE_MM
        picture.layer(view, ring, Cloth.TOP_RIGHT, paint=paint, width=width)

    def explode(
        self, picture: Picture, view: View, groups: Sequence[Sequence[int]], moves: dict[int, Point]
    ) -> None:
        """All parts, each patch in its colour as far as its seams, with a raw edge all round."""
        for group in groups:
            for i in group:
                self.layer(picture, view, i, moves[i])
            if len(group) == 1:
                continue
            for i in group:
                patch = self.patches[i]
                ring = shift(*moves[i]).ring(patch.finished)
                paint = shade(self.number[patch.fabric])
                picture.layer(view, ring, Cloth.TOP_RIGHT, paint=paint, outlined=False)
            for i in group:
                ring = shift(*moves[i]).ring(self.patches[i].finished)
                picture.seam(view, (*ring, ring[0]))


def _view(work: _Work, moves: dict[int, Point], room: Room) -> View:
    points = [shift(*moves[i]).point(p) for i, patch in enumerate(work.patches) for p in patch.raw]
    return whole(points, room)


def _lay_out(work: _Work) -> Step:
    making = work.making
    picture = Picture(kit=making.kit, key="lay-out", shows="all patches laid out, right side up")
    groups = work.groups(0)
    moves = work.apart(groups, 0)
    view = _view(work, moves, Room(20.0, 0.0, 100.0, 84.0))
    work.explode(picture, view, groups, moves)
    left, foot, right, head = box(
        [shift(*moves[i]).point(p) for i, each in enumerate(work.patches) for p in each.raw]
    )
    corner = view.point((left, head))
    picture.name("head", ((corner[0] + view.point((right, head))[0]) / 2, corner[1]), (0.0, 1.0))
    picture.name("foot", (view.point(((left + right) / 2, foot))), (0.0, -1.0))
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Lay out the patches",
        words=(
            "Lay all patches right side up, as the picture of the front shows them.",
            "The head is farthest from you, side A is nearest.",
        ),
        check=f"{len(work.patches)} patches lie there, and none is turned the wrong way."
        if _counted(making, len(work.patches))
        else "Every place is filled, and no patch is turned the wrong way.",
        drawing=picture.drawing(),
    )


def _counted(making: Making, number: int) -> bool:
    """Whether the figures give that number of patches, of one kind."""
    return any(
        text.startswith(f"{number} ")
        for key, text in making.numbers.texts.items()
        if key.endswith(".count")
    )


def _neighbours(work: _Work) -> tuple[Patch, Patch, Segment]:
    """Two patches of the first seam that is sewn, and that seam."""
    for stage in work.stages:
        for seam in work.seams:
            if seam.stage is stage:
                found = [p for p in work.patches if _has_edge(p, seam)]
                if len(found) == 2:
                    return found[0], found[1], (seam.start, seam.end)
    seam = work.seams[0]
    found = [p for p in work.patches if _touches(p, seam)]
    return found[0], found[-1], (seam.start, seam.end)


def _has_edge(patch: Patch, seam: Seam) -> bool:
    """Whether a seam is a whole edge of a patch."""
    ends = {_near(seam.start), _near(seam.end)}
    return any({_near(p), _near(q)} == ends for p, q in edges(patch.finished))


def _touches(patch: Patch, seam: Seam) -> bool:
    return any(_near(p) in (_near(seam.start), _near(seam.end)) for p in patch.finished)


def _near(p: Point) -> tuple[float, float]:
    return round(p[0], 3) + 0.0, round(p[1], 3) + 0.0


def _two_patches(work: _Work) -> Step:
    """Two patches right sides together with their seam, then opened: the wrong side."""
    making = work.making
    first, second, seam = _neighbours(work)
    picture = Picture(kit=making.kit, key="sew-patches", shows="two patches sewn, then pressed")
    over = folded(first.raw, seam)
    shades = [shade(work.number[patch.fabric]) for patch in (first, second)]
    _side_by_side(picture, (first, second, seam), shades)
    before = whole((*second.raw, *over), MIDDLE)
    picture.layer(before, second.raw, Cloth.TOP_RIGHT, paint=shades[1])
    picture.layer(before, over, Cloth.TOP_WRONG)
    picture.line(before, seam, Role.STITCH, meaning="stitches")
    start, end = before.points(seam)
    way = unit(sub(end, start))
    inward = _toward(before, seam, second.finished)
    low = along(middle(start, end), inward, 5.0)
    reach = min(6.0, distance(start, end) * 0.3)
    picture.move_arrow(along(low, way, reach), along(low, way, -reach))
    opened = whole((*first.raw, *second.raw), THIRD, MIRRORED)
    _opened(picture, opened, work, (first, second, seam))
    level = before.point(_center(second.raw))[1]
    for x in (52.0, 84.0):
        picture.move_arrow((x, level), (x + 6.5, level), 0.0, 1.4)
    alternate = making.kit.project.pressing is Pressing.ALTERNATE
    spot = opened.point(middle(*seam))
    picture.signs(iron(spot, 9.0))
    press = (
        "Press both allowances to one side." if alternate else "Press the seam open on the back."
    )
    width = making.numbers.allowance if making.turned else ""
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Sew patch to patch",
        words=(
            "Lay two neighbours right sides together, the edges on each other.",
            f"Sew {width} from the edge." if width else "Sew at the width of the seam allowance.",
            press,
            "On flannel sew with shorter stitches and press all seams open.",
            "Close a rotary cutter when you put it down. Keep the iron away from children.",
        ),
        check=_patch_check(making),
        drawing=picture.drawing(),
    )


def _side_by_side(
    picture: Picture, pair: tuple[Patch, Patch, Segment], shades: Sequence[Paint]
) -> None:
    """Two neighbours right side up, an arrow that turns the first over onto the second."""
    first, second, seam = pair
    off = step_away(seam, _center(first.finished), distance(*seam) * 0.12)
    moved = shift(*off).ring(first.raw)
    view = whole((*moved, *second.raw), FIRST)
    picture.layer(view, second.raw, Cloth.TOP_RIGHT, paint=shades[1])
    picture.layer(view, moved, Cloth.TOP_RIGHT, paint=shades[0])
    start = view.point(_center(shift(*off).ring(first.finished)))
    end = view.point(_center(second.finished))
    bulge = distance(start, end) * 0.3
    picture.move_arrow(start, end, bulge if start[0] > end[0] else -bulge, 1.3)


def _patch_check(making: Making) -> str:
    text = making.numbers.get("patch.finished")
    if text:
        return f"Between two seams a square measures {text}."
    return "Seen from the front, no stitches show in the seam."


def _toward(view: View, seam: Segment, ring: Ring) -> Point:
    """The way from a seam into a patch, square to the seam, on the sheet."""
    start, end = view.points(seam)
    side = right_of(unit(sub(end, start)))
    x, y = sub(view.point(_center(ring)), start)
    return side if side[0] * x + side[1] * y > 0 else (-side[0], -side[1])


def _center(ring: Ring) -> Point:
    return sum(p[0] for p in ring) / len(ring), sum(p[1] for p in ring) / len(ring)


def _opened(picture: Picture, view: View, work: _Work, pair: tuple[Patch, Patch, Segment]) -> None:
    """Two sewn patches from behind, their allowances pressed."""
    first, second, seam = pair
    alternate = work.making.kit.project.pressing is Pressing.ALTERNATE
    flaps = []
    for patch in (first, second):
        own = _center(patch.finished)
        beyond = side_of(patch.raw, seam, folded((own, own, own), seam)[0])
        kept = side_of(patch.raw, seam, own)
        picture.layer(view, kept, Cloth.TOP_WRONG)
        flaps.append((patch, beyond))
    for number, (patch, beyond) in enumerate(flaps):
        if alternate and number == 1:
            picture.layer(view, beyond, Cloth.TOP_WRONG)
            continue
        paint = shade(work.number[patch.fabric])
        picture.layer(view, folded(beyond, seam), Cloth.TOP_RIGHT, paint=paint)
    picture.line(view, seam, Role.STITCH)


def _sew(work: _Work, stage: Sewing) -> Step:
    """Before and after of one stage of sewing."""
    making = work.making
    number = work.stages.index(stage)
    key = _KEYS[stage]
    picture = Picture(kit=making.kit, key=key, shows=f"{stage} sewn")
    for room, until in ((LEFT, number), (RIGHT, number + 1)):
        groups = work.groups(until)
        moves = work.apart(groups, until)
        view = _view(work, moves, room)
        work.explode(picture, view, groups, moves)
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
        check=_sewn_check(making) if last else _groups_check(after, stage),
        drawing=picture.drawing(),
    )


def _sew_words(work: _Work, stage: Sewing, *, only: bool) -> str:
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


def _sewn_check(making: Making) -> str:
    """The size of the raw top."""
    numbers = making.numbers
    width, height = numbers.get("top.width"), numbers.get("top.height")
    return f"The top measures {width} across and {height} down, raw edge to raw edge."


def _press(work: _Work) -> Step:
    """The whole top from behind, with the way each seam is pressed."""
    making = work.making
    kit = making.kit
    alternate = kit.project.pressing is Pressing.ALTERNATE
    picture = Picture(kit=kit, key="press-top", shows="the top from behind, its seams pressed")
    ring = offset(kit.patchwork.outline, [float(kit.project.allowance)] * making.sides)
    view = whole(ring, Room(30.0, 0.0, 80.0, 80.0), MIRRORED)
    picture.layer(view, ring, Cloth.TOP_WRONG)
    if len(work.seams) <= FEW_SEAMS:
        for seam in work.seams:
            _allowances(picture, view, seam, float(kit.project.allowance))
    for seam in work.seams:
        picture.seam(view, (seam.start, seam.end))
    shown = [s for s in work.seams if s.press is not None and s.length * view.scale > 5.0]
    if len(shown) <= FEW_SEAMS:
        for seam in shown:
            way = view.way(seam.press or (0.0, 0.0))
            start = view.point(middle(seam.start, seam.end))
            picture.move_arrow(along(start, way, -1.4), along(start, way, 2.6), 0.0, 0.7)
    right = view.point((box(ring)[0], 0.0))[0]
    picture.signs(iron((right + 10.0, 20.0)))
    words = (
        ("Press the seams as the arrows show, so that they lie opposite where they meet.",)
        if alternate
        else ("Press all seams open.",)
    )
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Press the top",
        words=(*words, "Lift the iron and set it down. Do not push the cloth."),
        check=_sewn_check(making),
        drawing=picture.drawing(),
    )


def _allowances(picture: Picture, view: View, seam: Seam, reach: float) -> None:
    """Both allowances of a seam as they are pressed: open, their right sides up, or aside."""
    side = right_of(unit(sub(seam.end, seam.start)))
    ways = (side, (-side[0], -side[1])) if seam.press is None else (seam.press,)
    cloth = Cloth.TOP_RIGHT if seam.press is None else Cloth.TOP_WRONG
    for way in ways:
        far = along(seam.end, way, reach), along(seam.start, way, reach)
        ring = (seam.start, seam.end, *far)
        ring = ring if signed_area(ring) > 0 else ring[::-1]
        picture.layer(view, ring, cloth, outlined=seam.press is not None)
