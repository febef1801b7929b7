"""Bed files: what is taken for granted, and one clear line for each thing that is wrong."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from machine_samples import SOUND

from cutpaths.errors import InputError
from cutpaths.lengths import Unit
from cutpaths.machine.bed import Feed, Shown
from cutpaths.machine.bed_reading import load, read
from cutpaths.machine.starter import template
from cutpaths.roles import Role

BEDS = sorted((Path(__file__).parent.parent / "fixtures" / "beds").glob("*.toml"))
LASER = 'kind = "laser"\nnumber = 2'
BLADE = 'kind = "drag-knife"\nnumber = 2'

ROWS: list[tuple[dict[str, str], str]] = [
    (
        {"width = 900": "width = 20"},
        "bench.toml:6: `bed.width` must be more than its margins, 20 mm, got 20 mm",
    ),
    (
        {"spacing = 4": "spacing = 580"},
        (
            "bench.toml:9: `bed.spacing` must be less than the room within the margins, 580 mm, "
            "got 580 mm"
        ),
    ),
    (
        {"spacing = 4": "spacing = 0"},
        (
            "bench.toml:9: `bed.spacing` must be more than 0, got 0 mm. "
            "Or write `common_cuts = true`"
        ),
    ),
    (
        {BLADE: f"{BLADE}\nkerf = 5"},
        (
            "bench.toml:9: `bed.spacing` must be more than the kerf, 5 mm, got 4 mm. "
            "Or write `common_cuts = true`"
        ),
    ),
    (
        {"spacing = 4": "spacing = 4\ncommon_cuts = true"},
        (
            "bench.toml:9: `bed.spacing` must be left out where cuts are common, got 4 mm. "
            "Neighbours then lie a kerf apart"
        ),
    ),
    ({"speed = 300": "speed = 0"}, "bench.toml:22: `travel.speed` must be more than 0, got '0'"),
    ({"speed = 60": "speed = 0"}, "bench.toml:19: `tool.knife.speed` must be more than 0, got '0'"),
    (
        {"tool_change = 20": "tool_change = -1"},
        (
            "bench.toml:23: `travel.tool_change` must be a whole number of seconds from 0 to 3600, "
            "got '-1'"
        ),
    ),
    (
        {'name = "Bench"': 'name = "Bench"\nformats = ["svg", "pdf"]'},
        "bench.toml:3: `formats` item 2 must be dxf, dxf-r12, hpgl, hpgl-old or svg, got 'pdf'",
    ),
    (
        {'name = "Bench"': 'name = "Bench"\nformats = ["svg", "svg"]'},
        "bench.toml:3: `formats` must name each once, got 'svg' again",
    ),
    (
        {'name = "Bench"': 'name = "Bench"\nformats = []'},
        ("bench.toml:3: `formats` must name at least one, got an empty list. Leave it out for all"),
    ),
    (
        {"[travel]": '[roles]\nstich = "pen"\n\n[travel]'},
        (
            "bench.toml:22: `roles.stich` must be one of baste, center, cut, cutout, dimension, "
            "dot, fold, grain, label, match, opening, scale, stitch, topstitch, trim, got 'stich'"
        ),
    ),
    (
        {"[travel]": '[roles]\nstitch = "pencil"\n\n[travel]'},
        "bench.toml:22: `roles.stitch` must be one of knife, pen, none, got 'pencil'",
    ),
    (
        {"[travel]": '[roles]\ncut = "none"\n\n[travel]'},
        "bench.toml:22: `roles.cut` must have a tool that cuts, got 'none'",
    ),
    (
        {"[travel]": '[roles]\ncut = "pen"\n\n[travel]'},
        "bench.toml:22: `roles.cut` must have a tool that cuts, got the pen 'pen'",
    ),
    (
        {"[travel]": '[roles]\ndimension = "pen"\n\n[travel]'},
        "bench.toml:22: `roles.dimension` must be 'none' on a machine, got 'pen'",
    ),
    (
        {'kind = "drag-knife"': 'kind = "pen"'},
        (
            "bench.toml:11: `tool` must have a tool that cuts, all are pens. "
            'Write for example the table [tool.knife] with `kind = "drag-knife"`'
        ),
    ),
    (
        {'kind = "drag-knife"': 'kind = "saw"'},
        (
            "bench.toml:17: `tool.knife.kind` must be drag-knife, laser, pen or rotary-blade, "
            "got 'saw'"
        ),
    ),
    (
        {"number = 2": "number = 1"},
        "bench.toml:18: `tool.knife.number` must be another than that of `pen`, got 1",
    ),
    (
        {"number = 1": "number = 1\nkerf = 1"},
        "bench.toml:14: `tool.pen.kerf` must be left out for a pen, got 1 mm",
    ),
    (
        {BLADE: f"{LASER}\nblade_offset = 1"},
        (
            "bench.toml:19: `tool.knife.blade_offset` must be left out for a laser, got 1 mm. "
            "Only a drag knife trails its axis"
        ),
    ),
    (
        {"margin = 10": "margin = 0", BLADE: f"{BLADE}\nblade_offset = 1"},
        (
            "bench.toml:8: `bed.margin` must be at least the blade offset, 1 mm, on every edge. "
            "A knife's axis runs past the corners"
        ),
    ),
    (
        {"spacing = 4": "spacing = 4\nsections = true"},
        (
            "bench.toml:10: `bed.sections` must be left out where the machine has no roll. "
            "Write `roll = true`"
        ),
    ),
    (
        {"spacing = 4": "spacing = 4\nsections = true\nroll = true"},
        (
            "bench.toml:10: `bed.sections` must have no margin at foot and head, where sections "
            "meet. Name the margins of the other two edges alone"
        ),
    ),
    (
        {
            "margin = 10": "margin = { left = 5, right = 5 }",
            "spacing = 4": "spacing = 4\nsections = true\nroll = true",
        },
        (
            "bench.toml:8: `bed.margin` must leave 6 mm at the other two edges, for the alignment "
            "marks"
        ),
    ),
    (
        {
            'name = "Bench"': 'name = "Bench"\nshown = "fill"',
            "spacing = 4": "common_cuts = true",
        },
        (
            "bench.toml:3: `shown` must be 'stroke' beside `common_cuts`, which makes open lines, "
            "got 'fill'"
        ),
    ),
    (
        {'name = "Bench"': 'name = "Bench"\nformats = ["hpgl-old"]'},
        (
            "bench.toml:3: `formats` cannot have 'hpgl-old' for a bed over 819.175 mm, where old "
            "plotters stop (32767 units), got 900 mm. 2 x 1 beds of 450 mm x 600 mm would do"
        ),
    ),
    (
        {"spacing = 4": "spacing = 4\nborder = 2"},
        (
            "bench.toml:10: `bed.border` is not a known key. Known keys here: common_cuts, feed, "
            "height, margin, pieces, roll, sections, spacing, width"
        ),
    ),
    (
        {"height = 600\n": ""},
        "bench.toml:5: `bed.height` is missing. Write for example `height = 600`",
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS, ids=[row[1][:60] for row in ROWS])
def test_bad_beds(changes: dict[str, str], message: str) -> None:
    """A bed file with one thing wrong is refused in one line with key, line and remedy."""
    text = SOUND
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    with pytest.raises(InputError) as caught:
        read(text, name="bench.toml")
    assert str(caught.value) == message


def test_all_findings_come_at_once() -> None:
    """A person mends a bed file once and not key by key."""
    text = SOUND.replace("speed = 300", "speed = 0").replace("number = 2", "number = 0")
    with pytest.raises(InputError) as caught:
        read(text, name="bench.toml")
    assert [finding.key for finding in caught.value.findings] == [
        "tool.knife.number",
        "travel.speed",
    ]


def test_what_is_left_out_is_usual() -> None:
    """Kerf, offset and overcut are 0, threads run up, marks are drawn, text on card alone."""
    bed = read(SOUND)
    assert bed.room == (Fraction(880), Fraction(580))
    assert (bed.unit, bed.feed) == (Unit.MILLIMETRE, Feed.UP)
    nought = Fraction(0)
    assert [(t.name, t.kerf, t.blade_offset, t.overcut) for t in bed.tools] == [
        ("pen", nought, nought, nought),
        ("knife", nought, nought, nought),
    ]
    assert (bed.formats, bed.shown) == (("svg", "dxf"), Shown.STROKE)
    assert bed.roles[Role.STITCH].name == "pen"
    assert bed.roles[Role.CUT].name == "knife"
    assert (bed.roles[Role.LABEL].name, bed.text_on_cloth) == ("pen", False)
    assert not {Role.GRAIN, Role.SCALE, Role.DIMENSION, Role.TOPSTITCH} & bed.roles.keys()


def test_lengths_are_exact_in_any_unit() -> None:
    """A bed in inches has exact millimetres: 1 in = 25.4 mm (US Federal Register, 1959)."""
    bed = read(
        SOUND.replace('units = "mm"', 'units = "in"').replace("spacing = 4", 'spacing = "1/8"')
    )
    assert (bed.width, bed.spacing) == (Fraction(22860), Fraction(127, 40))


def test_common_cuts_lie_a_kerf_apart() -> None:
    """Where neighbours share a cut their distance is what the cut takes away."""
    text = SOUND.replace("spacing = 4", "common_cuts = true")
    bed = read(text.replace(BLADE, f'{LASER}\nkerf = "0.2"'))
    assert (bed.spacing, bed.kerf) == (Fraction(1, 5), Fraction(1, 5))


@pytest.mark.parametrize("path", BEDS, ids=lambda path: path.stem)
def test_beds_of_the_examples_are_sound(path: Path) -> None:
    """Each example of a bed can be read as it stands."""
    assert load(path).name


def test_a_new_bed_works_as_it_stands() -> None:
    """The commented bed file is sound, and so are its commented lines."""
    assert read(template()).name == "Long table"
    shown = template().replace("# [roles]", "[roles]").replace('# label = "pen"', 'label = "pen"')
    assert read(shown).roles[Role.LABEL].name == "pen"
