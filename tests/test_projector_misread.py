"""Readings that cannot be used are refused in one line that says which and why."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path

import pytest
import rigs
from test_projector_fit import case_rig

from cutpaths.errors import InputError
from cutpaths.projector.calibrate import calibrate
from cutpaths.projector.rig import Rig
from cutpaths.projector.rig_reading import read

SHARED = json.loads(
    (Path(__file__).parent.parent / "fixtures" / "rigs" / "mistakes.json").read_text()
)
MISTAKES = [each for each in SHARED if each["key"]]
SOUND = [each for each in SHARED if not each["key"]]


def told(rig: Rig) -> str:
    """The one line about readings that cannot be used."""
    with pytest.raises(InputError) as caught:
        calibrate(rig)
    return str(caught.value)


def test_too_few_readings() -> None:
    """The line says how many there must be and which to measure next."""
    truth = rigs.CAMERAS["tilted"]
    assert told(rigs.rig()) == (
        "`distances` must be at least 5 distances (or 4 positions), got 0 distances and 0 "
        "positions. Measure next: 1-4, 4-12, 9-12"
    )
    assert told(rigs.measured(rigs.rig(), truth, rigs.SIDES)).endswith(
        "got 4 distances and 0 positions. Measure next: 1-12, 4-9, 1-10"
    )
    assert told(rigs.on_mat(rigs.rig(), truth, (1, 4, 12))) == (
        "`positions` must be at least 5 readings (or 4 positions), got 0 distances and 3 "
        "positions. Measure next: 1-4, 4-12, 9-12"
    )


def test_crosses_on_a_line() -> None:
    """Readings that reach only crosses on one line, or three of four on one, are refused."""
    truth, plain = rigs.CAMERAS["tilted"], rigs.rig()
    row = tuple(combinations(range(1, 5), 2))
    line = "must reach four crosses of which no three are on a line: 1, 2, 3 are."
    assert line in told(rigs.measured(plain, truth, row))
    assert line in told(rigs.on_mat(plain, truth, (1, 2, 3, 9)))


def test_readings_that_leave_the_picture_free() -> None:
    """The sides of a level picture and part of one: a rectangle of rods still folds flat."""
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["straight"], (*rigs.SIDES, (1, 5)))
    assert told(rig).startswith("`distances` leave the picture free to change its shape. Measure")


@pytest.mark.parametrize("pair", rigs.NINE)
def test_one_misread_tape_is_named(pair: tuple[int, int]) -> None:
    """Any one of nine readings that is 50 mm too long or a tenth too short is found and named."""
    truth = rigs.CAMERAS["keystoned"]
    for factor in (0.9, 1.05):
        rig = rigs.measured(rigs.rig(), truth, rigs.NINE, noise=0.7, seed=2, wrong={pair: factor})
        read = next(d for d in rig.distances if (d.first, d.second) == pair)
        line = told(rig)
        assert line.startswith(f"`distances.{read.name}` must be about ")
        assert line.endswith("Measure it again")
        expected = float(line.split("about ")[1].split(" mm")[0])
        assert abs(expected - float(read.mm) / factor) < 6


@pytest.mark.parametrize(
    ("factor", "unit"), [(0.1, "cm"), (1 / 25.4, "in"), (1 / 1000, "m"), (1 / 304.8, "ft")]
)
def test_a_reading_in_another_unit_is_recognised(factor: float, unit: str) -> None:
    """Ten or 25.4 times off: the line asks for the unit in which it was read."""
    rig = rigs.measured(
        rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, noise=0.5, wrong={(4, 12): factor}
    )
    line = told(rig)
    assert line.startswith("`distances.4-12` is about 1/")
    assert line.endswith(f"Was it read in {unit}?")


@pytest.mark.parametrize(("factor", "units"), [(0.1, "cm or in"), (1 / 25.4, "cm or in")])
def test_all_readings_in_another_unit_are_recognised(factor: float, units: str) -> None:
    """A picture as wide as a hand is none: the line names the units that would make it one."""
    every = dict.fromkeys(rigs.NINE, factor)
    line = told(rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=every))
    assert line.startswith("`units` make the picture ")
    assert line.endswith(f"which no projector shows. Were the readings in {units}?")


def test_a_misread_tape_that_nothing_locates() -> None:
    """With one reading over, the line says that one is wrong and asks for one more."""
    rig = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.SIX, wrong={(1, 12): 1.1})
    line = told(rig)
    assert "disagree by" in line
    assert line.endswith("one reading is wrong. Measure one distance more to find out which")


def test_a_doubtful_reading_is_marked_and_still_used() -> None:
    """A reading off by more than its error explains, but not grossly, is named as doubtful."""
    rig = rigs.measured(
        rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong={(1, 12): 1 + 5 / 1300}
    )
    found = calibrate(rig)
    doubtful = [residual.name for residual in found.residuals if residual.doubtful]
    assert doubtful == ["1-12"]


def test_a_reading_that_nothing_checks_says_so() -> None:
    """With exactly enough readings none is checked."""
    found = calibrate(rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], (*rigs.SIDES, (1, 12))))
    assert found.spare == 0
    assert [residual.checked for residual in found.residuals] == [False] * 5


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda each: each["name"])
def test_shared_mistakes(mistake: dict[str, object]) -> None:
    """Readings that a script spoiled are named, with the advice that mends them."""
    with pytest.raises(InputError) as caught:
        calibrate(case_rig(mistake))
    (finding,) = caught.value.findings
    assert finding.key == mistake["key"]
    assert finding.hint.startswith(str(mistake["hint"]))


@pytest.mark.parametrize("sound", SOUND, ids=lambda each: each["name"])
def test_shared_readings_that_are_used(sound: dict[str, object]) -> None:
    """Sound readings pass, with those that are doubtful named."""
    found = calibrate(case_rig(sound))
    assert [r.name for r in found.residuals if r.doubtful] == sound["doubtful"]


def test_a_slip_of_the_point_is_recognised() -> None:
    """Ten times too long in a file in mm: no smaller unit explains it, so what it says is asked."""
    wrong = {(1, 12): 10.0}
    line = told(rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, wrong=wrong))
    assert line.startswith("`distances.1-12` must be about 1236 mm by all other readings, got ")
    assert line.endswith("mm, 10 times that. Was another unit written beside it?")


LOFT = (Path(__file__).parent.parent / "fixtures" / "rigs" / "loft.toml").read_text("utf-8")


@pytest.mark.parametrize(
    ("written", "line"),
    [
        # 21 13/16 in are 554 mm, 55.4 cm
        (
            '"21 13/16 cm"',
            "is about 1/2.54 of what the other readings say, got 21.8125 cm. Was it read in in?",
        ),
        (
            '"55.4 in"',
            "is about 2.54 times what the other readings say, got 55.4 in. Was it read in cm?",
        ),
        (
            '"554 cm"',
            "is about 10 times what the other readings say, got 554 cm. Was it read in mm?",
        ),
    ],
)
def test_a_reading_is_told_in_the_unit_written_beside_it(written: str, line: str) -> None:
    """In a file of mm: what was read is asked for from the unit that stands there."""
    assert told(read(LOFT.replace('"21 13/16 in"', written))) == f"`distances.4-12` {line}"


def test_one_wrong_unit_beside_every_reading() -> None:
    """In a file of mm all readings say in, and were mm: a picture of 1.12 m told as 28 m."""
    pairs = (("1-4", 1056), ("4-12", 554), ("12-9", 981), ("1-9", 563), ("1-12", 1163))
    text = "".join(f'"{pair}" = "{number} in"\n' for pair, number in pairs)
    assert told(read(LOFT[: LOFT.index('"1-4"')] + text)) == (
        "`units` make the picture 1124 3/8 in wide, which no projector shows. "
        "Were the readings in mm?"
    )
