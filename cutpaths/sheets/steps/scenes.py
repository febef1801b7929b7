"""What several pictures show of the cloth: top on backing, seams, the work inside out; mm.

Each scene paints one state of the work in the front view; the view then turns it over.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from cutpaths.geometry.clip import clipped
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import (
    Ring,
    along,
    box,
    directions,
    edges,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.paint import Paint
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Motion, Point
from cutpaths.sheets.seen import Part, as_sewn, border, edge, front, inner_edge
from cutpaths.sheets.steps.cutting import folded, side_of
from cutpaths.sheets.steps.exploded import patches_of, to_raw_edge
from cutpaths.sheets.steps.ink import WHITE, disc, pin
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making, belongs_to
from cutpaths.sheets.steps.picture import LETTER_DISC, OUTLINE_MM, Picture
from cutpaths.sheets.steps.shades import shades_of
from cutpaths.sheets.steps.tints import OUTLINE, Cloth
from cutpaths.sheets.steps.view import View

LETTER_GAP = LETTER_DISC + 1.8
BAR_MM = 1.7  # half a back-tack's bar on the sheet
TACK_AT = (1.3, 2.3)  # where its bars stand on the sheet, from the seam's end
MANY_PATCHES = 400  # a top of more is drawn without them
PALE = Paint(colour=(0xF4, 0xF4, 0xF4))
PALE_MM = 0.9
_PAPER = Paint(colour=WHITE)


def loupe(
    picture: Picture, main: View, at: Point, radius: float, center: Point, size: float
) -> View:
    """A round detail at a larger scale, with a ring about what it enlarges.

    Args:
        picture: the picture.
        main: the view of which it shows a part.
        at: middle of that part in the front view.
        radius: mm of cloth about it.
        center: middle of the detail on the sheet.
        size: its radius.
    """
    scale = size / radius
    x, y = main.turn.point(at)
    small = main.point(at)
    ring = disc(small, max(radius * main.scale, 2.2))
    for start, end in edges(ring):
        picture.sheet_line((start, end), Role.DIMENSION)
    way = unit(sub(center, small))
    near = along(small, way, max(radius * main.scale, 2.2))
    picture.sheet_line((near, along(center, way, -size)), Role.DIMENSION)
    window = disc(center, size)
    for start, end in edges(window):
        picture.sheet_line((start, end), Role.DIMENSION)
    view = View(
        turn=main.turn,
        low=(x - radius, y - radius),
        at=(center[0] - size, center[1] - size),
        scale=scale,
        window=window,
    )
    picture.background(window, _PAPER)
    return view


def top_cloth(picture: Picture, view: View, kit: Kit, cloth: Cloth, place: Motion) -> None:
    """The raw top with its patch seams, set down by a motion of the front view."""
    picture.layer(view, place.ring(kit.blanket.top), cloth)
    if shows_patches(picture, kit):
        sewn = as_sewn(kit)
        for seam in kit.patchwork.all_seams():
            ends = sewn(seam.start), sewn(seam.end)
            picture.seam(view, (place.point(ends[0]), place.point(ends[1])))


def top_right(picture: Picture, view: View, kit: Kit) -> None:
    """The raw top right side up, its patches in their shades."""
    picture.layer(view, kit.blanket.top, Cloth.TOP_RIGHT)
    if not shows_patches(picture, kit):
        return
    sewn = as_sewn(kit)
    patches = patches_of(kit)
    shades = shades_of(kit)
    picture.shades(tuple(shades.values()))
    for patch in patches:
        ring = tuple(sewn(p) for p in to_raw_edge(patch, kit.patchwork.outline))
        seen = clipped(ring, kit.blanket.top)
        picture.layer(view, seen, Cloth.TOP_RIGHT, paint=shades[patch.fabric], outlined=False)
    for seam in kit.patchwork.all_seams():
        picture.seam(view, (sewn(seam.start), sewn(seam.end)))
    for ends in edges(kit.blanket.top):
        picture.stroke(view, ends, OUTLINE, OUTLINE_MM)


def panel_seams(picture: Picture, view: View, kit: Kit) -> None:
    """The joining seams of the backing."""
    if kit.panels is None:
        return
    home = kit.backing.places[0]
    for seam in kit.panels.seams:
        picture.seam(view, (home.point(seam.start), home.point(seam.end)))


def backing_cloth(picture: Picture, view: View, kit: Kit, cloth: Cloth) -> None:
    """The flat backing as it is cut."""
    picture.layer(view, kit.blanket.backing, cloth)
    panel_seams(picture, view, kit)


def ready_to_sew(picture: Picture, view: View, making: Making, side: int) -> None:
    """The flat backing right side up, the top on it right side down, at one side."""
    kit = making.kit
    backing_cloth(picture, view, kit, Cloth.BACKING_RIGHT)
    top_cloth(picture, view, kit, Cloth.TOP_WRONG, making.onto_backing(side))


def dots_of(picture: Picture, view: View, making: Making, side: int) -> None:
    """Both dots of a side."""
    here, far = making.corners_of(side)
    for point in (here.miter[1], far.miter[0]):
        picture.dot(view, point)


def pins_of(picture: Picture, view: View, making: Making, side: int) -> dict[str, list[Point]]:
    """Pins at dots, center and quarter marks of a side; their places on the sheet by kind."""
    place = making.onto_backing(side)
    out = view.way(making.out(side))
    here, far = making.corners_of(side)
    at = belongs_to(side)
    center = [place.point(m.points[0]) for m in making.top_marks(MarkKind.CENTER, at)]
    quarters = [place.point(m.points[0]) for m in making.top_marks(MarkKind.QUARTER, at)]
    found = {"center": center, "dot": [here.miter[1], far.miter[0]], "quarter": quarters}
    for points in found.values():
        for point in points:
            picture.signs(pin(view.point(point), out))
    picture.entry(Entry.of_pin())
    return {kind: [view.point(p) for p in points] for kind, points in found.items()}


def seam_of(
    picture: Picture, view: View, making: Making, side: int, *, place: Motion | None = None
) -> None:
    """The stitches of a side with a back-tack at each end, the opening left out.

    Args:
        picture: the picture.
        view: the view.
        making: what is made.
        side: the side.
        place: where the top lies; on the flat backing unless given.
    """
    motion = making.onto_backing(side) if place is None else place
    marks = select(making.kit.blanket.top_marks, MarkKind.STITCH, letter(side))
    for mark in marks:
        ends = tuple(motion.point(p) for p in mark.points)
        picture.line(view, ends, Role.STITCH, meaning="stitches")
        tacks(picture, view, ends)


def tacks(picture: Picture, view: View, ends: Sequence[Point]) -> None:
    """Back-tacks at both ends of a line of stitches, as two bars on the sheet."""
    start, end = view.points(ends)
    for here, other in ((start, end), (end, start)):
        way = unit(sub(other, here))
        side = right_of(way)
        for reach in TACK_AT:
            on = along(here, way, reach)
            bar = along(on, side, BAR_MM), along(on, side, -BAR_MM)
            if _seen(bar, view.window):
                picture.sheet_line(bar, Role.OPENING)
    picture.entry(Entry.of_line(Role.OPENING, "back-tack (a few stitches back and forth)"))


def _seen(points: Iterable[Point], window: Ring) -> bool:
    left, foot, right, head = box(window)
    return all(left < x < right and foot < y < head for x, y in points)


def side_letters(
    picture: Picture,
    view: View,
    ring: Ring,
    *,
    only: Iterable[int] | None = None,
    gap: float = LETTER_GAP,
) -> None:
    """Letters of sides, outside the middles of the edges of a ring of the front view."""
    wanted = None if only is None else set(only)
    for i, ((start, end), way) in enumerate(zip(edges(ring), directions(ring), strict=True)):
        if wanted is None or i in wanted:
            out = view.way(right_of(way))
            picture.letter(letter(i), along(view.point(middle(start, end)), out, gap))


def ear(making: Making, i: int) -> Ring:
    """The loose cloth at corner i, folded in half on its crease, as it lies on side i - 1."""
    corner = making.kit.blanket.corners[i]
    crease = corner.fold_point, corner.fold_end
    half = side_of(making.kit.blanket.backing, crease, corner.miter[1])
    loose = side_of(half, (corner.miter[1], corner.fold_point), corner.fold_end)
    return folded(loose, edges(making.kit.blanket.finished)[i])


def inside_out(
    picture: Picture, view: View, making: Making, *, ears: bool, mitered: bool = False
) -> None:
    """The sewn work laid flat inside out, the top up; with its loose corners or with miters."""
    kit = making.kit
    finished, seam = kit.blanket.finished, kit.blanket.seam
    picture.layer(view, finished, Cloth.BACKING_WRONG)
    if mitered:
        for inner, outer in zip(seam, finished, strict=True):
            picture.line(view, (inner, outer), Role.STITCH, meaning="stitches")
    top_cloth(picture, view, kit, Cloth.TOP_WRONG, making.front_view)
    if ears:
        for i in range(making.sides):
            picture.layer(view, ear(making, i), Cloth.BACKING_WRONG)
    covers = [ear(making, i) for i in range(making.sides)] if ears else []
    for mark in making.top_marks(MarkKind.STITCH):
        picture.line(view, mark.points, Role.STITCH, under=covers, meaning="stitches")


def opening_ends(making: Making) -> tuple[Point, Point] | None:
    """Ends of the opening on the top's seam, in the front view; None without one."""
    opening = making.kit.opening
    if opening is None:
        return None
    start, end = edges(making.kit.blanket.seam)[opening.side]
    way = unit(sub(end, start))
    return along(start, way, opening.start), along(start, way, opening.end)


def front_side(picture: Picture, view: View, kit: Kit, *, pale: bool = False) -> None:
    """The finished front: patches, and the border's sides with their miters.

    Args:
        picture: the picture.
        view: the view.
        kit: what is made.
        pale: whether the seam of the border is pale, so that stitches on it are seen.
    """
    shades = shades_of(kit)
    many = kit.pieced and not shows_patches(picture, kit)
    if not many:
        picture.shades(tuple(shades.values()))
    for part in _border_only(kit, next(iter(shades))) if many else front(kit):
        if _is_top(part):
            paint = None if many else shades[part.fabric]
            picture.layer(view, part.outline, Cloth.TOP_RIGHT, paint=paint, outlined=False)
            closed = (*part.outline, part.outline[0])
            picture.seam(view, closed)
        else:
            picture.layer(view, part.outline, Cloth.BACKING_RIGHT, outlined=False)
    for inner, outer in zip(inner_edge(kit), edge(kit), strict=True):
        picture.stroke(view, (inner, outer), OUTLINE, 0.3)
    for ends in edges(inner_edge(kit)):
        picture.stroke(view, ends, PALE if pale else OUTLINE, PALE_MM if pale else OUTLINE_MM)
    for ends in edges(edge(kit)):
        picture.stroke(view, ends, OUTLINE, OUTLINE_MM)


def _border_only(kit: Kit, fabric: str) -> tuple[Part, ...]:
    """The border, and the top as if it were all of one fabric."""
    parts = border(kit)
    top = Part(key="top", fabric=fabric, outline=inner_edge(kit), lie=parts[0].lie)
    return (top, *parts)


def shows_patches(picture: Picture, kit: Kit) -> bool:
    """Whether the patches of a top are drawn: it has some, and not too many to be told apart."""
    if not kit.pieced:
        return False
    few = sum(len(piece.places) for piece in kit.patchwork.pieces()) <= MANY_PATCHES
    if not few:
        picture.entry(Entry("patches are not drawn"))
    return few


def _is_top(part: Part) -> bool:
    return not part.key.startswith("border")
