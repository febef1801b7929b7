"""What commands cost to start and run, as ratios to what they cannot do without; run it by hand.

Whole processes. `figures` stands beside `import click`, `write` beside the import of its libraries.
Where valgrind is installed their instructions are counted, which a busy machine does not change;
else it is CPU time, the medians of several runs taken in turn.

Run as `python tests/bench/bench_startup.py [runs]`; runs are those of the CPU time.
"""

from __future__ import annotations

import compileall
import os
import re
import shutil
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
USES = ("--for", "cad", "--for", "cutter", "--for", "projector")
COUNTED = ("valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null")


def commands(folder: str) -> dict[str, tuple[str, ...]]:
    """What is measured, by its name; the arguments of a Python of its own."""
    write = (*COMMAND, "write", EXAMPLE, "-o", folder, "--force", *USES)
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


def run(*command: str) -> str:
    """Runs a command with hashes as they are in every run; what it says on standard error."""
    settled = {**os.environ, "PYTHONHASHSEED": "0"}
    done = subprocess.run(
        command, check=True, capture_output=True, cwd=ROOT, env=settled, encoding="utf-8"
    )
    return done.stderr


def instructions(arguments: tuple[str, ...]) -> float:
    """Millions of instructions of one process from start to end."""
    found = re.search(r"Collected : (\d+)", run(*COUNTED, sys.executable, *arguments))
    if found is None:
        raise ValueError("valgrind tells no count of instructions")
    return int(found[1]) / 1e6


def cpu_seconds(arguments: tuple[str, ...]) -> float:
    """User and system time of one process from start to end."""
    before = os.times()
    run(sys.executable, *arguments)
    after = os.times()
    return (
        after.children_user + after.children_system - before.children_user - before.children_system
    )


def medians(named: dict[str, tuple[str, ...]], runs: int) -> dict[str, float]:
    """Median CPU time of each command, ms."""
    taken: dict[str, list[float]] = {name: [] for name in named}
    for _ in range(runs):
        for name, arguments in named.items():
            taken[name].append(cpu_seconds(arguments) * 1000)
    return {name: median(each) for name, each in taken.items()}


def main() -> None:
    """Prints cost and ratios of every command."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else RUNS
    # A first run would compile; an environment may keep Python from saving what it compiles.
    compileall.compile_dir(ROOT / "cutpaths", quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        named = commands(folder)
        counted = shutil.which("valgrind") is not None
        if counted:
            found = {name: instructions(arguments) for name, arguments in named.items()}
        else:
            found = medians(named, runs)
    unit = "million instructions" if counted else "ms"
    for name, cost in found.items():
        sys.stdout.write(f"{cost:7.0f} {unit}  {name}\n")
    for name, beside in (
        ("--help", CLICK),
        ("figures", CLICK),
        ("write", LIBRARIES),
        ("write --no-check", LIBRARIES),
    ):
        sys.stdout.write(f"{found[name] / found[beside]:7.2f} times `{beside}`: {name}\n")


if __name__ == "__main__":
    main()
