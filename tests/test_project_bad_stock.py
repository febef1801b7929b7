"""Bad input about cloth: what is told."""

from __future__ import annotations

import pytest
from bad_input import SOUND

from cutpaths.errors import InputError
from cutpaths.project import read

ROWS = [
    ("width = 0", "`fabric.sand.stock.width` must be more than 0, got '0'"),
    ("width = -4", "`fabric.sand.stock.width` must be more than 0, got '-4'"),
    (
        'price = "12 crowns"',
        "`fabric.sand.stock.price` must be a number such as 12.50, got '12 crowns'",
    ),
    ("price = true", "`fabric.sand.stock.price` must be a number such as 12.50, got 'true'"),
    ("price = nan", "`fabric.sand.stock.price` must be a number such as 12.50, got 'nan'"),
    ("price = 1e9", "`fabric.sand.stock.price` must be a number such as 12.50, got '1e9'"),
    ("price = -1", "`fabric.sand.stock.price` must not be less than 0, got '-1'"),
    (
        "shrinkage = { length = 100, width = 3 }",
        "`fabric.sand.stock.shrinkage.length` must be less than 100, got '100'",
    ),
    (
        "shrinkage = { length = 7.4 }",
        "`fabric.sand.stock.shrinkage.width` is missing. Write for example `width = 2.8`",
    ),
    (
        'sold = "bale"',
        "`fabric.sand.stock.sold` must be length, pack or quarters, got 'bale'",
    ),
    (
        'sold = "pack"\npiece = { width = 5, height = 5 }',
        "`fabric.sand.stock.count` is missing. Say what is in a pack: `count = 42`",
    ),
    (
        'sold = "pack"\npiece = { width = 5, height = 5 }\ncount = 42\nwashed = "before"',
        '`fabric.sand.stock.washed` must be "after" for a pack: precuts cannot be washed first. '
        "They would shrink and fray out of size",
    ),
    (
        'sold = "pack"\npiece = { width = 5, height = 5 }\ncount = 4\nprints = 5',
        "`fabric.sand.stock.prints` must not be over the pack's count, 4, got 5",
    ),
    (
        "count = 42",
        '`fabric.sand.stock.count` is only for `sold = "pack"`. Leave it out',
    ),
    (
        "piece = { width = 5, height = 5 }",
        '`fabric.sand.stock.piece` is only for `sold = "quarters"` or "pack". Leave it out',
    ),
    (
        "flannel = true\nplies = 5",
        "`fabric.sand.stock.plies` must not be over 4 for flannel, got 5",
    ),
    ("plies = 21", "`fabric.sand.stock.plies` must not be over 20, got 21"),
    (
        "strip_ends = 20",
        "`fabric.sand.stock.strip_ends` must be less than half the usable width, 20 in, got 20 in",
    ),
    (
        'grain = { border = "lengthwise" }',
        "`fabric.sand.stock.grain.border` must be for backing, filling, panels, patches or top",
    ),
    (
        "on_hand = [{ count = 2 }]",
        "`fabric.sand.stock.on_hand.length` item 1 is missing. "
        'Write for example { length = "2 yd" }',
    ),
    (
        "bolts = 0",
        "`fabric.sand.stock.bolts` must be a whole number from 1 to 250,000, got '0'",
    ),
]


@pytest.mark.parametrize(("keys", "told"), ROWS, ids=[keys for keys, _ in ROWS])
def test_bad_stock(keys: str, told: str) -> None:
    """Each gets one line: the key, what is wrong, what would be right."""
    with pytest.raises(InputError) as caught:
        read(f"{SOUND}[fabric.sand.stock]\n{keys}\n", name="pond.toml")
    place, line = str(caught.value).split(": ", 1)
    assert place.startswith("pond.toml:")
    assert line == told


JOINS = [
    ('seams = 3, run = "down"', "`backing.join.seams` must be 1 or 2, got '3'"),
    ('seams = 1, run = "up"', "`backing.join.run` must be across or down, got 'up'"),
    (
        'seams = 2, run = "down", at = [12]',
        "`backing.join.at` must have one place for each seam, 2, got 1",
    ),
    (
        'seams = 2, run = "down", at = [20, 12]',
        "`backing.join.at` must go up from the left, or from the foot",
    ),
]


@pytest.mark.parametrize(("keys", "told"), JOINS, ids=[keys for keys, _ in JOINS])
def test_bad_joins(keys: str, told: str) -> None:
    """A joined backing's keys are judged before any panel is made."""
    with pytest.raises(InputError) as caught:
        read(f"{SOUND}[backing]\njoin = {{ {keys} }}\n", name="pond.toml")
    assert str(caught.value).split(": ", 1)[1] == told
