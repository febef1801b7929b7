"""Times `cutpaths arrange` as a whole process, on projects from easy to impossible.

Run by hand: `python tests/bench/bench_arrange.py`. Prints wall and processor time and
the outcome, and exits 1 where the target of 144 cells and 21 prints, 3 s, or the proof that
one print is too many, 3 s, is missed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

LIMIT = 3.0  # s
ROUNDS = 3
RUN = "from cutpaths.cli.arrange import command; command()"

# Name, cells across and down, squares of each print, limit in seconds.
CASES = (
    ("144 cells, 21 prints", 12, (7,) * 18 + (6,) * 3, LIMIT),
    ("the same with leftovers", 12, (8,) * 21, LIMIT),
    ("37 of 144 alike: proved impossible", 12, (37,) + (6,) * 17 + (5,), LIMIT),
    ("four quarters: by the solver", 12, (36,) * 4, None),
    ("22 + 20 + 20 + 19: proved by the solver", 9, (22, 20, 20, 19), None),
    ("900 cells, 18 prints", 30, (50,) * 18, None),
    ("2,500 cells, 20 prints", 50, (125,) * 20, None),
)


def project(side: int, counts: tuple[int, ...]) -> str:
    """A project of squares with the corner rule."""
    names = [f"print-{number}" for number in range(1, len(counts) + 1)]
    prints = "\n".join(f"{name} = {count}" for name, count in zip(names, counts, strict=True))
    fabrics = "\n".join(f"[fabric.{name}]" for name in names)
    return (
        'format = 1\ntitle = "Bench"\n'
        f'[top]\nlayout = "squares"\npatch = 3\ncolumns = {side}\nrows = {side}\n'
        '[border]\nwidth = 2\n[backing]\nfabric = "print-1"\n'
        f"[arrange]\ncorners = true\n[arrange.prints]\n{prints}\n{fabrics}\n"
    )


def seconds(path: Path) -> tuple[float, float, str]:
    """Wall and processor time, each the best of some rounds, and what is said about the rules."""
    best, busy, words = float("inf"), float("inf"), ""
    for _ in range(ROUNDS):
        start, before = time.perf_counter(), _processor()
        run = subprocess.run(
            [sys.executable, "-c", RUN, str(path)], capture_output=True, text=True, check=False
        )
        best = min(best, time.perf_counter() - start)
        busy = min(busy, _processor() - before)
        words = run.stdout.split("\n\n")[2].splitlines()[0]
    return best, busy, words[:60]


def _processor() -> float:
    """Processor time of all processes run so far."""
    spent = os.times()
    return spent.children_user + spent.children_system


def main() -> int:
    """Prints a line a case; 1 where a limit is missed."""
    missed = 0
    with tempfile.TemporaryDirectory() as folder:
        for name, side, counts, limit in CASES:
            path = Path(folder, "bench.toml")
            path.write_text(project(side, counts), encoding="utf-8")
            took, busy, words = seconds(path)
            missed += limit is not None and took > limit
            target = f" (limit {limit:.0f})" if limit else ""
            sys.stdout.write(f"{name}: {took:.2f} s{target}, processor {busy:.2f} s: {words}\n")
    return min(missed, 1)


if __name__ == "__main__":
    sys.exit(main())
