"""Machine beds as files: by independent readers, in mm and inches, and from the command line."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path as Folder

import ezhpgl
import pytest
import svgelements
from machine_samples import SOUND, bench
from outside import gdal
from outside.dxf_raw import read as raw

from cutpaths.cli.kit import kit_of
from cutpaths.drawing import Document
from cutpaths.formats import FORMATS
from cutpaths.lengths import Unit
from cutpaths.machine.bed import Bed, Shown
from cutpaths.machine.bed_reading import load
from cutpaths.roles import Role
from cutpaths.shapes import Path
from cutpaths.sheets.beds import bed_run
from cutpaths.values import replace

FIXTURES = Folder(__file__).parent.parent / "fixtures"
TIDEPOOL = kit_of(FIXTURES / "tidepool.toml")
# svgelements takes a millimetre for 0.0393701 in.
SVG_ELEMENTS_MM = 0.0393701 * 96


def documents(bed: Bed, form: str) -> list[Document]:
    """The documents that a format is asked for."""
    return [o.document for o in bed_run(TIDEPOOL, bed, 1).outputs if form in o.formats]


def paths(document: Document, role: Role = Role.CUT) -> list[Path]:
    """The lines of a role, in order."""
    items = document.sheets[0].items
    return [i.shape for i in items if i.role is role and isinstance(i.shape, Path)]


@pytest.mark.parametrize("unit", [Unit.MILLIMETRE, Unit.INCH])
def test_svg_is_true_to_scale_in_both_units(unit: Unit) -> None:
    """Corners as svgelements sees them, whose inch is 96 px, are those drawn, to 1e-6 mm."""
    document = documents(bench(unit=unit), "svg")[0]
    data = FORMATS["svg"].render(document)
    width = ET.fromstring(data).get("width")  # noqa: S314 - our own file
    assert width == ("900.000000mm" if unit is Unit.MILLIMETRE else "35.43307087in")
    shapes = svgelements.SVG.parse(_stream(data), reify=True)
    pixel = SVG_ELEMENTS_MM if unit is Unit.MILLIMETRE else 96 / 25.4
    found = [
        [(p.end.x / pixel, 600.0 - p.end.y / pixel) for p in shape if p.end is not None]
        for shape in shapes.elements()
        if isinstance(shape, svgelements.Path)
    ]
    drawn = paths(document)
    assert len(found) == len(drawn) == 21
    for ring, path in zip(found, drawn, strict=True):
        for a, b in zip(ring, path.points, strict=False):
            assert a == pytest.approx(b, abs=2e-6)


def _stream(data: bytes) -> object:
    import io

    return io.StringIO(data.decode())


@pytest.mark.parametrize(("unit", "insunits"), [(Unit.MILLIMETRE, "4"), (Unit.INCH, "1")])
def test_dxf_is_true_to_scale_in_both_units(unit: Unit, insunits: str, tmp_path: Folder) -> None:
    """Corners as GDAL sees them, times the unit that the file names, are those drawn."""
    document = documents(bench(unit=unit), "dxf")[0]
    data = FORMATS["dxf"].render(document)
    assert raw(data).variable("$INSUNITS") == insunits
    mm = float(unit.mm)
    features = gdal.read(data, tmp_path)
    assert {feature.layer for feature in features} == {"CUT"}
    for feature, path in zip(features, paths(document), strict=True):
        for a, b in zip(feature.lines[0], path.points, strict=False):
            assert (a[0] * mm, a[1] * mm) == pytest.approx(b, abs=1e-6)


def test_colours_are_those_of_the_tools() -> None:
    """A machine that goes by colour finds the bed file's own in SVG and in DXF."""
    bed = load(FIXTURES / "beds" / "loft-laser.toml")
    document = documents(bed, "svg")[0]
    assert set(re.findall(rb'stroke="(#\w+)"', FORMATS["svg"].render(document))) == {b"#d55e00"}
    layer = raw(FORMATS["dxf"].render(document)).table("LAYER")["CUT"]
    assert int(layer.one(420)) == 0xD55E00


def test_fill_shows_areas() -> None:
    """Asked to fill, outlines are areas without a stroke; they read back all the same."""
    document = documents(bench(shown=Shown.FILL), "svg")[0]
    data = FORMATS["svg"].render(document)
    assert b'<g fill="#000000" id="cut" stroke="none">' in data
    assert FORMATS["svg"].check(document, data) == ()
    plain = documents(bench(), "svg")[0]
    assert "the group 'cut' must have no fill" in FORMATS["svg"].check(plain, data)


def test_a_wrong_order_is_caught() -> None:
    """A file whose roles come in another order than the work is refused."""
    roll = load(FIXTURES / "beds" / "roll-cutter.toml")
    document = next(d for d in documents(roll, "svg") if "section" in d.name)
    sheet = document.sheets[0]
    turned = Document(document.name, (replace(sheet, items=sheet.items[::-1]),))
    for form in ("svg", "dxf-r12"):
        found = FORMATS[form].check(document, FORMATS[form].render(turned))
        assert any(re.match(r"line \d+ must be of ", line) for line in found)
    assert FORMATS["hpgl"].check(document, FORMATS["hpgl"].render(turned))


@pytest.mark.parametrize(
    ("middle", "turn", "corner"),
    [
        (False, 0, (10.0, 10.0)),
        (True, 0, (-440.0, -290.0)),
        (False, 1, (590.0, 10.0)),
        (True, 1, (290.0, -440.0)),
        (False, 2, (890.0, 590.0)),
        (False, 3, (10.0, 890.0)),
    ],
)
def test_hpgl_is_counted_from_where_the_plotter_does(
    middle: bool, turn: int, corner: tuple[float, float]
) -> None:
    """The bed's lower left piece, as ezhpgl sees it, turned and counted as the bed file says."""
    bed = bench(formats=("hpgl",), plotter_middle=middle, plotter_turn=turn)
    document = documents(bed, "hpgl")[0]
    data = FORMATS["hpgl"].render(document)
    plot = json.loads(ezhpgl.parse(data).to_json())
    points = [
        (p["x"], p["y"])
        for page in plot["pages"]
        for each in page["operations"]
        for p in each["geometry"]["points"]
    ]
    assert min(abs(x - corner[0]) + abs(y - corner[1]) for x, y in points) < 1e-6
    assert FORMATS["hpgl"].check(document, data) == ()


def test_the_scale_check_comes_in_every_format() -> None:
    """Squares of 100 mm and 3 in, with the pen, or cut without text where there is none."""
    laser = load(FIXTURES / "beds" / "loft-laser.toml")
    for bed, texts in ((bench(), True), (laser, False)):
        document = next(d for d in documents(bed, "svg") if d.name == "scale-check")
        sides = {
            round(max(x for x, _ in p.points) - min(x for x, _ in p.points), 6)
            for p in paths(document, Role.SCALE)
        }
        assert sides == {100.0, 76.2}
        assert (b"<title>100 mm</title>" in FORMATS["svg"].render(document)) == texts


def _run(*arguments: str, cwd: Folder) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cutpaths", *arguments],
        cwd=cwd,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def test_from_nothing_to_beds(tmp_path: Folder) -> None:
    """Three commands lead to files, a report and a list; a second run replaces the first."""
    assert _run("new", "first.toml", cwd=tmp_path).returncode == 0
    new = _run("new-bed", "bed.toml", cwd=tmp_path)
    assert (new.returncode, new.stdout, new.stderr) == (0, "bed.toml\n", "")
    run = _run("beds", "first.toml", "bed.toml", "-o", "out", "--kits", "3", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith("First blanket: 3 kits on Long table\n")
    many = {path.name for path in (tmp_path / "out").iterdir()}
    assert "first-blanket-long-table-report.txt" in many
    again = _run("beds", "first.toml", "bed.toml", "-o", "out", cwd=tmp_path)
    assert again.returncode == 0, again.stderr
    few = {path.name for path in (tmp_path / "out").iterdir()}
    listed = json.loads((tmp_path / "out" / "cutpaths.json").read_text(encoding="utf-8"))["files"]
    assert few == listed.keys() | {"cutpaths.json"}
    assert len(few) < len(many)


def test_beds_of_one_machine_leave_other_files_alone(tmp_path: Folder) -> None:
    """Sheets of another use, and beds of another machine, stay in the folder."""
    project = str(FIXTURES / "tidepool.toml")
    beds = FIXTURES / "beds"
    _run("write", project, "-o", "out", "--for", "cad", cwd=tmp_path)
    _run("beds", project, str(beds / "loft-laser.toml"), "-o", "out", cwd=tmp_path)
    before = {path.name for path in (tmp_path / "out").iterdir()}
    run = _run("beds", project, str(beds / "long-table.toml"), "-o", "out", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    assert before < {path.name for path in (tmp_path / "out").iterdir()}


def test_a_kerf_too_large_names_file_and_line(tmp_path: Folder) -> None:
    """What only the pieces can tell is still laid to the bed file's key and line."""
    text = SOUND.replace("spacing = 4", "spacing = 9").replace("speed = 60", "speed = 60\nkerf = 3")
    (tmp_path / "bed.toml").write_text(text, encoding="utf-8")
    run = _run("beds", str(FIXTURES / "tidepool.toml"), "bed.toml", "-o", "out", cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == (
        "Error: bed.toml:20: `tool.knife.kerf` must be less than the smallest edge of a cut-out, "
        "2 mm on CORNER-TEMPLATE, got 3 mm\n"
    )
    assert not (tmp_path / "out").exists()
