"""Steps of the sides after the first: turned and pinned, the rest, and the work laid flat; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import Ring, edges, middle
from cutpaths.roles import Role
from cutpaths.sheets.steps.cutting import side_of
from cutpaths.sheets.steps.lines import STITCHES
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import dots_of, pins_of, side_letters, top_cloth
from cutpaths.sheets.steps.section import bulging, flat, opposite
from cutpaths.sheets.steps.side_words import quartered, side_list, side_title, sides_title
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import Room, View, whole

MAIN = Room(12.0, 0.0, 66.0, 74.0)
CUT_AT, CUT_LONG = (95.0, 40.0), 31.0  # where a cut through the work starts, and how wide it is
BELOW_PINS = 11.0


def next_side(making: Making) -> Step:
    """The work turned round: the second side pinned, the first sewn."""
    order = making.kit.order
    first, side = order[0], order[1]
    name = letter(side)
    picture = Picture(kit=making.kit, key="next-side", shows=f"side {name} pinned")
    _pinned(picture, making, side, order[:1])
    across = opposite(making, side) == first
    if across:
        _cut_through(picture, making, first)
    opening = making.kit.opening
    leaves = opening is not None and opening.side == side
    quarters = ", quarter mark on quarter mark" if side in quartered(making) else ""
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title=f"Turn the work and pin {side_title(side)}",
        words=(
            f"Turn the work until side {name} lies nearest.",
            f"Pull the raw edge of side {name} of the backing to that of the top.",
            f"Pin as before: center on center, dot on dot{quarters}.",
            *(("The backing is larger, so it bulges below the top. It must.",) if across else ()),
            "Do not sew yet: this side has the opening." if leaves else "Sew from dot to dot.",
        ),
        check=f"The top lies flat, and the pins of side {name} hold only the raw edges.",
        drawing=picture.drawing(),
    )


def other_sides(making: Making) -> Step:
    """The third side pinned, the first two sewn."""
    order = making.kit.order
    rest, side = order[2:], order[2]
    picture = Picture(kit=making.kit, key="other-sides", shows=f"side {letter(side)} pinned")
    _pinned(picture, making, side, order[:2])
    _cut_through(picture, making, order[0])
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title=f"Pin and sew {sides_title(rest)}",
        words=(
            f"Pin and sew {side_list(rest)} in the same way{', in this order' * (len(rest) > 1)}.",
            "Where a side is sewn already, fold the spare corner of the backing out of the way.",
            "Start and stop at the dots. Do not catch the spare corners.",
        ),
        check="Each seam ends at its dots, and every corner of the backing is loose.",
        drawing=picture.drawing(),
    )


def lay_flat(making: Making) -> Step:
    """Before and after: the bulge of the backing pushed out into the border, cut through."""
    side = making.kit.order[0]
    picture = Picture(kit=making.kit, key="lay-flat", shows="the work laid flat, cut through")
    deep = bulging(picture, making, side, (17.0, 30.0), 38.0)
    level = 30.0 - deep / 2
    picture.move_arrow((66.0, level), (74.0, level), 0.0, 1.6)
    flat(picture, making, side, (86.0, level - 2.5), 40.0)
    low = 30.0 - deep - 17.0
    picture.text("before", (36.0, low))
    picture.text("after", (106.0, low))
    return Step(
        key=picture.key,
        stage=Stage.JOINING,
        title="Lay the work flat",
        words=(
            "The picture shows the work cut through.",
            "Lay it down with the top upward. Push the slack of the backing outward to all sides.",
            "It folds where the edge of the blanket will be, and so becomes the border.",
        ),
        check="The backing stands out beside the top all round. Top and backing lie flat.",
        drawing=picture.drawing(),
    )


def _cut_through(picture: Picture, making: Making, side: int) -> None:
    """The bulge at the right of the picture."""
    deep = bulging(picture, making, side, CUT_AT, CUT_LONG)
    picture.text("cut through", (CUT_AT[0] + CUT_LONG / 2, CUT_AT[1] - deep - 18.0))


def _pinned(picture: Picture, making: Making, side: int, sewn: Sequence[int]) -> View:
    """A side along the foot, pinned; the sides that are sewn hold the backing to the top."""
    kit = making.kit
    place = making.onto_backing(side)
    backing, spare = _backing_left(making, side, sewn), _loose(making, side, sewn)
    rings = [backing, place.ring(kit.blanket.top), *spare]
    view = whole([p for ring in rings for p in ring], MAIN, making.sewing(side))
    for ring in rings[:1] + rings[2:]:
        picture.layer(view, ring, Cloth.BACKING_RIGHT)
    top_cloth(picture, view, kit, Cloth.TOP_WRONG, place)
    for i in sewn:
        ends = [place.point(p) for p in edges(kit.blanket.seam)[i]]
        picture.line(view, ends, Role.STITCH, meaning=STITCHES)
    dots_of(picture, view, making, side)
    pins_of(picture, view, making, side)
    top = place.ring(kit.blanket.top)
    side_letters(picture, view, top, only=[side], gap=BELOW_PINS)
    side_letters(picture, view, top, only=sewn)
    for ring in spare[:1]:
        center = sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
        picture.name("spare corner, folded", view.point(center), (0.0, 1.0))
    return view


def _backing_left(making: Making, side: int, sewn: Sequence[int]) -> Ring:
    """What lies flat of the backing: it ends where a side of the top is sewn to it."""
    kit = making.kit
    place = making.onto_backing(side)
    ring: Ring = kit.blanket.backing
    center = place.point(middle(kit.blanket.seam[0], kit.blanket.seam[making.sides // 2]))
    for i in sewn:
        first, last = edges(place.ring(kit.blanket.top))[i]
        ring = side_of(ring, (first, last), center)
    return ring


def _loose(making: Making, side: int, sewn: Sequence[int]) -> list[Ring]:
    """The spare corners at the ends of a side whose neighbour is sewn, each folded in half."""
    found = []
    for corner, own, neighbour in _ends(making, side):
        if neighbour in sewn:
            crease = corner.fold_point, corner.fold_end
            half = side_of(making.kit.blanket.backing, crease, corner.miter[own])
            line = corner.miter[own], corner.fold_point
            found.append(side_of(half, line, corner.fold_end))
    return found


def _ends(making: Making, side: int) -> tuple[tuple[Corner, int, int], ...]:
    """Both corners of a side, which of their dots is its own, and the side beyond them."""
    here, far = making.corners_of(side)
    return (here, 1, (side - 1) % making.sides), (far, 0, (side + 1) % making.sides)
