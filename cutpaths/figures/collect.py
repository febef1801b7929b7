"""All figures of a kit, group by group."""

from __future__ import annotations

from collections.abc import Iterator
from string import ascii_uppercase
from typing import TYPE_CHECKING

from cutpaths.figures.borders import border_folds, borders
from cutpaths.figures.cloth import backing_cloth, cloth_notes
from cutpaths.figures.corners import corner_groups
from cutpaths.figures.deviations import deviations, heading
from cutpaths.figures.model import (
    Figure,
    Figures,
    Group,
    count,
    length,
    size,
    widest,
    words,
)
from cutpaths.figures.patches import patch_seams, patches, seam_notes
from cutpaths.figures.seam_test import seam_test
from cutpaths.figures.sizes import filling_size, on_the_ruler, sizes
from cutpaths.figures.thread import thread
from cutpaths.geometry.marks import Mark, MarkKind, corner_name, letter, select
from cutpaths.geometry.polygons import Ring, box, distance, edges, middle
from cutpaths.later import Later
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction

if TYPE_CHECKING:
    from cutpaths.figures import measured, outlines
else:
    measured = Later("cutpaths.figures.measured")
    outlines = Later("cutpaths.figures.outlines")

# A center this near to the middle of the raw side may be found by folding.
FOLDING_MM = 0.1


def figures_of(kit: Kit) -> Figures:
    """Collects every figure of a kit."""
    groups = (
        Group("Blanket", _blanket(kit)),
        Group("The top as it was sewn", measured.measured(kit) if kit.project.measured else ()),
        Group("The backing's cloth", backing_cloth(kit)),
        Group("Filling", _filling(kit)),
        Group("Patches", patches(kit)),
        Group("Patch seams", patch_seams(kit)),
        Group("Sides", _sides(kit)),
        *(outlines.outline_groups(kit) if sizes(kit.project) is None else ()),
        Group("Turning opening", _opening(kit)),
        *corner_groups(kit),
        Group("Sewing and marking", _sewing(kit)),
        Group("Seam test", seam_test(kit)),
        Group("Thread, by a rule of the trade", thread(kit)),
        Group(heading(kit.project), deviations(kit.project)),
    )
    return Figures(
        project=kit.project.title,
        digest=kit.project.digest,
        groups=tuple(group for group in groups if group.figures),
        notes=(
            *kit.notes,
            *seam_notes(kit),
            *_center_notes(kit),
            *cloth_notes(kit),
            *_ruler_notes(kit),
        ),
    )


def _blanket(kit: Kit) -> tuple[Figure, ...]:
    """Sizes of the finished blanket, the top and the backing, and the borders."""
    project, blanket = kit.project, kit.blanket
    ruler = project.ruler
    settled = sizes(project)
    sewn = measured.sewn_words(project.measured) if project.measured else ""
    top = f"top, raw edge to raw edge{sewn}"
    labels = {"finished": "finished blanket", "backing": "backing, cut", "top": top}
    if not _folded_over(kit):
        labels["seen"] = "top, between stitching lines"
    found: list[tuple[Figure, ...]]
    if settled is None:
        rings = blanket.finished, blanket.backing, blanket.top, blanket.seam
        pairs = zip(labels.items(), map(_extent, rings), strict=False)
        found = [widest(key, label, *extent, ruler) for (key, label), extent in pairs]
    else:
        exact_sizes = settled.finished, settled.backing, settled.raw, settled.seen
        named = zip(labels.items(), exact_sizes, strict=False)
        found = [size(key, label, *pair, ruler) for (key, label), pair in named]
    sized = (figure for pair in found for figure in pair)
    return (*sized, *borders(project), *border_folds(project))


def _folded_over(kit: Kit) -> bool:
    """Whether nothing is sewn round the top, so that no word may speak of its seam."""
    return kit.project.construction is Construction.FOLDED_OVER


def _extent(ring: Ring) -> tuple[float, float]:
    left, bottom, right, top = box(ring)
    return right - left, top - bottom


def _filling(kit: Kit) -> tuple[Figure, ...]:
    """The cut size of what lies between the layers, and how far inside the edge it ends."""
    piece, asked, ruler = kit.filling, kit.project.filling, kit.project.ruler
    if piece is None or asked is None:
        return ()
    inside = length("filling.less", "inside the finished edge all round", asked.less, ruler)
    of_all = inside, count("filling.count", "cut for one blanket", piece.count, "piece")
    settled = filling_size(kit.project)
    if settled is not None:
        return (*size("filling", "filling, cut", *settled, ruler), *of_all)
    sides = _each_side("filling", "raw edge of the filling", piece.outline, ruler)
    return (*widest("filling", "filling, cut", *piece.size, ruler), *sides, *of_all)


def _sides(kit: Kit) -> tuple[Figure, ...]:
    """Length of each side from dot to dot and, on outlines that are no rectangle, raw.

    Folded over there are no dots: only the raw edge of the top is told.
    """
    blanket, ruler = kit.blanket, kit.project.ruler
    top = _each_side("top", "raw edge of the top", blanket.top, ruler)
    if _folded_over(kit):
        return tuple(top)
    sewn = _each_side("seam", "dot to dot", blanket.seam, ruler)
    if sizes(kit.project) is not None:
        return tuple(sewn)
    backing = tuple(corner.backing_point for corner in blanket.corners)
    return (*sewn, *top, *_each_side("backing", "raw edge of the backing", backing, ruler))


def _each_side(name: str, label: str, ring: Ring, ruler: Ruler) -> list[Figure]:
    """One figure for all sides where they are alike on the page, else one for each."""
    lengths = [as_fraction(distance(start, end)) for start, end in edges(ring)]
    if len(set(lengths)) == 1:
        return [length(f"side.{name}", f"each side, {label}", lengths[0], ruler)]
    return [
        length(f"side.{letter(i).lower()}.{name}", f"side {letter(i)}, {label}", mm, ruler)
        for i, mm in enumerate(lengths)
    ]


def _opening(kit: Kit) -> tuple[Figure, ...]:
    opening, ruler = kit.opening, kit.project.ruler
    if opening is None:
        return ()
    dot = f"from the dot at corner {corner_name(opening.side, len(kit.blanket.seam))}"
    return (
        words("opening.side", "on side", letter(opening.side)),
        length("opening.length", "length left unsewn", opening.length, ruler),
        length("opening.start", f"first end, {dot}", opening.start, ruler),
        length("opening.end", f"second end, {dot}", opening.end, ruler),
    )


def _sewing(kit: Kit) -> tuple[Figure, ...]:
    order = " ".join(letter(i) for i in kit.order)
    faces = f"top {kit.top.face.value} (mirrored), backing {kit.backing.face.value}"
    return (
        words("sides", "sides, seen from the front", _sides_words(kit)),
        words("order", "sides, in order" if _folded_over(kit) else "sides in sewing order", order),
        words("faces", "as they lie when marked", faces),
        *_allowances(kit),
    )


def _allowances(kit: Kit) -> Iterator[Figure]:
    """The seam allowance, and on a turned blanket where it is basted and its miters are trimmed."""
    project, turned = kit.project, not _folded_over(kit)
    ruler = project.ruler
    if turned or kit.pieced:
        yield length("seam.allowance", "seam allowance", project.allowance, ruler)
    if turned:
        label = "basting, in from the top's raw edge"
        yield length("seam.basting", label, project.basting, ruler)
        yield length("miter.trim", "what is left outside a miter's stitches", project.trim, ruler)


def _sides_words(kit: Kit) -> str:
    sides = len(kit.blanket.seam)
    if sides == 4:
        return "A foot, B right, C head, D left"
    return f"A to {letter(sides - 1)}, counter-clockwise, A at the foot"


def _center_notes(kit: Kit) -> tuple[str, ...]:
    """Sides whose center mark is not the middle of the backing's raw side, as the ruler tells."""
    ruler = kit.project.ruler
    least = max(FOLDING_MM, float(ruler.step / 2))
    centers = [(m.at, _off_middle(kit, m)) for m in select(kit.backing.marks, MarkKind.CENTER)]
    off = [f"{at} by {ruler.text(as_fraction(mm))}" for at, mm in centers if mm > least]
    if not off:
        return ()
    return (
        "Do not find centers by folding the backing in half: the center mark is off the middle of"
        f" its raw side on {', '.join(off)}.",
    )


def _off_middle(kit: Kit, center: Mark) -> float:
    """How far a center mark lies from the middle of its raw side."""
    corners = kit.blanket.corners
    i = ascii_uppercase.index(center.at)
    start, end = corners[i].backing_point, corners[(i + 1) % len(corners)].backing_point
    at_edge = kit.backing.places[0].point(center.points[1])
    return distance(middle(start, end), at_edge)


def _ruler_notes(kit: Kit) -> tuple[str, ...]:
    """The nearest border that leaves no size off the ruler's marks, and what it makes of them."""
    ruler = kit.project.ruler
    found = on_the_ruler(kit.project, ruler)
    if found is None:
        return ()
    finished = " x ".join(ruler.text(mm) for mm in found.sizes.finished)
    backing = " x ".join(ruler.text(mm) for mm in found.sizes.backing)
    return (
        f"Some sizes are off the ruler (marked ~): a border of {ruler.text(found.border)} puts all"
        f" on it, finished {finished}, backing {backing}.",
    )
