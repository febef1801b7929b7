"""DXF: header, layers, line types, and the same bytes every time."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path as FilePath

import ezdxf
import pytest
from ezdxf.document import Drawing as DxfDocument
from outside import dxf_raw
from sample_drawings import DIGEST, PLACES, RING, TITLE, cad, marked, patch, sheet

from cutpaths.drawing import Document, Pen, Placed
from cutpaths.lengths import Unit
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Path
from cutpaths.writers import dxf, svg

NEAR_MM = 1e-6
MM = {Unit.INCH: 25.4, Unit.MILLIMETRE: 1.0, Unit.CENTIMETRE: 1.0}


def raw(document: Document) -> dxf_raw.Raw:
    """The document's file by the raw tag reader."""
    return dxf_raw.read(dxf.render(document))


def library(document: Document) -> DxfDocument:
    """The document's file as ezdxf reads it."""
    return ezdxf.filemanagement.read(io.StringIO(dxf.render(document).decode()))


@pytest.mark.parametrize(
    ("unit", "insunits", "measurement"),
    [(Unit.INCH, "1", "0"), (Unit.MILLIMETRE, "4", "1"), (Unit.CENTIMETRE, "4", "1")],
)
def test_the_header_says_the_unit(unit: Unit, insunits: str, measurement: str) -> None:
    """$INSUNITS 1 in, 4 mm; $MEASUREMENT 0 imperial, 1 metric; AC1024 is 2010 (DXF reference)."""
    header = raw(sheet(Path(RING, closed=True), unit=unit))
    assert header.variable("$ACADVER") == "AC1024"
    assert header.variable("$INSUNITS") == insunits
    assert header.variable("$MEASUREMENT") == measurement


def test_extents_limits_and_view_are_the_sheet() -> None:
    """A viewer opens on the sheet: its corners are in the header, the view is over its middle."""
    file = raw(sheet(Path(RING, closed=True)))
    assert file.header["$EXTMIN"].numbers(10) + file.header["$EXTMIN"].numbers(20) == [0.0, 0.0]
    assert file.header["$EXTMAX"].numbers(10) + file.header["$EXTMAX"].numbers(20) == [150.0, 120.0]
    assert file.header["$LIMMAX"].numbers(10) + file.header["$LIMMAX"].numbers(20) == [150.0, 120.0]
    view = file.table("VPORT")["*Active"]
    assert view.numbers(12) + view.numbers(22) == [75.0, 60.0]
    assert view.numbers(40) == [150.0]


@pytest.mark.parametrize("unit", list(Unit))
def test_layers_are_the_roles(unit: Unit) -> None:
    """Each role that is used is a layer with its true colour, a near index colour and its width."""
    layers = raw(marked(unit)).table("LAYER")
    assert list(layers) == ["0", "Defpoints", *Role]
    index = {"#000000": "7", "#0072b2": "5", "#d55e00": "30", "#009e73": "3"}
    for role in Role:
        style, layer = STYLES[role], layers[role]
        assert int(layer.one(420)) == int(style.hex.removeprefix("#"), 16)
        assert layer.one(62) == index[style.hex]
        assert int(layer.one(370)) == round(100 * style.width)
        assert layer.one(6) == (role if style.pattern else "Continuous")


@pytest.mark.parametrize("unit", list(Unit))
def test_line_types_are_the_patterns_of_the_roles(unit: Unit) -> None:
    """Dashes are positive and gaps negative, in the unit of the file, after their sum."""
    types = raw(marked(unit)).table("LTYPE")
    patterned = [role for role in Role if STYLES[role].pattern]
    assert list(types) == ["ByBlock", "ByLayer", "Continuous", *patterned]
    for role in patterned:
        pattern = STYLES[role].pattern
        mm = [value * MM[unit] for value in types[role].numbers(49)]
        signed = [-length if n % 2 else length for n, length in enumerate(pattern)]
        assert max(abs(a - b) for a, b in zip(mm, signed, strict=True)) < NEAR_MM
        assert abs(types[role].numbers(40)[0] * MM[unit] - sum(pattern)) < NEAR_MM


def test_a_strong_solid_pen() -> None:
    """Without patterns no line type is made; widths are the nearest that DXF knows."""
    file = raw(marked(pen=Pen(scale=3.0, patterned=False)))
    assert list(file.table("LTYPE")) == ["ByBlock", "ByLayer", "Continuous"]
    layers = file.table("LAYER")
    assert {layers[role].one(6) for role in Role} == {"Continuous"}
    assert layers["CUT"].one(370) == "158"
    assert layers["LABEL"].one(370) == "90"


def test_only_used_roles_are_layers() -> None:
    """A file for a machine has no layer that is empty; a placed drawing's roles count."""
    assert list(raw(sheet(Path(RING))).table("LAYER")) == ["0", "Defpoints", "CUT"]
    layers = raw(sheet(Placed(patch(), PLACES[0]))).table("LAYER")
    assert list(layers) == ["0", "Defpoints", "LABEL", "DOT", "DIMENSION", "CUT"]


def test_a_file_says_what_it_is() -> None:
    """Custom properties in the header carry what the drawing says of itself."""
    properties = library(marked()).header.custom_vars.properties
    assert properties == [
        ("Project", TITLE),
        ("Project SHA-256", DIGEST),
        ("Piece", "backing"),
        ("Face up", "wrong side"),
        ("Unit of texts", "in"),
    ]


HOSTILE_INI = """[core]
default_dimension_text_style = Hostile
support_dirs = /nowhere
store_proxy_graphics = false
load_proxy_graphics = false
log_unprocessed_tags = true
filter_invalid_xdata_group_codes = false
write_fixed_meta_data_for_testing = banana
disable_c_ext = true
[drawing-addon]
shx_resolve_order = lst
"""

PROGRAM = """
import hashlib
from sample_drawings import cad
from cutpaths.writers import dxf, svg
for writer in (dxf, svg):
    print(hashlib.sha256(writer.render(cad())).hexdigest())
"""


# Tells which files outside Python and its packages are looked into, or written.
WATCHED = f"""
import sys
seen = []
sys.addaudithook(
    lambda event, args: seen.append(str(args[0])) if event in ("open", "os.mkdir") else None
)
{PROGRAM}
for path in seen:
    if "ezdxf.ini" in path or HOME in path:
        print("looked into", path)
"""


def _run(
    program: str, folder: FilePath, seed: int, **more: str
) -> subprocess.CompletedProcess[str]:
    """Runs a program in a fresh interpreter, in a folder."""
    root = FilePath(__file__).parent
    environment = {key: value for key, value in os.environ.items() if not key.startswith("XDG_")}
    environment |= {
        "PYTHONHASHSEED": str(seed),
        "PYTHONPATH": f"{root}{os.pathsep}{root.parent}",
        **more,
    }
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )


def _digests() -> list[str]:
    return [hashlib.sha256(render(cad())).hexdigest() for render in (dxf.render, svg.render)]


@pytest.mark.parametrize("seed", range(8))
def test_the_same_drawing_gives_the_same_bytes(seed: int, tmp_path: FilePath) -> None:
    """In fresh interpreters, whatever the hash seed and an ezdxf.ini."""
    (tmp_path / "ezdxf.ini").write_text(HOSTILE_INI)
    done = _run(PROGRAM, tmp_path, seed)
    assert done.stderr == ""
    assert done.stdout.splitlines() == _digests()


@pytest.mark.parametrize("settings", [HOSTILE_INI, "not an ini file", "\x00[core]\n"])
def test_no_settings_are_read_and_none_written(settings: str, tmp_path: FilePath) -> None:
    """Here, in the home folder or where a variable names them; the home stays as it was."""
    home = tmp_path / "home"
    config = home / ".config" / "ezdxf"
    config.mkdir(parents=True)
    for folder in (tmp_path, config):
        (folder / "ezdxf.ini").write_text(settings)
    told = {"HOME": str(home), "EZDXF_CONFIG_FILE": str(config / "ezdxf.ini")}
    told |= {"EZDXF_DISABLE_C_EXT": "maybe"}
    done = _run(WATCHED.replace("HOME", repr(str(home))), tmp_path, 0, **told)
    assert done.stderr == ""
    assert done.stdout.splitlines() == _digests()
    assert [path.name for path in home.iterdir()] == [".config"]


def test_a_home_that_cannot_be_used_is_not_missed(tmp_path: FilePath) -> None:
    """A home that is not there, that is a file, or that is closed to us changes nothing."""
    closed, file = tmp_path / "closed", tmp_path / "file"
    closed.mkdir(mode=0)
    file.touch()
    for home in (closed, file, tmp_path / "none"):
        done = _run(PROGRAM, tmp_path, 0, HOME=str(home))
        assert (done.stderr, done.returncode) == ("", 0)
        assert done.stdout.splitlines() == _digests()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["closed", "file"]


def test_the_environment_is_put_back() -> None:
    """What the library must not see is there again for everything else."""
    program = (
        "import os\nfrom configparser import ConfigParser\n"
        "before, read = dict(os.environ), ConfigParser.read\n"
        "import cutpaths.writers.dxf\n"
        "print(dict(os.environ) == before, ConfigParser.read is read)\n"
    )
    done = _run(program, FilePath(__file__).parent, 0, EZDXF_TEST_FILES="x", XDG_CACHE_HOME="y")
    assert (done.stdout, done.stderr) == ("True True\n", "")


def test_options_of_ezdxf_are_put_back() -> None:
    """A program that uses ezdxf beside us keeps its own options."""
    before = ezdxf.options.write_fixed_meta_data_for_testing  # type: ignore[attr-defined] # untyped
    assert before is False
    dxf.render(sheet(Path(RING)))
    assert ezdxf.options.write_fixed_meta_data_for_testing is before  # type: ignore[attr-defined]
