"""What is told of a turning opening that does not fit; side C of the pond is 27 in long."""

from __future__ import annotations

import pytest
from bad_input import SOUND, SQUARES

from cutpaths.errors import InputError
from cutpaths.pieces import build
from cutpaths.project import read

PLACE = "`opening.start` must leave 2 in sewn at each dot of side C, got "
LENGTH = "`opening.length` must leave 2 in sewn at each dot of side "
LARGER = "Make the sides longer; a folded-over blanket needs no opening"
FOR = "of at least 8 in, for 4 in to turn it through and 2 in sewn at each dot; "


def told(opening: str, top: str = SQUARES) -> str:
    """What is told of the sound project with an opening, or with another top."""
    text = SOUND.replace(SQUARES, top) + opening
    with pytest.raises(InputError) as caught:
        build(read(text))
    return str(caught.value)


@pytest.mark.parametrize(
    ("opening", "message"),
    [
        # 27 - 2 - 6 = 19; without a length the shortest usual one counts: 27 - 2 - 4 = 21
        ("start = 1\nlength = 6", f"{PLACE}1 in. Choose a `start` from 2 in to 19 in"),
        ("start = 22\nlength = 6", f"{PLACE}22 in. Choose a `start` from 2 in to 19 in"),
        ("start = 0", f"{PLACE}0 in. Choose a `start` from 2 in to 21 in"),
        ("start = 3\nlength = 23", f"{PLACE}3 in. Only a `start` of 2 in fits"),
        ("start = 3\nlength = 26", f"{LENGTH}C, got 26 in. The longest opening there is 23 in"),
    ],
)
def test_what_is_asked_for_and_does_not_fit(opening: str, message: str) -> None:
    """The place is to blame where another would do, else the length."""
    assert told(f"[opening]\n{opening}\n") == message


@pytest.mark.parametrize(
    ("opening", "width", "height", "message"),
    [
        ("", 7, 6, f"`top` must have a side C {FOR}it is 6 1/2 in long. {LARGER}"),
        (
            "",
            6,
            17,
            f"`top` must have a side C {FOR}it is 5 1/2 in long. "
            'Write `side = "B"` in the table [opening]',
        ),
        (
            'side = "A"',
            6,
            17,
            f"`opening.side` must be a side {FOR}A is 5 1/2 in long. "
            'Write `side = "B"` in the table [opening]',
        ),
        ('side = "A"\nlength = 6', 4, 4, f"{LENGTH}A, got 6 in. {LARGER}"),
        ('side = "A"\nlength = 6', 4, 17, f"{LENGTH}A, got 6 in. Choose a longer side"),
    ],
)
def test_sides_without_room(opening: str, width: int, height: int, message: str) -> None:
    """The top's size, or the side, is to blame where no usual opening fits on a side."""
    table = f"[opening]\n{opening}\n" if opening else ""
    top = f'layout = "panel"\ncut = {{ width = {width}, height = {height} }}'
    assert told(table, top) == message


def test_a_metric_project_is_told_in_its_unit() -> None:
    """2 in are 50.8 mm, up to the millimetre 5.1 cm; side C is six patches of 11.5 cm seen."""
    text = SOUND.replace('title = "Pond"', 'title = "Pond"\nunits = "cm"')
    text = text.replace(SQUARES, SQUARES.replace("patch = 5", 'patch = "5 in"'))
    with pytest.raises(InputError) as caught:
        build(read(text + "[opening]\nlength = 90\n"))
    assert str(caught.value) == (
        "`opening.length` must leave 5.1 cm sewn at each dot of side C, got 90 cm. "
        "The longest opening there is 58.8 cm"
    )
