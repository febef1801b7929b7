"""The step that presses a pieced top from behind; mm."""

from __future__ import annotations

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.polygons import (
    Ring,
    along,
    box,
    middle,
    offset,
    right_of,
    signed_area,
    sub,
    unit,
)
from cutpaths.project.patchwork import Pressing
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.pieced import Pieced
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import MIRRORED, Room, View, detail, whole

FEW_SEAMS = 400


def sewn_check(making: Making) -> str:
    """The size of the raw top."""
    numbers = making.numbers
    width, height = numbers.get("top.width"), numbers.get("top.height")
    return f"The top measures {width} across and {height} down, raw edge to raw edge."


def press_top(work: Pieced) -> Step:
    """The whole top from behind, with the way each seam is pressed."""
    making = work.making
    kit = making.kit
    alternate = kit.project.pressing is Pressing.ALTERNATE
    picture = Picture(kit=kit, key="press-top", shows="the top from behind, its seams pressed")
    ring = offset(kit.patchwork.outline, [float(kit.project.allowance)] * making.sides)
    view = _from_behind(work, ring)
    picture.shades(work.shades)
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
    right = min(view.point((box(ring)[0], 0.0))[0], view.window[1][0])
    picture.signs(iron((right + 10.0, 20.0), way=(-1.0, 0.0)))
    if not work.whole:
        picture.name("and so on", (view.window[3]), (-0.7, 0.7))
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
        check=sewn_check(making),
        drawing=picture.drawing(),
    )


def _from_behind(work: Pieced, ring: Ring) -> View:
    """All of the top, or of a large one a corner, seen from behind."""
    room = Room(30.0, 0.0, 80.0, 80.0)
    if work.whole:
        return whole(ring, room, MIRRORED)
    corner = [p for patch in work.patches for p in patch.raw]
    return detail(corner, room, MIRRORED)


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
