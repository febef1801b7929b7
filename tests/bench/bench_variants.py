"""How long the main sizes of many variants of a project take, from checked values; run it by hand.

python tests/bench/bench_variants.py [variants]
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import process_time

from cutpaths.figures.sizes import sizes
from cutpaths.lengths import INCH
from cutpaths.project import load
from cutpaths.project.model import Project
from cutpaths.values import replace

EXAMPLE = Path(__file__).resolve().parents[2] / "fixtures" / "tidepool.toml"
COUNT = 10_000


def variants(count: int) -> list[Project]:
    """The example with borders of its own for each variant, in steps of 1/64 in."""
    project = load(EXAMPLE)
    return [replace(project, borders=(INCH + INCH * step / 64,) * 4) for step in range(count)]


def main() -> None:
    """Prints CPU time of the sizes of all variants."""
    made = variants(int(sys.argv[1]) if len(sys.argv) > 1 else COUNT)
    start = process_time()
    distinct = {found.finished for project in made if (found := sizes(project)) is not None}
    seconds = process_time() - start
    sys.stdout.write(
        f"{seconds:.2f} s for {len(made):,} variants, {len(distinct):,} finished sizes\n"
    )


if __name__ == "__main__":
    main()
