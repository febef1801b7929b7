"""Proves thousands of random projects of each kind; run by hand, it takes a while.

python tests/bench/long_proof.py [projects of each kind] [seed]

Prints the seed, so that what failed can be run again, and how many of each kind were made and
refused. Stops with the project that fails.
"""

from __future__ import annotations

import secrets
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from proof_tally import proved
from test_proof_random import CASES

COUNT = 2000


def main() -> None:
    """Proves as many projects of each kind as are asked for."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else secrets.randbelow(2**32)
    print(f"seed {seed}")  # noqa: T201
    for kind, (strategy, *_) in CASES.items():
        start = time.perf_counter()
        tally = proved(strategy, count, seed)
        took = time.perf_counter() - start
        keys = ", ".join(f"{key} {n}" for key, n in tally.keys.most_common()) or "none"
        print(  # noqa: T201
            f"{kind}: {tally.built} proved, {tally.refused} refused ({keys}), {took:.0f} s",
            flush=True,
        )


if __name__ == "__main__":
    main()
