"""Figures and words of the mitered corners; mm, from the geometry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from cutpaths.figures.model import Figure, Group, angle, area, length, words
from cutpaths.geometry.blanket import Corner, CornerType
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import distance, dot, edges, signed_area, sub, unit
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.pieces.corners import CornerTemplate
from cutpaths.shapes import Circle, Point

T = TypeVar("T")


def corner_groups(kit: Kit) -> tuple[Group, ...]:
    """One group for each distinct corner, naming the corners that share it."""
    by_name = {corner.at: (i, corner) for i, corner in enumerate(kit.blanket.corners)}
    turned = bool(select(kit.backing.marks, MarkKind.MITER_FOLD))
    describe = _turned if turned else _folded
    groups = []
    for n, template in enumerate(kit.templates, 1):
        i, corner = by_name[template.corners[0]]
        key = f"corner.{n}"
        title = "Corners " if len(template.corners) > 1 else "Corner "
        found = (
            angle(f"{key}.angle", "corner angle", corner.angle),
            *describe(kit, corner, i, key),
            *_waste(corner, key, kit.project.ruler),
            *_template(template, key, kit.project.ruler),
            words(f"{key}.check", "check", corner_check(corner, folded=not turned)),
        )
        groups.append(Group(title + ", ".join(template.corners), found))
    return tuple(groups)


def _template(template: CornerTemplate, key: str, ruler: Ruler) -> Iterator[Figure]:
    """Its sizes, by which the card is checked, and how it lies.

    For which corners it lies which face up is told where borders differ; else either will do.
    """
    card = template.piece
    edge = max(distance(start, end) for start, end in edges(card.outline))
    yield length(f"{key}.card.edge", "corner template, its longest edge", edge, ruler)
    holes = [hole.center for hole in card.holes if isinstance(hole, Circle)]
    if len(holes) > 1:
        between = distance(holes[0], holes[1])
        yield length(f"{key}.card.holes", "corner template, from hole to hole", between, ruler)
    turned = template.turned_over
    if not template.raw_edges:
        return
    as_it_lies = [at for at in template.corners if at not in turned]
    ways = (("as it lies", as_it_lies), ("turned over", turned))
    text = "; ".join(f"{way} at {', '.join(corners)}" for way, corners in ways if corners)
    yield words(f"{key}.template", "corner template", text)


def _turned(kit: Kit, corner: Corner, i: int, key: str) -> tuple[Figure, ...]:
    ruler = kit.project.ruler
    places = [
        (as_fraction(x), as_fraction(y)) for x, y in _from_corner(kit, corner, i, corner.miter)
    ]
    reach = distance(corner.miter[0], corner.fold_point)
    found: list[Figure] = []
    for name, label, (along, inward) in _named(corner, "dot", places):
        found.append(length(f"{key}.{name}.along", f"{label}, along its raw edge", along, ruler))
        found.append(length(f"{key}.{name}.in", f"{label}, in from its raw edge", inward, ruler))
    found.append(length(f"{key}.dot-to-fold", "dot to fold point", reach, ruler))
    found.append(angle(f"{key}.miter", "miter line meets the fold at", 180.0 - corner.angle))
    return tuple(found)


def _named(corner: Corner, what: str, values: Sequence[T]) -> Iterator[tuple[str, str, T]]:
    """Key, label and value of what a corner has on both its sides; once where they are alike."""
    if values[0] == values[1]:
        yield what.replace(" ", "-"), f"{what} of either side", values[0]
        return
    for side, value in zip(corner.at, values, strict=True):
        yield f"{what.replace(' ', '-')}-{side.lower()}", f"{what} of side {side}", value


def _from_corner(
    kit: Kit, corner: Corner, i: int, places: Sequence[Point]
) -> list[tuple[float, float]]:
    """For each side's place: how far along its raw edge from the corner, and how far in."""
    ring = kit.blanket.seam
    back, on = sub(ring[i - 1], ring[i]), sub(ring[(i + 1) % len(ring)], ring[i])
    found = []
    for place, way in zip(places, (unit(back), unit(on)), strict=True):
        reach = sub(place, corner.backing_point)
        along = dot(reach, way)
        found.append((along, (max(dot(reach, reach) - along**2, 0.0)) ** 0.5))
    return found


def _folded(kit: Kit, corner: Corner, i: int, key: str) -> tuple[Figure, ...]:
    ruler = kit.project.ruler
    ends = [as_fraction(along) for along, _ in _from_corner(kit, corner, i, corner.miter)]
    return tuple(
        length(f"{key}.{name}", f"{label}, along its raw edge", along, ruler)
        for name, label, along in _named(corner, "corner fold", ends)
    )


def _waste(corner: Corner, key: str, ruler: Ruler) -> tuple[Figure, ...]:
    """Where the trim line meets the raw edges, and what is cut away."""
    if not corner.waste:
        return ()
    legs = [
        as_fraction(distance(corner.backing_point, end))
        for end in (corner.trim[0], corner.trim[-1])
    ]
    ends = tuple(
        length(f"{key}.{name}", f"{label}, along its raw edge", leg, ruler)
        for name, label, leg in _named(corner, "trim line", legs)
    )
    return (*ends, area(f"{key}.waste", "cloth trimmed away", signed_area(corner.waste), ruler))


def corner_check(corner: Corner, *, folded: bool) -> str:
    """How to fold a corner and what must be seen, in words that follow its type."""
    if folded:
        return _folded_check(corner)
    meets = f"{round(180.0 - corner.angle, 2):g}"
    match corner.kind:
        case CornerType.RIGHT_EQUAL:
            return (
                f"fold so that the raw edges match; the miter line stands at {meets} degrees to the"
                " fold, 45 to the raw edges; the waste must be a triangle, a square means a wrong"
                " fold"
            )
        case CornerType.RIGHT_UNEQUAL:
            return (
                "match the dots and crease on the marked fold, the raw edges must not match;"
                " the waste must be a triangle, a square means a wrong fold"
            )
        case CornerType.OTHER:
            return (
                "match the dots and crease on the marked fold; the miter line meets the fold at"
                f" {meets} degrees; {_waste_words(corner)}"
            )


def _waste_words(corner: Corner) -> str:
    if not corner.waste:
        return "nothing is trimmed, press the allowance to one side"
    if len(corner.waste) == 3:
        return "the waste has three sides"
    dent = ", with a dent" if corner.angle < 90.0 else ""
    return f"the waste has four sides{dent}"


def _folded_check(corner: Corner) -> str:
    if corner.kind is CornerType.RIGHT_EQUAL:
        return (
            "fold the tip over the top's corner at 45 degrees and trim it, a triangle;"
            " then fold each side twice: the borders meet in a miter"
        )
    return (
        "fold the tip over the top's corner along the marked line, not at 45 degrees, and trim it,"
        " a triangle; then fold each side twice: the borders meet in a miter"
    )
