"""The cutting plans of a kit, worked out once for all papers that tell of them."""

from __future__ import annotations

from functools import lru_cache

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.cutting import FabricPlan
from cutpaths.cloth.joining import with_panels
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.searched_strips import Search
from cutpaths.errors import InputError
from cutpaths.pieces import Kit
from cutpaths.values import Value

# As much work as `cutpaths cloth` does unasked, so that all papers buy and cut the same.
EFFORT = Effort(seconds=20.0, tries=4000)
KEPT = 2  # kits whose plans are remembered


class Planned(Value, kw_only=True):
    """What cloth a kit takes.

    Attributes:
        kit: the kit, its backing joined where its cloth is too narrow.
        plans: how each fabric is cut; empty where that cannot be.
        advice: what to say of the joining.
        error: why there is no plan; None where there is one.
    """

    kit: Kit
    plans: tuple[FabricPlan, ...]
    advice: tuple[str, ...]
    error: InputError | None = None


class _This(Value):
    """A kit that is known by itself and not by what is in it."""

    kit: Kit

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and self.kit is other.kit

    def __hash__(self) -> int:
        return id(self.kit)


def planned(kit: Kit) -> Planned:
    """The cutting plans of a kit."""
    return _planned(_This(kit))


@lru_cache(maxsize=KEPT)
def _planned(this: _This) -> Planned:
    search = Search(EFFORT)
    joined, advice = with_panels(this.kit, search)
    try:
        return Planned(kit=joined, plans=plans_of(joined, search), advice=advice)
    except InputError as error:
        return Planned(kit=joined, plans=(), advice=advice, error=error)
