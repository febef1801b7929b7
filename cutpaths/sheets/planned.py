"""The cutting plans of a kit, worked out once for all papers that tell of them."""

from __future__ import annotations

from functools import lru_cache

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.steady import steady_plan
from cutpaths.errors import InputError
from cutpaths.pieces import Kit
from cutpaths.values import Value

KEPT = 2  # kits whose plans are remembered


class Planned(Value, kw_only=True):
    """What cloth a kit takes.

    Attributes:
        kit: the kit, its backing joined where its cloth is too narrow.
        plans: how each fabric is cut; empty where that cannot be.
        notes: what a person should know of the plans.
        error: why there is no plan; None where there is one.
    """

    kit: Kit
    plans: tuple[FabricPlan, ...] = ()
    notes: tuple[str, ...] = ()
    error: InputError | None = None


class _This(Value):
    """A kit that is known by itself and not by what is in it."""

    kit: Kit

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and self.kit is other.kit

    def __hash__(self) -> int:
        return id(self.kit)


def planned(kit: Kit) -> Planned:
    """The cutting plans of a kit, those that `cutpaths cloth` shows unasked."""
    return _planned(_This(kit))


@lru_cache(maxsize=KEPT)
def _planned(this: _This) -> Planned:
    try:
        made = steady_plan(this.kit)
    except InputError as error:
        return Planned(kit=this.kit, error=error)
    return Planned(kit=made.kit, plans=made.plans, notes=made.notes)
