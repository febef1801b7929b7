"""What commands cost to start and run, as ratios to what they cannot do without; run it by hand.

Whole processes, CPU time of the medians of several runs, taken in turn so that a busy machine slows
them alike. `figures` stands beside `import click`, `write` beside the import of its libraries.

Run as `python tests/bench/bench_startup.py [runs]`.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = str(ROOT / "fixtures" / "tidepool.toml")
RUNS = 9

CLICK = "import click"
LIBRARIES = "import shapely, ezdxf, svgwrite, click, msgspec"
COMMAND = ("-m", "cutpaths")


def commands(folder: str) -> dict[str, tuple[str, ...]]:
    """What is measured, by its name; the arguments of a Python of its own."""
    write = (*COMMAND, "write", EXAMPLE, "-o", folder, "--force")
    return {
        "python": ("-c", "pass"),
        CLICK: ("-c", CLICK),
        LIBRARIES: ("-c", LIBRARIES),
        "--help": (*COMMAND, "--help"),
        "figures": (*COMMAND, "figures", EXAMPLE),
        "prove": (*COMMAND, "prove", EXAMPLE),
        "write": write,
        "write --no-check": (*write, "--no-check"),
    }


def cpu_seconds(arguments: tuple[str, ...]) -> float:
    """User and system time of one process from start to end."""
    before = os.times()
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True, cwd=ROOT)
    after = os.times()
    return (
        after.children_user + after.children_system - before.children_user - before.children_system
    )


def medians(runs: int) -> dict[str, float]:
    """Median CPU time of each command; a first round fills the caches and is not counted."""
    with tempfile.TemporaryDirectory() as folder:
        named = commands(folder)
        taken: dict[str, list[float]] = {name: [] for name in named}
        for count in range(runs + 1):
            for name, arguments in named.items():
                seconds = cpu_seconds(arguments)
                if count:
                    taken[name].append(seconds)
    return {name: median(each) for name, each in taken.items()}


def main() -> None:
    """Prints CPU time and ratios of every command."""
    found = medians(int(sys.argv[1]) if len(sys.argv) > 1 else RUNS)
    for name, seconds in found.items():
        sys.stdout.write(f"{seconds * 1000:7.0f} ms  {name}\n")
    for name, beside in (
        ("--help", CLICK),
        ("figures", CLICK),
        ("write", LIBRARIES),
        ("write --no-check", LIBRARIES),
    ):
        sys.stdout.write(f"{found[name] / found[beside]:7.2f} times `{beside}`: {name}\n")


if __name__ == "__main__":
    main()
