"""The rig file: read, checked, and every mistake one clear line."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner

from cutpaths.cli import cli
from cutpaths.errors import CutpathsError, InputError
from cutpaths.lengths import Unit
from cutpaths.projector.rig import Distance, Lens, Position
from cutpaths.projector.rig_reading import load, read
from cutpaths.projector.starter import template

RIGS = Path(__file__).parent.parent / "fixtures" / "rigs"
SOUND = """\
format = 1
name = "Attic"
units = "mm"

[picture]
width = 1920
height = 1080

[tape]
within = 2

[cloth]
thickness = 1.5

[lens]
height = 1800

[lens.distances]
"1" = 1900
"4" = 1910
"9" = 1905

[distances]
"1-4" = 1204
"4-12" = "26 1/4 in"

[positions]
"6" = [10, -5]
"""


def test_a_sound_file() -> None:
    """Every key arrives, exact, in mm."""
    rig = read(SOUND)
    assert (rig.width, rig.height, rig.columns, rig.rows, rig.inset) == (1920, 1080, 4, 3, 67)
    assert (rig.within, rig.margin, rig.thickness) == (Fraction(2), Fraction(15), Fraction(3, 2))
    slants = tuple((n, Fraction(mm)) for n, mm in ((1, 1900), (4, 1910), (9, 1905)))
    assert rig.lens == Lens(Fraction(1800), slants)
    assert rig.distances == (
        Distance(1, 4, Fraction(1204)),
        Distance(4, 12, Fraction(105, 4) * Fraction(127, 5), Unit.INCH),
    )
    assert rig.positions == (Position(6, Fraction(10), Fraction(-5)),)


def test_crosses_stand_in_the_middle_of_pixels() -> None:
    """Numbers run row by row from the upper left; thin lines on them are sharp."""
    rig = read(SOUND)
    assert len(rig.crosses) == 12
    assert rig.crosses[0] == (67.5, 67.5)
    assert rig.crosses[3] == (1853.5, 67.5)
    assert rig.crosses[11] == (1853.5, 1013.5)
    assert {x % 1 for spot in rig.crosses for x in spot} == {0.5}


def test_the_starter_reads_and_waits_for_readings() -> None:
    """A new file is sound; only its readings are missing."""
    assert read(template()).distances == ()


def test_our_own_rigs_read() -> None:
    """Every rig among the fixtures is sound."""
    assert [load(path).name for path in sorted(RIGS.glob("*.toml"))] == ["Loft table"]


LIKE = 'a length such as 4 1/2, 4.5, "4 1/2 in", "57 mm" or "1 1/4 yd"'


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        (
            "width = 1920",
            "width = 0",
            "rig:6: `picture.width` must be a whole number of pixels from 320 to 16384, got '0'",
        ),
        (
            "height = 1080",
            "height = 1080\ncolumns = 2",
            "rig:8: `picture.columns` must be a whole number from 3 to 9, got '2'",
        ),
        (
            "height = 1080",
            "height = 1080\ninset = 400",
            "rig:8: `picture.inset` must be at most 270 pixels, got 400",
        ),
        ('"1-4" = 1204', '"1-4" = 0', "rig:24: `distances.1-4` must be more than 0, got '0'"),
        ('"1-4" = 1204', '"1-4" = -3', "rig:24: `distances.1-4` must be more than 0, got '-3'"),
        ('"1-4" = 1204', '"1-4" = "far"', f"rig:24: `distances.1-4` must be {LIKE}, got 'far'"),
        (
            '"1-4" = 1204',
            '"4" = 1204',
            "rig:24: `distances.4` must be named by two crosses, such as \"1-4\", got '4'",
        ),
        ('"1-4"', '"4-4"', "rig:24: `distances.4-4` must be between two different crosses"),
        ('"1-4"', '"1-13"', "rig:24: `distances.1-13` must name crosses from 1 to 12, got 13"),
        (
            '"1-4" = 1204',
            '"1-4" = 1204\n"4-1" = 1240',
            "rig:25: `distances.4-1` must agree with `1-4`, the same distance: got 1240 mm and "
            "1204 mm. Measure it again and keep one",
        ),
        ('"6" =', '"13" =', "rig:28: `positions.13` must name a cross from 1 to 12, got 13"),
        (
            '"6" = [10, -5]',
            '"6" = [10, -5]\n"7" = [10, -5]',
            "rig:29: `positions.7` must not be the place of cross 6",
        ),
        (
            "height = 1800",
            "height = 12",
            "rig:16: `lens.height` must be over ten times the cloth, got 12 mm",
        ),
        (
            '"1" = 1900',
            '"1" = 1700',
            "rig:19: `lens.distances.1` must be measured from the lens, got 1700 mm, less than the "
            "1800 mm straight down",
        ),
        (
            '"4" = 1910\n"9" = 1905\n',
            "",
            "rig:18: `lens.distances` must be given to three crosses at least, got 1. Leave them "
            "all out for a lens over the middle",
        ),
        ("within = 2", "within = 80", "rig:10: `tape.within` must be at most 50 mm, got 80 mm"),
        ('name = "Attic"', 'name = " "', "rig:2: `name` must not be blank"),
        ("[tape]", "[tapes]", "rig:9: `tapes` is not a known key. Write `tape`"),
    ],
)
def test_a_mistake_is_one_line(old: str, new: str, line: str) -> None:
    """The line names the key, what is wrong and what would be right."""
    assert SOUND.count(old) == 1, old
    with pytest.raises(InputError) as caught:
        read(SOUND.replace(old, new))
    assert str(caught.value) == line


def test_thickness_needs_the_lens() -> None:
    """Cloth on a bare table is corrected only where the lens is known."""
    text = SOUND[: SOUND.index("[lens]")] + SOUND[SOUND.index("[distances]") :]
    with pytest.raises(InputError) as caught:
        read(text)
    assert str(caught.value) == (
        "rig:13: `cloth.thickness` needs the height of the lens. Write [lens] with `height = 1800`,"
        " or calibrate on a scrap and leave it out"
    )


def test_commands(tmp_path: Path) -> None:
    """New file, target and report, each as a person meets it."""
    run = CliRunner()
    file, target = tmp_path / "rig.toml", tmp_path / "target.svg"
    assert run.invoke(cli, ["new-rig", str(file)]).exit_code == 0
    made = run.invoke(cli, ["target", str(file), "-o", str(target)])
    assert made.exit_code == 0
    assert "in this order: 1-4, 4-12, 9-12, 1-9, 1-12, 4-9, 1-10, 3-12, 4-11" in made.stderr
    assert "Do not look into the lens." in made.stderr
    assert target.read_text().count("<path") > 24
    report = run.invoke(cli, ["calibrate", str(RIGS / "loft.toml")])
    assert report.exit_code == 0
    lines = report.stdout.splitlines()
    assert lines[0] == "Loft table: 1920 x 1080 pixels on 1142 x 642 mm of table"
    assert lines[3] == "1-4             1056 mm   +0.2 mm"
    assert "To make it better, measure 4-11 next." in lines


def test_a_file_without_readings_is_told_where(tmp_path: Path) -> None:
    """A finding of the fit names the file and the line of its table."""
    file = tmp_path / "rig.toml"
    file.write_text(template())
    done = CliRunner().invoke(cli, ["calibrate", str(file)])
    assert isinstance(done.exception, CutpathsError)
    assert str(done.exception).startswith("rig.toml:25: `distances` must be at least 5 distances")
