"""The step that sews two patches to each other: pinned, sewn, pressed; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.polygons import (
    Ring,
    along,
    distance,
    edges,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.paint import Paint
from cutpaths.project.patchwork import Pressing
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.cutting import Segment, folded, long_line, part_inside, side_of
from cutpaths.sheets.steps.exploded import (
    Patch,
)
from cutpaths.sheets.steps.ink import pin
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.lines import STITCHES
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.pairs import step_away
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.pieced import Pieced, center_of
from cutpaths.sheets.steps.rings import is_convex
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import MIRRORED, Room, View, whole

FIRST, MIDDLE = Room(4.0, 0.0, 44.0, 34.0), Room(61.0, 0.0, 24.0, 34.0)
THIRD = Room(96.0, 0.0, 40.0, 34.0)
IRON_MM = 9.0


def _neighbours(work: Pieced) -> tuple[Patch, Patch, Segment]:
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


def two_patches(work: Pieced) -> Step:
    """Two patches right sides together with their seam, then opened: the wrong side."""
    making = work.making
    first, second, seam = _neighbours(work)
    picture = Picture(kit=making.kit, key="sew-patches", shows="two patches sewn, then pressed")
    over = folded(first.raw, seam)
    shades = [work.paints[patch.fabric] for patch in (first, second)]
    _side_by_side(picture, (first, second, seam), shades)
    before = whole((*second.raw, *over), MIDDLE)
    picture.layer(before, second.raw, Cloth.TOP_RIGHT, paint=shades[1])
    picture.layer(before, over, Cloth.TOP_WRONG)
    picture.shades(work.shades)
    allowance = float(making.kit.project.allowance)
    stitched = part_inside(*long_line(*seam, 4 * allowance), over) if is_convex(over) else None
    picture.line(before, stitched or seam, Role.STITCH, meaning=STITCHES)
    _pins_and_way(picture, before, (seam, second.finished))
    if making.numbers.allowance:
        text = making.numbers.allowance
        picture.name(text, before.point(_raw_of(seam, second.finished, allowance)), (0, 1.0))
    opened = whole((*first.raw, *second.raw), THIRD, MIRRORED)
    _opened(picture, opened, work, (first, second, seam))
    level = before.point(center_of(second.raw))[1]
    for x in (51.0, 88.0):
        picture.move_arrow((x, level), (x + 5.5, level), 0.0, 1.4)
    alternate = making.kit.project.pressing is Pressing.ALTERNATE
    spot = opened.point(middle(*seam))
    low = min(y for _, y in opened.points((*first.raw, *second.raw)))
    picture.signs(iron((spot[0], low - IRON_MM), IRON_MM, (0.0, 1.0)))
    picture.name("pressed to one side" if alternate else "pressed open", spot, (0.0, 1.0))
    press = (
        "Press both allowances to one side." if alternate else "Press the seam open on the back."
    )
    width = making.numbers.allowance
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


def _pins_and_way(picture: Picture, view: View, place: tuple[Segment, Ring]) -> None:
    """Two pins across a seam that is sewn, and the way in which it is sewn."""
    seam, ring = place
    start, end = view.points(seam)
    inward = _toward(view, seam, ring)
    outward = -inward[0], -inward[1]
    way, long = unit(sub(end, start)), distance(start, end)
    for part in (0.25, 0.75):
        picture.signs(pin(along(start, way, part * long), outward))
    picture.entry(Entry.of_pin())
    low = along(along(start, inward, 5.0), way, long * 0.3)
    picture.move_arrow(low, along(low, way, long * 0.4))


def _raw_of(seam: Segment, ring: Ring, allowance: float) -> Point:
    """A place in the middle of the allowance outside a seam, in the front view."""
    side = right_of(unit(sub(seam[1], seam[0])))
    x, y = sub(center_of(ring), seam[0])
    turn = -1.0 if side[0] * x + side[1] * y > 0 else 1.0
    return along(middle(*seam), side, turn * allowance / 2)


def _side_by_side(
    picture: Picture, pair: tuple[Patch, Patch, Segment], shades: Sequence[Paint]
) -> None:
    """Two neighbours right side up, an arrow that turns the first over onto the second."""
    first, second, seam = pair
    off = step_away(seam, center_of(first.finished), distance(*seam) * 0.12)
    moved = shift(*off).ring(first.raw)
    view = whole((*moved, *second.raw), FIRST)
    picture.layer(view, second.raw, Cloth.TOP_RIGHT, paint=shades[1])
    picture.layer(view, moved, Cloth.TOP_RIGHT, paint=shades[0])
    start = view.point(center_of(shift(*off).ring(first.finished)))
    end = view.point(center_of(second.finished))
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
    x, y = sub(view.point(center_of(ring)), start)
    return side if side[0] * x + side[1] * y > 0 else (-side[0], -side[1])


def _opened(picture: Picture, view: View, work: Pieced, pair: tuple[Patch, Patch, Segment]) -> None:
    """Two sewn patches from behind, their allowances pressed."""
    first, second, seam = pair
    alternate = work.making.kit.project.pressing is Pressing.ALTERNATE
    flaps = []
    for patch in (first, second):
        own = center_of(patch.finished)
        beyond = side_of(patch.raw, seam, folded((own, own, own), seam)[0])
        kept = side_of(patch.raw, seam, own)
        picture.layer(view, kept, Cloth.TOP_WRONG)
        flaps.append((patch, beyond))
    for number, (patch, beyond) in enumerate(flaps):
        if alternate and number == 1:
            picture.layer(view, beyond, Cloth.TOP_WRONG)
            continue
        paint = work.paints[patch.fabric]
        picture.layer(view, folded(beyond, seam), Cloth.TOP_RIGHT, paint=paint)
    picture.line(view, seam, Role.STITCH)
