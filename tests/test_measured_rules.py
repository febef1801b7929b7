"""Bad [measured] tables: one line for each wrong key or length."""

from __future__ import annotations

import pytest
from bad_input import told

UNEVEN = 'sides = { A = 28, B = 32, C = 27, D = 32 }\ndiagonals = { DA-BC = "42 1/4" }'
FOLDED = 'title = "Pond"\nconstruction = "folded-over"'


def what_is_told(table: str, head: str = 'title = "Pond"') -> str:
    """What is told about a [measured] table; its first key stands in line 13."""
    return told({"width = 2": f"width = 2\n[measured]\n{table}", 'title = "Pond"': head})


AGAIN = "Measure again from raw edge to raw edge"
SIDES = 'sides = { A = "27 1/2", B = 32, C = "27 1/2", D = 32 }'
# The other diagonal of a parallelogram: sqrt(2 (27.5² + 32²) - 42²) = 42.3851.
BAD = [
    (
        "",
        "pond.toml:12: `measured` must have `width` and `height`. Give both, or `sides` and "
        "`diagonals`",
    ),
    (
        "width = 27",
        'pond.toml:12: `measured.height` is missing. Write for example `height = "35 3/8"`',
    ),
    (
        "height = 32",
        'pond.toml:12: `measured.width` is missing. Write for example `width = "30 1/8"`',
    ),
    (
        SIDES,
        "pond.toml:12: `measured.diagonals` is missing: four sides alone can lean either way. "
        "Write for example `diagonals = { DA-BC = 46 }`",
    ),
    (
        "diagonals = 42",
        "pond.toml:12: `measured.sides` is missing beside the diagonals. Write for example "
        '`sides = { A = 30, B = 35, C = "30 1/4", D = 35 }`',
    ),
    (
        "sides = { A = 27, C = 27, E = 4 }\ndiagonals = 42",
        "pond.toml:13: `measured.sides` must give a length for each of A, B, C, D, has none "
        "for B, D\n"
        "pond.toml:13: `measured.sides.E` is not a side of this top, whose sides are A, B, C, D",
    ),
    (
        f"{SIDES}\ndiagonals = {{ BC-DA = 42 }}",
        "pond.toml:14: `measured.diagonals.BC-DA` must be named by its corners, DA-BC or AB-CD, "
        "got 'BC-DA'",
    ),
    (
        'width = 27\nheight = 32\nremedy = "stretch"',
        "pond.toml:15: `measured.remedy` must be as-designed, cut-to-fit, ease or trim-top, "
        "got 'stretch'",
    ),
    (
        'width = 27\nheight = 32\nremedy = "trim-top"',
        "pond.toml:15: `measured.remedy` cannot be trim-top where only the middle is taped. "
        "Give `sides` and `diagonals` too",
    ),
    (
        "sides = { A = 27, B = 32, C = 27, D = 86 }\ndiagonals = { DA-BC = 42 }",
        "pond.toml:13: `measured.sides.D` cannot close the top: it must be shorter than the other "
        f"three sides together, 86 in, got 86 in. {AGAIN}\n"
        "pond.toml:14: `measured.diagonals.DA-BC` cannot make a triangle: it must be longer than "
        f"sides C and D differ, 59 in, got 42 in. {AGAIN}",
    ),
    (
        f"{SIDES}\ndiagonals = {{ AB-CD = 60 }}",
        "pond.toml:14: `measured.diagonals.AB-CD` cannot make a triangle: it must be shorter than "
        f"sides B and C together, 59 1/2 in, got 60 in. {AGAIN}\n"
        "pond.toml:14: `measured.diagonals.AB-CD` cannot make a triangle: it must be shorter than "
        f"sides D and A together, 59 1/2 in, got 60 in. {AGAIN}",
    ),
    (
        'sides = { A = "27 1/2", B = 32, C = 24, D = 32 }\ndiagonals = 42',
        "pond.toml:13: `measured.sides.C` must be within 10 % of the raw top as designed, 27 "
        "1/2 in, "
        f"got 24 in. {AGAIN}",
    ),
    (
        f"{SIDES}\ndiagonals = {{ AB-CD = 46 }}",
        "pond.toml:14: `measured.diagonals.AB-CD` must leave corners of 80 to 100 degrees, "
        "makes DA "
        "one of 101.0. Measure again from corner to corner",
    ),
    (
        f"{SIDES}\ndiagonals = {{ DA-BC = 42, AB-CD = 44 }}",
        "pond.toml:14: `measured.diagonals.AB-CD` must agree with the sides and diagonal "
        "DA-BC, which "
        "make it ~42.3851 in, got 44 in. Measure all of them again",
    ),
    (
        f"{SIDES}\ndiagonals = {{ DA-BC = 42 }}\nheight = 30",
        "pond.toml:15: `measured.height` must agree with the sides and diagonal DA-BC, which "
        "make it "
        "32 in, got 30 in. Measure all of them again",
    ),
    (
        "width = 0\nheight = 32",
        "pond.toml:13: `measured.width` must be more than 0, got '0'",
    ),
]


@pytest.mark.parametrize(("table", "message"), BAD)
def test_bad_tape_is_told(table: str, message: str) -> None:
    """Each wrong key or length is one line, with what is wrong and what would be right."""
    assert what_is_told(table) == message


def test_folded_over_cannot_be_cut_to_fit() -> None:
    """Asking for it is an error that names what can be asked for."""
    assert what_is_told(f'{UNEVEN}\nremedy = "cut-to-fit"', FOLDED) == (
        "pond.toml:16: `measured.remedy` cannot be cut-to-fit in a folded-over blanket, which "
        "needs "
        "right angles. Write `ease` or `trim-top`"
    )


@pytest.mark.parametrize(
    ("remedy", "message"),
    [
        (
            "",
            "pond.toml:11: `border.backing` cannot settle the border where the backing is cut "
            "to fit "
            'the top as measured. Give `width`, or `remedy = "ease"` in [measured]',
        ),
        (
            'remedy = "trim-top"',
            "pond.toml:11: `border.backing` cannot settle the border where the top as measured is "
            "still to be trimmed. Give `width`",
        ),
    ],
)
def test_sizes_settle_no_border_of_a_crooked_top(remedy: str, message: str) -> None:
    """Where the raw top is no known rectangle, only a width settles the border."""
    text = f"backing = 42\n[measured]\n{UNEVEN}\n{remedy}"
    assert told({"width = 2": text}) == message
