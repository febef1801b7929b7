"""How long plans of cloth take, and how near they come to their bounds. Run by hand."""

from __future__ import annotations

import time
from pathlib import Path

import click

from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.joining import with_panels
from cutpaths.cloth.kits import KitBacking, kit_runs
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.searched_strips import Search
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
    kits()
