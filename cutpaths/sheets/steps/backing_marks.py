"""Steps that mark the turned backing, wrong side up: its sides, then its corners; mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import box, distance, middle
from cutpaths.project.model import BackingCorners
from cutpaths.roles import Role
from cutpaths.shapes import Point
from cutpaths.sheets.steps.corner_fold import Folding
from cutpaths.sheets.steps.lines import FOLD, SEAM_MARKED, TRIM
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import backing_cloth, loupe, side_letters
from cutpaths.sheets.steps.side_words import lengths_words, opening_words, quarter_words
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.ticks import opening_mark, side_ticks
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import Room, View, detail, whole

MAIN = Room(22.0, 0.0, 56.0, 66.0)
LOUPE, LOUPE_MM = (113.0, 38.0), 24.0
LARGE = Room(34.0, 0.0, 72.0, 72.0)
OUTSIDE = 12.0  # how far outside the cloth its sizes stand, on the sheet
LINES_OF_CORNER = (
    (MarkKind.MITER_FOLD, Role.FOLD, FOLD),
    (MarkKind.BORDER_FOLD, Role.FOLD, FOLD),
    (MarkKind.MITER_TRIM, Role.TRIM, TRIM),
)


def mark_backing(making: Making) -> Step:
    """Dots, seam lines and ticks of the sides, with the sizes of the backing."""
    kit, numbers = making.kit, making.numbers
    picture = Picture(kit=kit, key="mark-backing", shows="the marks of the backing, wrong side up")
    view = whole(kit.blanket.backing, MAIN)
    near = loupe(picture, view, *_about_corner(making), LOUPE, LOUPE_MM)
    for each in (view, near):
        backing_cloth(picture, each, kit, Cloth.BACKING_WRONG)
        for mark in making.backing_marks(MarkKind.STITCH):
            picture.line(each, mark.points, Role.MATCH, meaning=SEAM_MARKED)
        for mark in making.backing_marks(MarkKind.DOT):
            picture.dot(each, mark.points[0])
    side_ticks(picture, view, kit.blanket.backing_marks)
    if kit.opening is not None:
        opening_mark(picture, view, making, kit.opening.side)
    side_letters(picture, view, making.uncut_backing)
    left, foot, right, head = box(view.points(making.uncut_backing))
    picture.measure((left, foot - OUTSIDE), (right, foot - OUTSIDE), numbers["backing.width"])
    picture.measure((left - OUTSIDE, foot), (left - OUTSIDE, head), numbers["backing.height"])
    _place_of_dots(picture, near, making)
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the sides of the backing",
        words=(
            "Lay the backing wrong side up. It is larger than the top:"
            f" cut {backing_size(making)}.",
            *_dot_words(making),
            "Mark the seam line between the two dots of each side, and its center.",
            *quarter_words(making),
            *opening_words(making),
            *_trim_note(making),
        ),
        check=lengths_words(making),
        drawing=picture.drawing(),
    )


def _about_corner(making: Making) -> tuple[Point, float]:
    """Middle and radius of what a detail shows of corner 0: the corner with both its dots."""
    corner = making.kit.blanket.corners[0]
    spot = middle(corner.backing_point, middle(*corner.miter))
    far = max(distance(spot, p) for p in (*corner.miter, corner.backing_point))
    return spot, 1.3 * far


def _place_of_dots(picture: Picture, near: View, making: Making) -> None:
    """How far the dot of side A stands from the corner, along its raw edge, and its name."""
    corner = making.kit.blanket.corners[0]
    before, after = tuple(corner.at)
    first, dot_at = near.points((corner.backing_point, corner.miter[1]))
    low = first[1] - 3.0
    picture.arrow_both((first[0], low), (dot_at[0], low))
    text = making.dot_along(corner.at, after)
    picture.name(text, ((first[0] + dot_at[0]) / 2, low), (0.0, -1.0))
    picture.name(f"dot of side {after}", dot_at, (0.2, 1.0))
    picture.name(f"dot of side {before}", near.point(corner.miter[0]), (0.2, 1.0))


def mark_corners(making: Making) -> Step:
    """The lines of one corner: miter, folds and trim line, which are only marked."""
    kit = making.kit
    corner = kit.blanket.corners[0]
    picture = Picture(kit=kit, key="mark-corners", shows=f"the marks of corner {corner.at}")
    view = detail(Folding(making, corner, 1, 0).around(), LARGE, pad=1.0)
    backing_cloth(picture, view, kit, Cloth.BACKING_WRONG)
    for mark in making.backing_marks(MarkKind.STITCH):
        picture.line(view, mark.points, Role.MATCH, meaning=SEAM_MARKED)
    for mark in making.backing_marks(MarkKind.MITER_STITCH):
        for start, end in pairwise(mark.points):
            picture.miter(view, start, end)
    for kind, role, meaning in LINES_OF_CORNER:
        for mark in making.backing_marks(kind):
            picture.line(view, mark.points, role, meaning=meaning)
    for point in corner.miter:
        picture.dot(view, point)
    _names_at_corner(picture, view, making)
    return Step(
        key=picture.key,
        stage=Stage.MARKING,
        title="Mark the corners of the backing",
        words=(
            f"The picture shows corner {corner.at}. Mark {making.all_corners}.",
            "Draw the miter line from each dot to the fold point, and the fold.",
            *_fold_point_words(making),
            *_trim_line_words(making),
            *_template_words(making),
            "Mark only: nothing here is sewn or cut yet.",
        ),
        check="Both parts of each miter line are equally long.",
        drawing=picture.drawing(),
    )


def _fold_point_words(making: Making) -> Iterator[str]:
    """How far the fold point of each kind of corner lies from its dots."""
    cards = making.kit.templates
    for n, card in enumerate(cards, 1):
        where = "" if len(cards) == 1 else f"At {_corner_list(card.corners)} "
        reach = making.numbers[f"corner.{n}.dot-to-fold"]
        text = f"the fold point lies {reach} from either dot."
        yield f"{where}{text}" if where else text.capitalize()


def _trim_line_words(making: Making) -> tuple[str, ...]:
    """How far the trim line lies outside the miter line, where something is trimmed later."""
    if making.trimmed_before or not making.backing_marks(MarkKind.MITER_TRIM):
        return ()
    away = making.numbers["miter.trim"]
    return (f"Draw the trim line {away} outside the miter line, toward the backing's corner.",)


def _names_at_corner(picture: Picture, view: View, making: Making) -> None:
    """What the points and lines of the corner are."""
    corner = making.kit.blanket.corners[0]
    before, after = tuple(corner.at)
    picture.name(f"dot of side {before}", view.point(corner.miter[0]), (-1.0, 0.3))
    picture.name(f"dot of side {after}", view.point(corner.miter[1]), (0.5, -1.0))
    picture.name("fold point", view.point(corner.fold_point), (0.7, 0.7))
    _, _, right, head = box(view.window)
    left, foot, _, _ = box(view.window)
    picture.caption("mark only: do not sew, do not cut", ((left + right) / 2, head + 5.0))
    picture.caption(making.all_corners, ((left + right) / 2, foot - 6.5))


def backing_size(making: Making) -> str:
    """Its width and height as it is cut."""
    numbers = making.numbers
    return f"{numbers['backing.width']} across and {numbers['backing.height']} down"


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
