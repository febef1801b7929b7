"""Times grids of many patches: geometry, counts and proof.

Run by hand: `python tests/bench/bench_layouts.py`. Prints the seconds for 10,000 patches (limit 3)
and the ratio of the times per patch at 100,000 and at 10,000 (limit 1.3), and exits 1 where one
is over. Python's collector of cycles is off: nothing here is
cyclic, and its passes over everything alive would be measured instead.
"""

from __future__ import annotations

import gc
import sys
import time
from fractions import Fraction

from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import Project, read
from cutpaths.project.cells import read_cells
from cutpaths.project.patchwork import Grid
from cutpaths.proof import prove
from cutpaths.values import replace

SIDE, LARGE_SIDE = 100, 316  # cells; 10,000 and 99,856 patches
SECONDS_MOST = 3.0
GEOMETRY_MOST = 1.0
RATIO_MOST = 1.3
ROUNDS = 3

PROJECT = """
format = 1
title = "Bench"
[fabric.sand]
[fabric.sea]
[top]
layout = "squares"
patch = 5
chart = ["sand sea", "sea sand"]
[backing]
fabric = "sea"
[border]
width = 2
"""


def project(side: int) -> Project:
    """A square grid of plain cells in two fabrics, each column and row 2 in wide."""
    names = "sand", "sea"
    chart = [" ".join(names[(x * x + y) % 3 % 2] for x in range(side)) for y in range(side)]
    sizes = (2 * INCH,) * side
    return replace(read(PROJECT), top=Grid(columns=sizes, rows=sizes, cells=read_cells(chart)))


def geometry_seconds(made: Project) -> float:
    """Processor time of the patchwork alone."""
    top = made.top
    if not isinstance(top, Grid):
        raise TypeError("the benchmark lays out grids")
    start = time.process_time()
    rules = PatchRules(allowance=made.allowance, directional={"sand": False, "sea": False})
    found = grid(top.columns, top.rows, top.cells, rules)
    count = sum(piece.count for piece in found.pieces())
    seconds = time.process_time() - start
    if count != len(top.cells):
        raise AssertionError(f"{count} patches, not {len(top.cells)}")
    return seconds


def whole_seconds(made: Project) -> float:
    """Processor time of geometry, counts and proof together."""
    start = time.process_time()
    kit = build(made)
    proof = prove(kit)
    seconds = time.process_time() - start
    if not proof.passed:
        raise AssertionError(str(proof.failed[0]))
    return seconds


def main() -> int:
    """Measures, prints and judges."""
    gc.disable()
    small, large = project(SIDE), project(LARGE_SIDE)
    prove(build(small))  # loads the libraries
    share = Fraction(LARGE_SIDE**2, SIDE**2)
    over = False
    for name, seconds, most in (
        ("geometry", geometry_seconds, GEOMETRY_MOST),
        ("geometry, counts and proof", whole_seconds, SECONDS_MOST),
    ):
        least = min(seconds(small) for _ in range(ROUNDS))
        ratio = min(seconds(large) for _ in range(ROUNDS)) / least / float(share)
        sys.stdout.write(f"{name}: {least:.2f} s for {SIDE**2} patches (limit {most})\n")
        sys.stdout.write(
            f"    per patch {ratio:.2f} times that for {LARGE_SIDE**2} (limit {RATIO_MOST})\n"
        )
        over = over or least > most or ratio > RATIO_MOST
    return int(over)


if __name__ == "__main__":
    sys.exit(main())
