"""How long plans of cloth take, and how near they come to their bounds. Run by hand."""

from __future__ import annotations

import time
from fractions import Fraction
from pathlib import Path
from random import Random

import click

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.joining import with_panels
from cutpaths.cloth.kits import KitBacking, kit_runs
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.packing.beside import least_length
from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.plain_strips import plain_strips
from cutpaths.cloth.searched_strips import Search, searched_strips
from cutpaths.pieces import build
from cutpaths.project import load

FIXTURES = Path(__file__).parent.parent.parent / "fixtures"
NAMES = ("tidepool", "kiln", "orchard", "windrose", "boathouse", "harbor")


def by_hand() -> None:
    """Each example by hand, with 2 s of search a fabric."""
    click.echo("by hand: seconds, then the gap of each fabric to its bound")
    search = Search(Effort(seconds=None, tries=4000))
    for name in NAMES:
        kit, _ = with_panels(build(load(FIXTURES / f"{name}.toml")), search)
        start = time.perf_counter()
        plans = plans_of(kit, search)
        gaps = ", ".join(f"{plan.fabric.name} {float(shopping(plan).gap):.2%}" for plan in plans)
        click.echo(f"  {name:<10} {time.perf_counter() - start:6.2f} s  {gaps}")


def mixed() -> None:
    """Sets of mixed pieces: what whole patterns and the search leave above a bound."""
    click.echo("mixed pieces from 39: plain strips, searched orders, patterns and search; seconds")
    search = Search(Effort(seconds=None, tries=2000))
    for seed in range(6):
        items = mixed_pieces(seed)
        least = float(max(lower_bounds(items, 39)[0].height, least_length(items, 39)))
        plain = sum(float(strip.height) for strip in plain_strips(items, 39)) / least - 1
        orders = float(pack_guillotine(items, 39, effort=search.effort).height) / least - 1
        start = time.perf_counter()
        strips = searched_strips(items, Fraction(39), search)
        both = sum(float(strip.height) for strip in strips) / least - 1
        seconds = time.perf_counter() - start
        click.echo(f"  {plain:7.2%} {orders:7.2%} {both:7.2%} {seconds:6.2f} s")


def mixed_pieces(seed: int) -> list[Item]:
    """Four to nine sizes on quarters of an inch, some squares, and now and then a backing."""
    draw = Random(seed)  # noqa: S311 (a bench)
    items = []
    for _ in range(draw.randint(4, 9)):
        width = Fraction(draw.randint(8, 48), 4)
        height = width if draw.random() < 0.5 else Fraction(draw.randint(8, 48), 4)
        count = draw.choice((4, 8, 12, 20, 30, 60))
        items.append(Item(width=width, height=height, count=count, turn=width != height))
    if draw.random() < 0.5:
        items.append(Item(width=Fraction(draw.randint(60, 78), 2), height=40))
    return items


def kits() -> None:
    """Many kits of triangles and squares."""
    click.echo(
        "kits of windrose and kiln: seconds, then the largest gap to the best plan of strips"
    )
    quick = Search(Effort(tries=0))
    made = [
        with_panels(build(load(FIXTURES / f"{n}.toml")), quick)[0] for n in ("windrose", "kiln")
    ]
    for number in (1, 100, 1000, 10_000):
        start = time.perf_counter()
        runs = kit_runs(made, number, KitBacking.YARDAGE, Search(Effort(seconds=2.0)))
        gap = max(float(run.strip_gap) for run in runs)
        click.echo(f"  {number:>6} kits {time.perf_counter() - start:6.2f} s  {gap:.4%}")


if __name__ == "__main__":
    by_hand()
    mixed()
    kits()
