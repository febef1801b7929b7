"""Figures about the backing's cloth: the widest border for its width, and cutting on the fold."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.figures.model import Figure, length, size, words
from cutpaths.figures.sizes import Pair, sizes
from cutpaths.lengths import Ruler
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric, Project
from cutpaths.project.sizes import border_of_backing
from cutpaths.project.stock import Sold, Stock


def backing_fabric(project: Project) -> Fabric:
    """The backing's fabric."""
    return next(f for f in project.fabrics if f.name == project.backing_fabric)


def backing_waits(kit: Kit) -> bool:
    """Whether the backing is cut only once the sewn top was measured.

    A top of several patches seldom comes out to size; one of one cloth does. Common practice, no
    source.
    """
    return kit.pieced and kit.project.measured is None


def backing_cloth(kit: Kit) -> tuple[Figure, ...]:
    """What the cloth's width allows, and the halves to cut on the fold."""
    return (*_widest_border(kit.project), *_on_the_fold(kit.project))


def _widest_border(project: Project) -> tuple[Figure, ...]:
    """The widest equal border for which the backing is cut in one; where the stock is known."""
    settled, fabric = sizes(project), backing_fabric(project)
    stock = fabric.stock
    if settled is None or stock is None or stock.sold is Sold.PACK:
        return ()
    border = widest_border(settled.raw, stock, project, lying=not fabric.directional)
    label = "widest border without joining the backing"
    if border is None:
        return (words("cloth.border", label, "none: the top is as wide as the cloth"),)
    return (length("cloth.border", label, border, project.ruler),)


def widest_border(raw: Pair, stock: Stock, project: Project, *, lying: bool) -> Fraction | None:
    """The widest equal border that one usable width allows, down to the ruler's step.

    Args:
        raw: the raw top, across and down.
        stock: the backing's cloth.
        project: how it is sewn.
        lying: whether the backing may lie across the cloth.
    """
    room = stock.width - 2 * stock.strip_ends
    across = min(raw) if lying else raw[0]
    border = border_of_backing(room, across, project.turn_of_cloth)
    on_step = border // project.ruler.step * project.ruler.step
    return on_step if on_step > 0 else None


def _on_the_fold(project: Project) -> Iterator[Figure]:
    """Half and quarter of the backing; only where opposite borders are equal."""
    settled = sizes(project)
    if settled is None or project.join is not None:
        return
    foot, right, head, left = project.borders
    width, height = settled.backing
    ruler: Ruler = project.ruler
    if left == right:
        label = "backing on one fold"
        yield from size("fold.half", label, width / 2, height, ruler)
        if foot == head:
            label = "backing on two folds"
            yield from size("fold.quarter", label, width / 2, height / 2, ruler)


def cloth_notes(kit: Kit) -> Iterator[str]:
    """What to know of folding, and of a backing whose print has an up."""
    project = kit.project
    if sizes(project) is not None:
        foot, right, head, left = project.borders
        unlike = [
            name
            for name, pair in (("left and right", (left, right)), ("head and foot", (head, foot)))
            if pair[0] != pair[1]
        ]
        if unlike:
            yield (
                f"The borders at {' and at '.join(unlike)} differ: a backing cut on the fold "
                "would have its marks in the wrong places there."
            )
    if backing_fabric(project).directional:
        yield (
            f"The print of {backing_fabric(project).label} has an up: where the backing comes "
            "round to the front it stands upside down in the borders at head and foot."
        )
