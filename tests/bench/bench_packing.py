"""Measures packing against published instances, a packing library and proven bounds.

Run by hand: `python tests/bench/bench_packing.py [instances] [many] [kits]`, all three unless
named. Prints heights above the known optimum by class, exits 1 where a target is missed. Searches
are given a second of processor time, so that other work on the machine is not measured. What
rectpack is asked: each of its 28 packers that run, with each of its seven sorts; of many pieces
only the packers that are soon done.
"""

from __future__ import annotations

import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import product
from pathlib import Path
from random import Random
from statistics import mean, median

import rectpack

from cutpaths.values import Value, replace

sys.path.insert(0, str(Path(__file__).parent.parent))

from packings import INSTANCES, Instance

from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.free import pack_free
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import faults, pattern_faults
from cutpaths.cloth.packing.patterns import pack_patterns
from cutpaths.cloth.packing.plan import Plan
from cutpaths.cloth.packing.slices import slices_bound
from cutpaths.cloth.packing.slicing import Cutting

SECOND = Effort(seconds=1.0)
ASKED_MOST = 300  # pieces that all of rectpack's packers are asked for; more take them minutes
QUICK = ("SkylineBlWm", "GuillotineBssfSas")  # are asked for any number
MANY, MANY_SECONDS, MANY_GAP = 10_000, 5.0, 0.01
KITS_SECONDS, KITS_GAP = 2.0, 0.001


def say(line: str) -> None:
    """One line at once, however long the next takes."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


class Way(Value):
    """One way to pack, and the most that it may be above the optimum on average (C1 to C7)."""

    name: str
    pack: Callable[[Sequence[Item], int], Plan]
    upright: float | None
    turned: float | None
    rivals: str = ""  # what names of rectpack's packers must hold


WAYS = (
    Way("free", lambda items, width: pack_free(items, width, effort=SECOND), 1.3, 0.2),
    Way(
        "edge to edge",
        lambda items, width: pack_guillotine(
            items, width, cutting=Cutting.EDGE_TO_EDGE, effort=SECOND
        ),
        2.5,
        1.5,
        "Guillotine",
    ),
    Way("strips", lambda items, width: pack_guillotine(items, width, effort=SECOND), None, None),
)
SORTS = (
    rectpack.SORT_AREA,
    rectpack.SORT_PERI,
    rectpack.SORT_DIFF,
    rectpack.SORT_SSIDE,
    rectpack.SORT_LSIDE,
    rectpack.SORT_RATIO,
    rectpack.SORT_NONE,
)


def rivals() -> tuple[type, ...]:
    """Every packer of rectpack that runs."""
    guillotine = (
        f"Guillotine{fit}{split}"
        for fit, split in product(
            ("Baf", "Blsf", "Bssf"), ("Las", "Llas", "Maxas", "Minas", "Sas", "Slas")
        )
    )
    maximal = (f"MaxRects{rule}" for rule in ("Baf", "Bl", "Blsf", "Bssf"))
    skyline = (f"Skyline{rule}" for rule in ("Bl", "BlWm", "Mwf", "MwfWm", "Mwfl", "MwflWm"))
    return tuple(getattr(rectpack, name) for name in (*guillotine, *maximal, *skyline))


def rival_height(instance: Instance, *, turn: bool, name: str) -> int:
    """The least height by rectpack's packers whose names hold some word."""
    few = instance.pieces <= ASKED_MOST
    return min(
        _rival_height(instance, packer, sort, turn=turn)
        for packer in rivals()
        if name in packer.__name__ and (few or packer.__name__ in QUICK)
        for sort in SORTS
    )


def _rival_height(instance: Instance, packer: type, sort: object, *, turn: bool) -> int:
    made = rectpack.newPacker(pack_algo=packer, sort_algo=sort, rotation=turn)
    made.add_bin(instance.width, sum(max(w, h) * n for w, h, n in instance.sizes))
    for width, height, count in instance.sizes:
        for _ in range(count):
            made.add_rect(width, height)
    made.pack()
    if len(made[0]) < instance.pieces:
        return sys.maxsize
    return max(int(rect.y + rect.height) for rect in made[0])


def bench_instances() -> Iterator[str]:
    """Every instance each way; yields what misses a target."""
    for turn, way in product((False, True), WAYS):
        above: dict[str, list[float]] = defaultdict(list)
        for instance in INSTANCES.values():
            items = instance.items(turn=turn)
            plan = way.pack(items, instance.width)
            above[family(instance.name)].append(100 * float(plan.height / instance.optimum - 1))
            if faults(items, plan) or plan.height < instance.optimum:
                yield f"{way.name} {instance.name} is not sound"
            if way.name != "strips":
                rival = rival_height(instance, turn=turn, name=way.rivals)
                if plan.height > rival:
                    yield f"{way.name} {instance.name} {turn=}: {plan.height}, rectpack {rival}"
        yield from shown(way, above, turn=turn)


def family(name: str) -> str:
    """The class of an instance: C1 to C7, BENG or BKW."""
    return name.split("_")[0] if name.startswith("C") else name.rstrip("0123456789")


def shown(way: Way, above: dict[str, list[float]], *, turn: bool) -> Iterator[str]:
    """Prints the heights above the optimum, in per cent; yields the target if it is missed."""
    say(f"\n{way.name}, {'turned' if turn else 'upright'}: % above the optimum")
    for name, each in above.items():
        row = f"min {min(each):5.2f}  median {median(each):5.2f}  max {max(each):5.2f}"
        say(f"  {name:5} {row}  mean {mean(each):5.2f}")
    reached = mean(mean(each) for name, each in above.items() if name.startswith("C"))
    target = way.turned if turn else way.upright
    say(f"  C1 to C7: mean {reached:.3f}, at most {target}")
    if target is not None and reached > target:
        yield f"{way.name} {turn=}: {reached:.3f} % on C1 to C7"


def bench_many() -> Iterator[str]:
    """Ten thousand mixed pieces on eighths of an inch, placed freely."""
    for turn in (False, True):
        draw = Random(4)  # noqa: S311 (a bench)
        sizes = (
            (Fraction(draw.randint(8, 96), 8), Fraction(draw.randint(8, 96), 8))
            for _ in range(MANY)
        )
        items = [Item(width=w, height=h, turn=turn) for w, h in sizes]
        area = sum(item.width * item.height for item in items) / 42
        start = time.process_time()
        plan = pack_free(items, 42, effort=Effort(seconds=MANY_SECONDS / 4))
        seconds, gap = time.process_time() - start, float(plan.height / area - 1)
        say(f"\n{MANY} pieces {turn=}: {100 * gap:.3f} % above the area, {seconds:.1f} s")
        if gap > MANY_GAP or seconds > MANY_SECONDS or faults(items, plan):
            yield f"{MANY} pieces {turn=}"


def kit(seed: int, sizes: int, *, turn: bool) -> list[Item]:
    """Twenty pieces in so many sizes on eighths of an inch, and a backing."""
    draw = Random(seed)  # noqa: S311 (a bench)
    sides = [Fraction(draw.randint(12, 96), 8) for _ in range(2 * sizes)]
    counts = [1] * sizes
    for _ in range(20 - sizes):
        counts[draw.randrange(sizes)] += 1
    pieces = zip(sides[::2], sides[1::2], counts, strict=True)
    backing = Item(width=36, height=40)
    return [*(Item(width=w, height=h, count=n, turn=turn) for w, h, n in pieces), backing]


def bench_kits() -> Iterator[str]:
    """Many kits of twenty pieces, and one."""
    say("\nkits of twenty pieces: % above the bound of strips, of any cuts, seconds, rounding")
    for kits, sizes, turn in product((1, 100, 1000, 10_000), (5, 10, 19), (False, True)):
        items = [replace(item, count=item.count * kits) for item in kit(7, sizes, turn=turn)]
        start = time.process_time()
        plan = pack_patterns(items, 42, effort=Effort(seconds=KITS_SECONDS))
        seconds = time.process_time() - start
        free = float(plan.height / slices_bound(items, 42).height - 1)
        say(
            f"  {kits:6} {sizes:3} sizes {turn=:d}  {100 * plan.gap:8.4f} {100 * free:8.4f}"
            f"  {seconds:5.2f} s  {plan.rounding}"
        )
        missed = kits >= 1000 and (plan.gap > KITS_GAP or seconds > 1.25 * KITS_SECONDS)
        if missed or pattern_faults(items, plan):
            yield f"{kits} kits of {sizes} sizes {turn=}"


PARTS = {"instances": bench_instances, "many": bench_many, "kits": bench_kits}


def main() -> int:
    """Runs the parts named, all unless some are."""
    time.monotonic = time.process_time  # what searches look at
    missed = [miss for name in sys.argv[1:] or PARTS for miss in PARTS[name]()]
    say("\nmissed: " + ("; ".join(missed) or "nothing"))
    return bool(missed)


if __name__ == "__main__":
    sys.exit(main())
