"""The commands about cloth as a person meets them."""

from __future__ import annotations

import csv
import io
import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from cloths import TEXT
from outside.dxf_raw import read

from cutpaths.cli import cli
from cutpaths.cli.kits import BACKINGS
from cutpaths.cli.searching import searching
from cutpaths.cloth.kits import KitBacking
from cutpaths.cloth.packing.effort import Effort, Progress
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item

FIXTURES = Path(__file__).parent.parent / "fixtures"
HARBOR = FIXTURES / "harbor.toml"
INTERRUPTED_WITHIN = 3.0  # s; about 1 s on a machine that does nothing else


def run(*arguments: object) -> Result:
    """One command in this process."""
    return CliRunner().invoke(cli, [str(each) for each in arguments])


def failed(*arguments: object) -> str:
    """The one line of a command that fails with status 1, in a process of its own."""
    command = [sys.executable, "-m", "cutpaths", *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 1, done.stderr
    return done.stderr


@pytest.fixture
def tarn(tmp_path: Path) -> Path:
    """A project of squares in a folder of its own."""
    file = tmp_path / "tarn.toml"
    file.write_text(TEXT, encoding="utf-8")
    return file


def test_shopping_list_of_harbor() -> None:
    """Packs, flannel that is washed first and a joined backing: amounts and costs."""
    data = json.loads(run("cloth", HARBOR, "--json", "--seconds", "0").stdout)
    fabrics = data["fabrics"]
    assert {name: (f["to_buy_text"], f["cost"]) for name, f in fabrics.items()} == {
        "lamp": ("2 packs", 23.0),
        "dusk": ("3/8 yd", 3.65625),
        "reed": ("3 1/4 yd", 39.0),
    }


def test_files_of_a_plan(tmp_path: Path) -> None:
    """A drawing of each length in two formats, the pieces as CSV, everything as JSON."""
    out = tmp_path / "out"
    result = run("cloth", HARBOR, "-o", out, "--seconds", "0")
    assert result.exit_code == 0, result.output
    assert {path.name for path in out.iterdir()} == {
        "cutpaths.json",
        "harbor-lights-cloth.csv",
        "harbor-lights-cloth.json",
        *(
            f"harbor-lights-cloth-{sheet}.{form}"
            for sheet in ("lamp-1", "dusk-1", "dusk-2", "dusk-3", "reed-1")
            for form in ("svg", "dxf")
        ),
    }
    rows = list(csv.DictReader(io.StringIO((out / "harbor-lights-cloth.csv").read_text())))
    assert len(rows) == 45 + 45 + 2
    first = rows[0]
    assert (first["piece"], first["width mm"], first["turned"]) == ("PATCH-1", "127.0", "False")


def test_same_input_same_bytes(tmp_path: Path) -> None:
    """Two runs write the same files."""
    for name in ("one", "two"):
        run("cloth", HARBOR, "-o", tmp_path / name, "--seconds", "0.05")
    one, two = (
        {p.name: p.read_bytes() for p in sorted((tmp_path / name).iterdir())}
        for name in ("one", "two")
    )
    assert one == two


def test_the_plan_carries_the_caution(tmp_path: Path) -> None:
    """The list and every drawing say how to handle a rotary cutter."""
    assert "close the blade when you are not cutting" in run("cloth", HARBOR).stdout
    run("cloth", HARBOR, "-o", tmp_path / "out", "--seconds", "0")
    for drawing in (tmp_path / "out").glob("*.svg"):
        assert "Rotary cutter" in drawing.read_text(encoding="utf-8")


def test_a_wide_backing_is_joined(tarn: Path) -> None:
    """A backing wider than its cloth is joined, and the note has the key to write."""
    tarn.write_text(TEXT.replace("columns = 6", "columns = 10"), encoding="utf-8")
    result = run("cloth", tarn, "--seconds", "0")
    assert "PANEL-1" in result.stdout
    assert "`join = { seams = 1, run = " in result.stderr


def test_machine_plan(tmp_path: Path) -> None:
    """The machine's file is as wide as the cloth and has every outline once, inside it."""
    out = tmp_path / "out"
    result = run(
        "cloth",
        FIXTURES / "tidepool.toml",
        "--machine",
        "--spacing",
        "1/4",
        "-o",
        out,
        "--seconds",
        "0",
    )
    assert result.exit_code == 0, result.output
    assert "21 pieces 1/4 in apart" in result.stdout
    text = (out / "tide-pool-cloth-machine-sand.svg").read_text(encoding="utf-8")
    assert 'width="1016.000000mm"' in text


@pytest.mark.parametrize(
    ("stock", "told"),
    [
        ("width = 0", "`fabric.sea.stock.width` must be more than 0, got '0'"),
        (
            "width = 10",
            "`fabric.sea.stock.width` must hold the BACKING (35 1/2 x 40 in), got 10 in",
        ),
    ],
)
def test_bad_stock_is_one_line(tarn: Path, stock: str, told: str) -> None:
    """Bad stock ends with its file, line and key."""
    tarn.write_text(f"{TEXT}[fabric.sea.stock]\n{stock}\n", encoding="utf-8")
    found = failed("cloth", tarn, "--seconds", "0")
    assert found.startswith("Error: tarn.toml:")
    assert told in found
    assert len(found.splitlines()) == 1


def test_bad_spacing(tarn: Path) -> None:
    """A spacing that is no length is wrong usage."""
    result = run("cloth", tarn, "--machine", "--spacing", "wide")
    assert result.exit_code == 2
    assert "must be a length such as" in result.output


def test_the_first_interrupt_ends_the_search() -> None:
    """Ctrl-C is the wish to end: the search hears of it, and the best so far is kept."""
    known = Progress(tries=1, seconds=0.1, height=12, bound=10)
    with searching(seed=1, seconds=1.0) as (person, search):
        assert search.watch(known)
        signal.raise_signal(signal.SIGINT)
        assert not search.watch(known)
        assert person.interrupted
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)


def test_an_interrupt_keeps_the_best_plan(tmp_path: Path) -> None:
    """Ctrl-C while kits of 41 sizes of patches are planned: a plan, and status 130, at once."""
    cells = [" ".join(("sand", "sea")[(row + c) % 2] for c in range(9)) for row in range(9)]
    file = tmp_path / "shoal.toml"
    file.write_text(
        'format = 1\ntitle = "Shoal"\n[fabric.sand]\n[fabric.sea]\n[top]\nlayout = "grid"\n'
        f"widths = {[3 + k / 4 for k in range(9)]}\nheights = {[2.5 + k / 8 for k in range(9)]}\n"
        f'chart = {json.dumps(cells)}\n[border]\nwidth = 2\n[backing]\nfabric = "sea"\n',
        encoding="utf-8",
    )
    command = [sys.executable, "-m", "cutpaths", "kits", "100", str(file), "--seconds", "600"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as running:
        time.sleep(4.0)
        assert running.poll() is None
        start = time.monotonic()
        running.send_signal(signal.SIGINT)
        told, _ = running.communicate(timeout=30)
        assert time.monotonic() - start < INTERRUPTED_WITHIN
    assert running.returncode == 130
    assert "100 kits of Shoal" in told


def test_the_clock_is_told_only_where_it_ended_the_search() -> None:
    """No seconds at all are no tries at all: then tries end the search, and no note is due."""
    pieces = [Item(width=5, height=4, count=9), Item(width=7, height=3, count=8, turn=True)]
    for effort, notes in (
        (Effort(seconds=0.0, tries=0), 0),
        (Effort(seconds=None, tries=5), 0),
        (Effort(seconds=0.0, tries=10**6), 1),
    ):
        with searching(seed=1, seconds=1.0) as (person, _):
            pack_guillotine(pieces, 16, effort=effort, watch=person.watch)
        assert len(person.notes) == notes


def test_backings_are_named_alike() -> None:
    """The command's choices are those of the library."""
    assert tuple(each.value for each in KitBacking) == BACKINGS


def test_kits_of_two_projects() -> None:
    """A run names its projects and tells how layers lie."""
    result = run(
        "kits", "10", FIXTURES / "tidepool.toml", FIXTURES / "windrose.toml", "--seconds", "0.5"
    )
    assert result.exit_code == 0, result.output
    assert result.stdout.startswith("10 kits of Tide pool and of Wind rose, backings yardage\n")
    assert "Spread all layers the same face up" in result.stdout


def test_kits_prints_nothing_but_json() -> None:
    """The solver's own greeting stays off the output, in a process of its own."""
    project = str(FIXTURES / "tidepool.toml")
    command = [sys.executable, "-m", "cutpaths", "kits", "5", project, "--json"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert json.loads(done.stdout)["kits"] == 5


def test_packs_are_no_bolts() -> None:
    """A fabric in packs cannot be cut from bolts, in one line."""
    told = failed("kits", "10", HARBOR)
    assert '`fabric.lamp.stock.sold` must be "length" for kits from bolts, got "pack"' in told


def test_fit_writes_a_size(tarn: Path) -> None:
    """A size is written beside the project, loads, and is never written over another file."""
    stock = "[fabric.sand.stock]\non_hand = [{ length = 18 }]\n"
    stock += "[fabric.sea.stock]\non_hand = [{ length = 36 }]\n"
    tarn.write_text(TEXT + stock, encoding="utf-8")
    best = tarn.parent / "best.toml"
    result = run("fit", tarn, "--write", "1", best)
    assert result.exit_code == 0, result.output
    assert best.read_text(encoding="utf-8").startswith("# Fitted to the cloth on hand, from tarn")
    assert "exists" in failed("fit", tarn, "--write", "1", best)


def test_a_reader_from_outside_sees_the_cuts(tmp_path: Path) -> None:
    """The raw reader finds each cut once: 21 squares of 5 in from 17 in of cloth.

    Squared up at the foot and after each of three strips, both ends of each strip, and in each six
    cuts between squares and one before the waste.
    """
    run("cloth", FIXTURES / "tidepool.toml", "-o", tmp_path, "--seconds", "0")
    drawing = read((tmp_path / "tide-pool-cloth-sand-1.dxf").read_bytes())
    cuts = [e for e in drawing.entities if e.one(8) == "CUT"]
    assert len(cuts) == 4 + 3 * (2 + 7)
    assert all(record.name == "LWPOLYLINE" for record in cuts)
