"""What the chapters are written from: a kit, its figures, cloths, cutting plans and steps."""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_lowercase
from typing import TYPE_CHECKING

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.errors import DrawingError, InputError
from cutpaths.figures import Figure, Figures, figures_of
from cutpaths.lengths import Ruler
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction, Fabric
from cutpaths.sheets.fabric_paint import Cloth, cloths_of
from cutpaths.sheets.planned import planned
from cutpaths.sheets.steps import Hand, Step, steps_of
from cutpaths.values import Value

if TYPE_CHECKING:
    from pathlib import Path


class Facts(Value, kw_only=True):
    """Everything that a chapter may tell.

    Attributes:
        kit: the kit, its backing joined where its cloth is too narrow.
        figures: all figures.
        by_key: the same by their keys.
        fabrics: those that the blanket takes, in order of the file.
        cloths: the paint of each fabric.
        short: a letter for each fabric, as charts have it.
        plans: how each fabric is cut; empty where that cannot be.
        unplanned: why there is no plan, a sentence each.
        hand: the hand that works.
        steps: the making, step by step.
    """

    kit: Kit
    figures: Figures
    by_key: Mapping[str, Figure]
    fabrics: tuple[Fabric, ...]
    cloths: Mapping[str, Cloth]
    short: Mapping[str, str]
    plans: tuple[FabricPlan, ...]
    unplanned: tuple[str, ...]
    hand: Hand
    steps: tuple[Step, ...]

    @property
    def ruler(self) -> Ruler:
        """How lengths are printed."""
        return self.kit.project.ruler

    @property
    def folded_over(self) -> bool:
        """Whether the border is folded onto the top, with no seam round it."""
        return self.kit.project.construction is Construction.FOLDED_OVER

    def text(self, key: str) -> str:
        """A figure as it is printed everywhere."""
        return self.by_key[key].text

    def label(self, fabric: str) -> str:
        """A fabric's name for people."""
        return next((f.label for f in self.kit.project.fabrics if f.name == fabric), fabric)


def facts_of(kit: Kit, beside: Path | None = None, hand: Hand = Hand.RIGHT) -> Facts:
    """Collects what is told of a kit; pictures of cloth are in the folder `beside`."""
    cloth, figures = planned(kit), figures_of(kit)
    joined = cloth.kit
    findings = () if cloth.error is None else cloth.error.findings
    used = {piece.fabric for piece in joined.cloth}
    fabrics = tuple(fabric for fabric in kit.project.fabrics if fabric.name in used)
    return Facts(
        kit=joined,
        figures=figures,
        by_key={figure.key: figure for group in figures.groups for figure in group.figures},
        fabrics=fabrics,
        cloths=_cloths(kit, beside),
        short={fabric.name: _letters(n) for n, fabric in enumerate(fabrics)},
        plans=cloth.plans,
        unplanned=tuple(f"{f.problem}. {f.hint}".strip() for f in findings),
        hand=hand,
        steps=steps_of(joined, hand=hand),
    )


def _cloths(kit: Kit, beside: Path | None) -> dict[str, Cloth]:
    """The cloths with their pictures; in their colours alone where a picture cannot be used."""
    try:
        return cloths_of(kit.project.fabrics, beside)
    except (InputError, DrawingError):
        return cloths_of(kit.project.fabrics)


def _letters(number: int) -> str:
    """`a` to `z`, then `aa`, `ab` ...; capitals are for sides.

    >>> _letters(0), _letters(25), _letters(26), _letters(53)
    ('a', 'z', 'aa', 'bb')
    """
    tens, ones = divmod(number, 26)
    return (_letters(tens - 1) if tens else "") + ascii_lowercase[ones]
