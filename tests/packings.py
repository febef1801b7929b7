"""Strip-packing problems for the tests: published instances, and problems drawn at random."""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st

from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.items import Item
from cutpaths.values import Value

# The same examples on every machine, however slow it is.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

FOLDER = Path(__file__).parent.parent / "fixtures" / "strip-packing"
QUICK = Effort(seconds=None, tries=40)


class Instance(Value):
    """A published problem; `optimum` is the least height known to be possible, or a bound on it."""

    name: str
    width: int
    optimum: int
    sizes: tuple[tuple[int, int, int], ...]

    @property
    def pieces(self) -> int:
        """How many pieces there are."""
        return sum(count for _, _, count in self.sizes)

    def items(self, *, turn: bool) -> tuple[Item, ...]:
        """What is to be packed."""
        return tuple(Item(width=w, height=h, count=n, turn=turn) for w, h, n in self.sizes)


def instances() -> Iterator[Instance]:
    """Every instance of the folder; each file names its paper."""
    for path in sorted(FOLDER.glob("*.json")):
        for each in json.loads(path.read_text(encoding="utf-8"))["instances"]:
            optimum = each.get("opt_height") or each["lb_height"]
            sizes = tuple(tuple(size) for size in each["items"])
            yield Instance(each["name"], each["width"], optimum, sizes)


INSTANCES = {instance.name: instance for instance in instances()}
SMALL = [name for name, instance in INSTANCES.items() if instance.pieces <= 60]


class Problem(Value):
    """Items that all fit a strip."""

    width: Fraction
    items: tuple[Item, ...]


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Up to nine items with sizes on different grids, so that exactness is put to use."""
    width = Fraction(draw(st.integers(40, 90)), draw(st.sampled_from([1, 4, 7])))
    grid = draw(st.sampled_from([Fraction(1), Fraction(1, 8), Fraction(127, 40)]))

    def item(w: int, h: int, count: int, turn: bool) -> Item:
        return Item(width=min(w * grid, width), height=h * grid, count=count, turn=turn)

    made = st.builds(item, *[st.integers(1, 60)] * 2, st.integers(1, 4), st.booleans())
    return Problem(width, tuple(draw(st.lists(made, min_size=1, max_size=9))))
