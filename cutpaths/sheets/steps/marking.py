"""Steps that prepare and mark the turned top and backing; mm.

Both lie wrong side up: the backing as the front view shows it, the top as its mirror image.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import (
    along,
    box,
    middle,
    sub,
    unit,
)
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.backing_marks import (
    backing_size,
    mark_backing,
    mark_corners,
)
from cutpaths.sheets.steps.lines import SEAM_MARKED
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import (
    loupe,
    panel_seams,
    side_letters,
    top_cloth,
)
from cutpaths.sheets.steps.side_words import lengths_words, opening_words, quarter_words
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.ticks import opening_mark, side_ticks
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.tools import iron
from cutpaths.sheets.steps.view import MIRRORED, Room, View, whole

MAIN = Room(11.0, 0.0, 66.0, 74.0)
LEFT, RIGHT = Room(6.0, 0.0, 56.0, 66.0), Room(78.0, 0.0, 56.0, 66.0)
LOUPE, LOUPE_MM = (113.0, 40.0), 24.0
CLOSE_UP = 4.0  # how far round a dot a detail reaches, in seam allowances
TICK_MM = 2.4  # how far a center mark is drawn inward of its seam, on the sheet
APART = 0.06  # of the backing's size, between panels that are not yet joined


def marking(making: Making) -> Iterator[Step]:
    """Joining of the backing, basting of the top, and the marks of both."""
    yield _baste(making)
    if making.kit.panels is not None:
        yield join_panels(making)
    yield _mark_top(making)
    yield mark_backing(making)
    yield mark_corners(making)


def join_panels(making: Making) -> Step:
    """The panels of the backing, then the backing joined of them, wrong side up."""
    kit = making.kit
    join = kit.project.join
    picture = Picture(kit=kit, key="join-backing", shows="the backing joined of panels")
    apart = [(ring, number) for number, ring in enumerate(_panels_apart(making), 1)]
    before = whole([p for ring, _ in apart for p in ring], LEFT)
    after = whole(kit.blanket.backing, RIGHT)
    for ring, number in apart:
        picture.layer(before, ring, Cloth.BACKING_WRONG)
        left, foot, right, head = box(before.points(ring))
        picture.caption(f"{number}", ((left + right) / 2, (foot + head) / 2))
    picture.layer(after, kit.blanket.backing, Cloth.BACKING_WRONG)
    panel_seams(picture, after, kit)
    picture.move_arrow((65.0, 33.0), (75.0, 33.0), 0.0, 1.6)
    seams = kit.panels.seams if kit.panels is not None else ()
    home = kit.backing.places[0]
    for seam in seams:
        ends = home.point(seam.start), home.point(seam.end)
        picture.line(after, ends, Role.STITCH, meaning="stitches")
    spot = after.point(home.point(middle(seams[0].start, seams[0].end)))
    picture.signs(iron((spot[0] + 13.0, spot[1])))
    picture.name("press the seam open", spot, (0.7, 0.7))
    way = "from head to foot" if join is not None and join.down else "from left to right"
    count = len(apart)
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Join the backing",
        words=(
            f"The backing is joined of {count} panels. The seams run {way}.",
            "Lay two panels right sides together and sew along the joining edge.",
            "Press the seams open.",
        ),
        check=f"Joined, the backing measures {backing_size(making)}.",
        drawing=picture.drawing(),
    )


def _panels_apart(making: Making) -> Iterator[tuple[Point, ...]]:
    """The panels as they are cut, a gap between them, in the front view."""
    kit = making.kit
    home = kit.backing.places[0]
    join = kit.project.join
    down = join is not None and join.down
    size = max(kit.backing.size) * APART
    parts = kit.panels.parts if kit.panels is not None else ()
    for number, part in enumerate(parts):
        if isinstance(part, Piece):
            step = size * number
            off = shift(step, 0.0) if down else shift(0.0, step)
            yield part.places[0].then(home).then(off).ring(part.outline)


def _baste(making: Making) -> Step:
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="baste-top", shows="the top basted round its edge")
    view = whole(kit.blanket.top, MAIN, MIRRORED)
    corner = kit.blanket.seam[0]
    near = loupe(picture, view, corner, _close(making), LOUPE, LOUPE_MM)
    ring = making.top_marks(MarkKind.BASTE)[0].points
    for each in (view, near):
        top_cloth(picture, each, kit, Cloth.TOP_WRONG, making.front_view)
        picture.line(each, ring, Role.BASTE, closed=True, meaning="basting, long stitches")
    for mark in making.top_marks(MarkKind.STITCH):
        picture.line(near, mark.points, Role.MATCH, meaning=SEAM_MARKED)
    basted = along(ring[0], _on(making), float(kit.project.allowance) * 1.6)
    depth = float(kit.project.basting)
    _across(picture, near, (basted, making.out(0), depth), numbers["seam.basting"])
    side_letters(picture, view, kit.blanket.top)
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Baste round the top",
        words=(
            "Press the top flat. Do not pull its edges.",
            f"Sew long stitches all round, {numbers['seam.basting']} from the raw edge.",
            f"The seam line comes next, {numbers.allowance} from the raw edge. The basting lies"
            " outside it and stays hidden.",
        ),
        check="The edge lies flat, and no basting lies on the inner side of the seam line.",
        drawing=picture.drawing(),
    )


def _across(
    picture: Picture, view: View, place: tuple[Point, Point, float], text: str, turn: float = -1.0
) -> None:
    """A length square to a raw edge, from a place inward: where it starts, way out, how long."""
    start, out, long = place
    low, high = view.point(along(start, out, long)), view.point(start)
    picture.arrow_both(low, high)
    picture.name(text, low, (0.0, turn))


def _on(making: Making) -> Point:
    """The way of side A from its start."""
    seam = making.kit.blanket.seam
    return unit(sub(seam[1], seam[0]))


def _close(making: Making) -> float:
    return float(making.kit.project.allowance) * CLOSE_UP


def _mark_top(making: Making) -> Step:
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="mark-top", shows="the marks of the top, wrong side up")
    view = whole(kit.blanket.top, MAIN, MIRRORED)
    corner = kit.blanket.seam[0]
    near = loupe(picture, view, corner, _close(making), LOUPE, LOUPE_MM)
    basting = making.top_marks(MarkKind.BASTE)[0].points
    for each in (view, near):
        top_cloth(picture, each, kit, Cloth.TOP_WRONG, making.front_view)
        for mark in making.top_marks(MarkKind.STITCH):
            picture.line(each, mark.points, Role.MATCH, meaning=SEAM_MARKED)
        for point in kit.blanket.seam:
            picture.dot(each, point)
    picture.line(near, basting, Role.BASTE, closed=True, meaning="basting, long stitches")
    side_ticks(picture, view, kit.blanket.top_marks)
    opening_mark(picture, view, making, None)
    side_letters(picture, view, kit.blanket.top)
    spot = along(corner, _on(making), float(kit.project.allowance) * 1.6)
    place = spot, making.out(0), float(kit.project.allowance)
    _across(picture, near, place, numbers.allowance)
    picture.name("dot, where two seam lines meet", near.point(corner), (0.0, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the top",
        words=(
            "Lay the top wrong side up. It is now the mirror image of the front, and so are its"
            " letters.",
            f"Mark the seam line {numbers.allowance} from the raw edge. It is sewn later.",
            "Mark a dot at each corner, where two seam lines meet.",
            "Mark the center of each seam line, half way between its dots.",
            *quarter_words(making),
            *opening_words(making),
        ),
        check=lengths_words(making),
        drawing=picture.drawing(),
    )
