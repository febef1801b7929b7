"""Steps that prepare and mark the turned top and backing; mm.

Both lie wrong side up: the backing as the front view shows it, the top as its mirror image.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind, letter
from cutpaths.geometry.polygons import (
    along,
    box,
    distance,
    middle,
    sub,
    unit,
)
from cutpaths.project.model import BackingCorners
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.ink import GAP, stroke
from cutpaths.sheets.steps.key import Entry
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import (
    backing_cloth,
    loupe,
    opening_ends,
    panel_seams,
    side_letters,
    top_cloth,
)
from cutpaths.sheets.steps.step import Stage, Step
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
    yield _mark_backing(making)


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
        check=f"Joined, the backing measures {_backing_size(making)}.",
        drawing=picture.drawing(),
    )


def _backing_size(making: Making) -> str:
    numbers = making.numbers
    return f"{numbers['backing.width']} across and {numbers['backing.height']} down"


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


def center_tick(picture: Picture, view: View, points: Sequence[Point], *, bar: bool) -> None:
    """A mark from the raw edge across its seam; the center's is longer and has a bar."""
    place, edge = view.points(points)
    if distance(place, edge) < 1e-6:
        return
    inward = unit(sub(place, edge))
    reach = TICK_MM if bar else 0.9
    inner = along(place, inward, reach)
    picture.sheet_line((edge, inner), Role.CENTER if bar else Role.MATCH)
    if bar:
        side = -inward[1], inward[0]
        picture.sheet_line((along(inner, side, 1.4), along(inner, side, -1.4)), Role.CENTER)


def side_ticks(picture: Picture, view: View, marks: Sequence[Mark]) -> None:
    """Centers, quarter marks and ticks at patch seams."""
    for mark in marks:
        if mark.kind is MarkKind.CENTER:
            center_tick(picture, view, mark.points, bar=True)
            picture.entry(Entry.of_line(Role.CENTER, "center mark (with a bar)"))
        elif mark.kind in (MarkKind.QUARTER, MarkKind.PATCH_SEAM):
            center_tick(picture, view, mark.points, bar=False)
            picture.entry(Entry.of_line(Role.MATCH, "tick: quarter or patch seam"))


def _baste(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="baste-top", shows="the top basted round its edge")
    view = whole(kit.blanket.top, MAIN, MIRRORED)
    corner = kit.blanket.seam[0]
    near = loupe(picture, view, corner, _close(making), LOUPE, LOUPE_MM)
    ring = making.top_marks(MarkKind.BASTE)[0].points
    for each in (view, near):
        top_cloth(picture, each, kit, Cloth.TOP_WRONG, making.front_view)
        picture.line(each, ring, Role.BASTE, closed=True, meaning="basting, long stitches")
    for each in (near,):
        for mark in making.top_marks(MarkKind.STITCH):
            picture.line(each, mark.points, Role.DIMENSION)
    picture.name("seam line, not yet sewn", near.point(along(corner, _on(making), 12.0)), (0.0, 1))
    basting = near.point(along(ring[0], _on(making), 18.0))
    picture.name("basting", basting, (0.0, -1.0))
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Baste round the top",
        words=(
            "Press the top flat. Do not pull its edges.",
            "Sew long stitches all round, inside the seam allowance.",
            "Keep them between the raw edge and the seam line, so that they stay hidden.",
        ),
        check="The edge lies flat, and no basting lies on the inner side of the seam line.",
        drawing=picture.drawing(),
    )


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
    for each in (view, near):
        top_cloth(picture, each, kit, Cloth.TOP_WRONG, making.front_view)
        for mark in making.top_marks(MarkKind.STITCH):
            picture.line(each, mark.points, Role.STITCH, meaning="seam line")
        for point in kit.blanket.seam:
            picture.dot(each, point)
    side_ticks(picture, view, kit.blanket.top_marks)
    _gap(picture, view, making, None)
    side_letters(picture, view, kit.blanket.top)
    center = making.top_marks(MarkKind.CENTER, lambda at: at == letter(kit.order[0]))[0]
    picture.name("center", view.point(center.points[0]), (0.3, 1.0))
    picture.name("dot, where two seam lines meet", near.point(corner), (0.0, 1.0))
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the top",
        words=(
            "Lay the top wrong side up. It is now the mirror image of the front, and so are its"
            " letters.",
            f"Mark the seam line {numbers.allowance} from the raw edge.",
            "Mark a dot at each corner, where two seam lines meet.",
            "Mark the center of each seam line, half way between its dots.",
            *_opening_words(making),
        ),
        check=_lengths_words(making),
        drawing=picture.drawing(),
    )


def _lengths_words(making: Making) -> str:
    """What to measure from dot to dot."""
    numbers = making.numbers
    alike: dict[str, list[str]] = {}
    for i in range(making.sides):
        alike.setdefault(numbers.side(i), []).append(letter(i))
    if len(alike) == 1:
        return f"From dot to dot each side measures {numbers.side(0)}."
    parts = [f"{' and '.join(names)} {text}" for text, names in alike.items()]
    return f"From dot to dot: {'; '.join(parts)}."


def _opening_words(making: Making) -> tuple[str, ...]:
    opening, numbers = making.kit.opening, making.numbers
    if opening is None:
        return ()
    return (
        f"On side {letter(opening.side)} mark both ends of the opening,"
        f" {numbers['opening.start']} and {numbers['opening.end']} from the dot where it starts.",
    )


def _gap(picture: Picture, view: View, making: Making, side: int | None) -> None:
    """The opening as a heavy line, on the top, or on the flat backing for a side."""
    ends = opening_ends(making)
    if ends is None:
        return
    place = making.front_view if side is None else making.onto_backing(side)
    first, last = (view.point(place.point(p)) for p in ends)
    picture.signs(((stroke(first, last, 1.1), GAP),))
    picture.name("opening", middle(first, last), (0.0, -1.0 if last[1] > 20.0 else 1.0))


def _mark_backing(making: Making) -> Step:
    kit = making.kit
    picture = Picture(kit=kit, key="mark-backing", shows="the marks of the backing, wrong side up")
    view = whole(kit.blanket.backing, MAIN)
    corner = kit.blanket.corners[0]
    reach = 0.66 * max(distance(corner.backing_point, p) for p in corner.miter)
    spot = middle(corner.backing_point, corner.fold_point)
    spot = middle(spot, corner.fold_point)
    near = loupe(picture, view, spot, max(reach, 1.25 * _spread(spot, corner.miter)), LOUPE, 25.0)
    for each in (view, near):
        backing_cloth(picture, each, kit, Cloth.BACKING_WRONG)
        for kind, role, meaning in (
            (MarkKind.STITCH, Role.STITCH, "seam and miter line"),
            (MarkKind.MITER_STITCH, Role.STITCH, "seam and miter line"),
            (MarkKind.MITER_FOLD, Role.FOLD, "fold"),
            (MarkKind.BORDER_FOLD, Role.FOLD, "fold"),
            (MarkKind.MITER_TRIM, Role.TRIM, "trim line"),
        ):
            for mark in making.backing_marks(kind):
                picture.line(each, mark.points, role, meaning=meaning)
        for mark in making.backing_marks(MarkKind.DOT):
            picture.dot(each, mark.points[0])
    side_ticks(picture, view, kit.blanket.backing_marks)
    if kit.opening is not None:
        _gap(picture, view, making, kit.opening.side)
    side_letters(picture, view, making.uncut_backing)
    before, after = tuple(corner.at)
    picture.name(f"dot of {before}", near.point(corner.miter[0]), (-0.5, 1.0))
    picture.name(f"dot of {after}", near.point(corner.miter[1]), (0.6, -1.0))
    picture.name("fold point", near.point(corner.fold_point), (0.7, 0.7))
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the backing",
        words=(
            f"Lay the backing wrong side up. It is cut {_backing_size(making)}.",
            *_dot_words(making),
            "Mark the seam line between the two dots of each side, and its center.",
            "Draw the miter line from each dot to the fold point, and the fold.",
            *_template_words(making),
            *_trim_note(making),
        ),
        check=_lengths_words(making),
        drawing=picture.drawing(),
    )


def _spread(spot: Point, points: Sequence[Point]) -> float:
    return max(distance(spot, p) for p in points)


def _dot_words(making: Making) -> Iterator[str]:
    """Where the dots of each kind of corner stand."""
    numbers, cards = making.numbers, making.kit.templates
    for n, card in enumerate(cards, 1):
        where = "At each corner" if len(cards) == 1 else f"At {_corner_list(card.corners)}"
        inward = dict(numbers.at_corner(n, "dot/in"))
        parts = []
        for side, text in numbers.at_corner(n, "dot/along"):
            deep = inward.get(side) or inward.get("", "")
            of = f"the dot of side {side}" if side else "a dot on either side"
            parts.append(f"{of}: {text} along the raw edge, {deep} in")
        yield f"{where} mark {'; '.join(parts)}."


def _corner_list(corners: Sequence[str]) -> str:
    return f"corner {corners[0]}" if len(corners) == 1 else f"corners {', '.join(corners)}"


def _template_words(making: Making) -> tuple[str, ...]:
    """How the card lies, where it may lie the wrong way."""
    found = []
    for n, card in enumerate(making.kit.templates, 1):
        text = making.numbers.get(f"corner.{n}.template")
        if text:
            found.append(f"Corner template at {_corner_list(card.corners)}: {text}.")
    return tuple(found)


def _trim_note(making: Making) -> tuple[str, ...]:
    if making.kit.project.corners is BackingCorners.TRIMMED:
        return (
            "The corners of the backing are cut off already.",
            "Measure along a raw edge from where its corner would be.",
        )
    return ()
