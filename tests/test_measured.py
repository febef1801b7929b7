"""[measured]: what may be taped, what cannot be true, and which remedy is chosen."""

from __future__ import annotations

from fractions import Fraction

import pytest
from bad_input import SOUND

from cutpaths.lengths import INCH
from cutpaths.project import read
from cutpaths.project.measured import Difference, Measured, Remedy, remedy_for

# The sound project's top is 27 1/2 x 32 in, raw edge to raw edge: a diagonal of 42.19 in.
TRUE = 'sides = { A = "27 1/2", B = 32, C = "27 1/2", D = 32 }\ndiagonals = { DA-BC = 42.2 }'
LEANS = (
    'sides = { A = "27 1/2", B = 32, C = "27 1/2", D = 32 }\n'
    'diagonals = { DA-BC = "42 7/8", AB-CD = "41 1/2" }'
)
UNEVEN = 'sides = { A = 28, B = 32, C = 27, D = 32 }\ndiagonals = { DA-BC = "42 1/4" }'
FOLDED = 'title = "Pond"\nconstruction = "folded-over"'


def inches(*numbers: float | Fraction) -> tuple[Fraction, ...]:
    """Lengths in mm from inches."""
    return tuple(Fraction(number) * INCH for number in numbers)


def measured(table: str, head: str = 'title = "Pond"') -> Measured:
    """The measured top of the sound project."""
    top = read(SOUND.replace('title = "Pond"', head) + f"[measured]\n{table}\n").measured
    assert top is not None
    return top


def test_everything_taped_is_kept_exactly() -> None:
    """Sides in the order of their letters, diagonals by their corners, the middle beside them."""
    table = LEANS.replace('A = "27 1/2"', 'A = "27 5/8"') + '\nwidth = "27 1/2"\nremedy = "ease"'
    assert measured(table) == Measured(
        width=27 * INCH + INCH / 2,
        height=None,
        sides=inches(27.625, 32, 27.5, 32),
        diagonals=(42 * INCH + INCH * 7 / 8, 41 * INCH + INCH / 2),
        remedy=Remedy.EASE,
        asked=True,
    )


def test_one_length_may_stand_for_all() -> None:
    """A bare length is every side, or both diagonals."""
    head = 'format = 1\ntitle = "Pond"\n[border]\nwidth = 2\n[top]\nlayout = "panel"\n'
    top = read(head + "cut = { width = 30, height = 30 }\n[measured]\nsides = 30\ndiagonals = 42.4")
    assert top.measured is not None
    assert top.measured.sides == inches(30, 30, 30, 30)
    assert top.measured.diagonals == (Fraction("42.4") * INCH,) * 2


def test_average_prefers_the_middle() -> None:
    """Without a middle, opposite sides are averaged; a middle line wins over them."""
    sides, diagonals = inches(28, 32, 27, 32.5), inches(42.25, 42.25)
    edges = Measured(width=None, height=None, sides=sides, diagonals=(diagonals[0], diagonals[1]))
    assert edges.average == inches(27.5, 32.25)
    middle = Measured(
        width=27 * INCH, height=None, sides=sides, diagonals=(diagonals[0], diagonals[1])
    )
    assert middle.average == inches(27, 32.25)
    assert Measured(width=30 * INCH, height=20 * INCH).average == inches(30, 20)


def test_worst_is_the_largest_part() -> None:
    """1/2 in of a 27 1/2 in side is more than 1/2 in of a 32 in one."""
    top = Measured(
        width=None,
        height=None,
        sides=inches(28, 32.5, 27.5, 32),
        diagonals=(Fraction("42.2") * INCH, None),
    )
    worst = top.worst((27 * INCH + INCH / 2, 32 * INCH))
    assert worst == Difference("side A", 28 * INCH, 27 * INCH + INCH / 2)
    assert (worst.amount, worst.part) == (INCH / 2, Fraction(1, 55))


@pytest.mark.parametrize(
    ("table", "remedy"),
    [
        (TRUE, Remedy.AS_DESIGNED),
        ('width = "27 9/16"\nheight = 32', Remedy.AS_DESIGNED),
        ('width = "27 5/8"\nheight = 32', Remedy.EASE),
        ("width = 26\nheight = 31", Remedy.EASE),
        (TRUE.replace('A = "27 1/2"', 'A = "27 3/4"'), Remedy.EASE),
        (LEANS, Remedy.CUT_TO_FIT),
        (UNEVEN, Remedy.CUT_TO_FIT),
        (f'{UNEVEN}\nremedy = "trim-top"', Remedy.TRIM_TOP),
        (f'{UNEVEN}\nremedy = "ease"', Remedy.EASE),
        (f'{UNEVEN}\nremedy = "as-designed"', Remedy.AS_DESIGNED),
        (f'{TRUE}\nremedy = "cut-to-fit"', Remedy.CUT_TO_FIT),
    ],
)
def test_remedy_is_the_least_that_serves(table: str, remedy: Remedy) -> None:
    """As designed within 1/16 in, else eased under 1 %, else cut to fit; or what is asked for."""
    assert measured(table).remedy is remedy


def test_limits_are_exact() -> None:
    """1/16 in off is still as designed; just 1 % off the average is not eased any more."""
    design = inches(100, 100)
    pair = (design[0], design[1])

    def chosen(foot: Fraction, head: Fraction, *, folded_over: bool = False) -> Remedy:
        top = Measured(
            width=None,
            height=None,
            sides=(foot, pair[1], head, pair[1]),
            diagonals=(Fraction("141.42") * INCH, None),
        )
        return remedy_for(top, pair, folded_over=folded_over)

    sixteenth = INCH / 16
    assert chosen(pair[0] + sixteenth, pair[0]) is Remedy.AS_DESIGNED
    assert chosen(pair[0] + sixteenth + Fraction(1, 10**6), pair[0]) is Remedy.EASE
    hair = Fraction(1, 10**6)
    assert chosen(101 * INCH - hair, 99 * INCH + hair) is Remedy.EASE
    assert chosen(101 * INCH, 99 * INCH) is Remedy.CUT_TO_FIT
    assert chosen(101 * INCH, 99 * INCH, folded_over=True) is Remedy.TRIM_TOP


def test_folded_over_top_is_trimmed_not_fitted() -> None:
    """A folded-over backing needs right angles, so an uneven top is trimmed."""
    assert measured(UNEVEN, FOLDED).remedy is Remedy.TRIM_TOP


@pytest.mark.parametrize(
    ("remedy", "sewn"),
    [
        ("as-designed", (27, 31.5)),
        ("ease", (27, 31.5)),
        ("cut-to-fit", None),
        ("trim-top", None),
    ],
)
def test_sewn_size_follows_the_remedy(remedy: str, sewn: tuple[float, float] | None) -> None:
    """Eased tops have the average, those as designed the design; others have no size yet."""
    project = read(SOUND + f'[measured]\n{UNEVEN}\nremedy = "{remedy}"')
    assert project.sewn_top == (None if sewn is None else inches(*sewn))


def test_backing_settles_the_border_from_the_average() -> None:
    """A backing 38 in wide round 27 1/4 in of eased top leaves 2 11/16 in; as designed 2 5/8 in."""
    text = SOUND.replace("width = 2", "backing = { width = 38, height = 42 }")
    table = '[measured]\nsides = { A = "27 3/8", B = 32, C = "27 1/8", D = 32 }\n'
    table += "diagonals = { DA-BC = 42 }\n"
    eased = read(text + table)
    assert eased.measured is not None
    assert eased.measured.remedy is Remedy.EASE
    assert eased.borders == inches(2.5, Fraction(43, 16), 2.5, Fraction(43, 16))
    designed = read(text + table + 'remedy = "as-designed"')
    assert designed.borders == inches(2.5, 2.625, 2.5, 2.625)


def test_notes_tell_what_was_chosen_for_the_person() -> None:
    """Cutting to fit unasked and trimming are said; what is asked for is not."""

    def notes(table: str) -> tuple[str, ...]:
        return read(SOUND + f"[measured]\n{table}").notes

    furthest = "side A is 1.8 % longer than the average, over the 1 % that can be eased"
    assert notes(TRUE) == ()
    assert notes(UNEVEN) == (
        f"The backing is cut to fit the top as measured, since {furthest}; `remedy` in [measured] "
        "can ask for something else.",
    )
    assert notes(f'{UNEVEN}\nremedy = "cut-to-fit"') == ()
    assert notes(f'{UNEVEN}\nremedy = "trim-top"') == (
        "Trim the top to its true rectangle before anything is marked on it.",
    )
