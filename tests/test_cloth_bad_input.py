"""Bad stock ends each command about cloth with one clear line and no file."""

from __future__ import annotations

import sys
from pathlib import Path
from subprocess import run

import pytest
from cloths import TEXT

SEA, SAND = "fabric.sea.stock", "fabric.sand.stock"
# Command, the table of one fabric, and the line's words.
BAD = {
    "backing too wide for every way": (
        "cloth",
        SEA,
        "width = 10\nstrip_ends = 1",
        "`fabric.sea.stock.width` must hold the BACKING (35 1/2 x 40 in), got 10 in of which 8 in "
        "are left once strips are squared. Usable width of 37 1/2 in would do; or join it of "
        "panels with [backing.join]",
    ),
    "squares wider than the cloth": (
        "cloth",
        SAND,
        "width = 5",
        "`fabric.sand.stock.width` must hold PATCH-1 (42 squares of 5 in), got 5 in of which 4 in "
        "are left once strips are squared. Usable width of 6 in would do",
    ),
    "squares larger than pack pieces": (
        "cloth",
        SAND,
        'sold = "pack"\ncount = 10\npiece = { width = 4, height = 4 }',
        "`fabric.sand.stock.piece` must hold PATCH-1 (42 squares of 5 in), got 4 x 4 in. Use "
        'larger ones, or cloth that is sold = "length"',
    ),
    "nothing left of a quarter": (
        "cloth",
        SAND,
        'sold = "quarters"\nsquare_up = 10',
        "`fabric.sand.stock.piece` must hold PATCH-1 (42 squares of 5 in), got 21 x 18 in of which "
        '20 x 0 in are left to cut from. Use larger ones, or cloth that is sold = "length"',
    ),
    "only a remnant is wide enough": (
        "cloth",
        SAND,
        "width = 5\non_hand = [{ length = 20, width = 30 }]",
        "`fabric.sand.stock.width` must hold PATCH-1 (42 squares of 5 in), got 5 in of which 4 in "
        "are left once strips are squared; what is on hand holds 15 of 42. Usable width of 6 in "
        "would do",
    ),
    "no width": ("cloth", SEA, "width = 0", "width` must be more than 0, got '0'"),
    "width below 0": ("cloth", SEA, "width = -3", "width` must be more than 0, got '-3'"),
    "no bolt": ("kits", SEA, "bolt = 0", "bolt` must be more than 0, got '0'"),
    "no bolts": ("kits", SEA, "bolts = 0", "bolts` must be a whole number from 1 to 250,000, got"),
    "no plies": ("kits", SEA, "plies = 0", "plies` must be a whole number from 1 to 250,000, got"),
    "no cloth on hand": (
        "cloth",
        SEA,
        "on_hand = [{ length = 0 }]",
        "on_hand.length` item 1 must be more than 0, got '0'",
    ),
    "none of it": (
        "cloth",
        SEA,
        "on_hand = [{ length = 9, count = 0 }]",
        "on_hand.count` item 1 must be a whole number from 1 to 250,000, got '0'",
    ),
    "all is shrunk away": (
        "cloth",
        SEA,
        "shrinkage = { length = 100, width = 3 }",
        "shrinkage.length` must be less than 100, got '100'",
    ),
    "shrinkage in words": (
        "cloth",
        SEA,
        'shrinkage = { length = 3, width = "a lot" }',
        "shrinkage.width` must be a number of percent such as 7.4, got 'a lot'",
    ),
    "price in words": (
        "cloth",
        SEA,
        'price = "nine"',
        "price` must be a number such as 12.50, got 'nine'",
    ),
    "price that is no number": (
        "cloth",
        SEA,
        "price = nan",
        "price` must be a number such as 12.50, got 'nan'",
    ),
    "price below 0": ("cloth", SEA, "price = -9", "price` must not be less than 0, got '-9'"),
    "more kits than bolts": (
        "kits",
        SAND,
        "bolts = 2",
        "`fabric.sand.stock.bolts` must be at least 6 for 100 kits, got 2. They are enough for "
        "about 33 kits",
    ),
    "a bolt shorter than a backing": (
        "kits",
        SEA,
        "bolt = 20",
        "`fabric.sea.stock.bolt` must hold the BACKING (39 x 40 in), got 20 in. A bolt of 42 in "
        "would do",
    ),
    "nothing on hand": (
        "fit",
        SEA,
        "width = 44",
        "`fabric.sand.stock.on_hand` is missing. Write for example on_hand",
    ),
}


@pytest.mark.parametrize("case", BAD)
def test_one_clear_line(case: str, tmp_path: Path) -> None:
    """Status 1, one line with file, line, key and what would be right, and nothing written."""
    command, table, keys, told = BAD[case]
    file = tmp_path / "tarn.toml"
    file.write_text(f"{TEXT}[{table}]\n{keys}\n", encoding="utf-8")
    before = ["100"] if command == "kits" else []
    out = ["-o", str(tmp_path / "out")] if command == "cloth" else []
    line = [sys.executable, "-m", "cutpaths", command, *before, str(file), *out]
    done = run(line, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1
    assert done.stderr.startswith("Error: tarn.toml:")
    assert told in done.stderr
    assert list(tmp_path.iterdir()) == [file]
