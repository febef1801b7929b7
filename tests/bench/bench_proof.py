"""Times the proof of tops of 1,000, 10,000 and 40,000 patches.

Run by hand: `python tests/bench/bench_proof.py`. Prints seconds and exits 1 where 10,000 patches
take 2 s or more.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from builders import project, squares

from cutpaths.pieces import build
from cutpaths.proof import prove

LIMIT = 2.0  # s
CASES = ((40, 25, None), (100, 100, LIMIT), (200, 200, None))


def seconds(columns: int, rows: int) -> float:
    """The best of three proofs."""
    kit = build(project(squares(columns, rows), (2, 2, 2, 2)))
    times = []
    for _ in range(3):
        start = time.perf_counter()
        assert prove(kit).passed
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> int:
    """Times every case."""
    missed = False
    for columns, rows, limit in CASES:
        took = seconds(columns, rows)
        print(f"{columns * rows:>6} patches {took:6.2f} s")  # noqa: T201
        missed |= limit is not None and took >= limit
    return int(missed)


if __name__ == "__main__":
    sys.exit(main())
