"""Times placement and ordering of a thousand pieces, and counts beds beside a packing library.

Run by hand: `python tests/bench/bench_machine.py`. Limits: placement 10 s, ordering 5 s, never
more beds than rectpack in its best mode, 30 % less travel than in the order of the file. Exits 1
where one is missed.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Iterator
from itertools import product
from pathlib import Path as Folder

sys.path.insert(0, str(Folder(__file__).parent.parent))

import rectpack
from machine_samples import bench, part, rectangle

from cutpaths.machine.job import Job, travel
from cutpaths.machine.order import in_order
from cutpaths.machine.parts import Part
from cutpaths.machine.placement import placed
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, shift

PIECES = 1000
ROOM = 900, 600
PLACE_SECONDS, ORDER_SECONDS, SAVED = 10.0, 5.0, 0.30

_MODES = tuple(
    product(
        (rectpack.PackingBin.BNF, rectpack.PackingBin.BFF, rectpack.PackingBin.BBF),
        (rectpack.MaxRectsBssf, rectpack.MaxRectsBl, rectpack.SkylineMwf),
        (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE),
    )
)


def jobs_of(kinds: int) -> list[tuple[int, int, int]]:
    """Widths, heights and counts of a thousand pieces of some kinds."""
    lot = random.Random(kinds)  # noqa: S311 - jobs, no secret
    each = PIECES // kinds
    return [(lot.randint(30, 200), lot.randint(30, 200), each) for _ in range(kinds)]


def best_of_rectpack(jobs: list[tuple[int, int, int]]) -> int:
    """The fewest bins in any mode."""
    fewest = PIECES
    for bins, algo, sort in _MODES:
        packer = rectpack.newPacker(bin_algo=bins, pack_algo=algo, sort_algo=sort, rotation=False)
        for width, height, count in jobs:
            for _ in range(count):
                packer.add_rect(width, height)
        packer.add_bin(*ROOM, count=float("inf"))
        packer.pack()
        fewest = min(fewest, len(packer))
    return fewest


def placement(kinds: int) -> bool:
    """Lays a thousand pieces and compares."""
    jobs = jobs_of(kinds)
    parts: list[Part] = [part(rectangle(float(w), float(h)), n) for w, h, n in jobs]
    start = time.perf_counter()
    found = placed(parts, (float(ROOM[0]), float(ROOM[1])), 0.0)
    seconds = time.perf_counter() - start
    theirs = best_of_rectpack(jobs)
    beds = len(found.beds)
    sys.stdout.write(
        f"{PIECES} pieces of {kinds} kinds: {beds} beds in {seconds:.1f} s, at least "
        f"{found.fewest}, rectpack {theirs}\n"
    )
    return seconds < PLACE_SECONDS and beds <= theirs


def strewn() -> Iterator[Job]:
    """A thousand lines: outlines, holes and marks, strewn over a bed."""
    lot = random.Random(1)  # noqa: S311 - jobs, no secret
    for n in range(PIECES):
        x, y = lot.uniform(0, 860), lot.uniform(0, 560)
        if n % 3 == 0:
            yield Job(Role.CUT, "a", Path(shift(x, y).ring(rectangle(30.0, 30.0)), closed=True))
        elif n % 3 == 1:
            yield Job(Role.CUTOUT, "a", Circle((x, y), 2.0))
        else:
            yield Job(Role.STITCH, "a", Path(((x, y), (x + 30.0, y + 10.0))))


def ordering() -> bool:
    """Orders a thousand lines and compares their travel, stage by stage in both."""
    roles = list(Role)
    jobs = sorted(strewn(), key=lambda job: roles.index(job.role))
    start = time.perf_counter()
    done = in_order(jobs, bench())
    seconds = time.perf_counter() - start
    saved = 1 - travel(done) / travel(jobs)
    sys.stdout.write(f"{PIECES} lines in {seconds:.1f} s: {saved:.0%} less travel\n")
    return seconds < ORDER_SECONDS and saved >= SAVED


if __name__ == "__main__":
    sys.exit(not all([*map(placement, (1, 5, 40, 1000)), ordering()]))
