"""The built wheel holds what the package needs, and runs from it."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from cutpaths.writers.page import MODULES

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built with the build backend that is installed and unpacked into a folder."""
    folder = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "-q"]
    subprocess.run([*pip, "-w", str(folder), str(ROOT)], check=True)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


def test_wheel_has_data_and_licences(unpacked: Path) -> None:
    """Font data, its notice, the new project file, the type marker and the licence are in it."""
    names = {str(path.relative_to(unpacked)) for path in unpacked.rglob("*") if path.is_file()}
    wanted = {
        "cutpaths/strokes.txt",
        "cutpaths/strokes-notice.txt",
        "cutpaths/projector/starter.toml",
        "cutpaths/projector/page/page.html",
        "cutpaths/projector/page/page.css",
        *(f"cutpaths/projector/page/{name}" for name in MODULES),
        "cutpaths/project/starter.toml",
        "cutpaths/writers/fonts/OFL.txt",
        *(f"cutpaths/writers/fonts/Inter-{face}.otf" for face in ("Bold", "Italic", "Regular")),
        "cutpaths/writers/index_page/index.html",
        "cutpaths/writers/index_page/index.css",
        "cutpaths/py.typed",
    }
    assert wanted - names == set()
    assert any(name.endswith("licenses/LICENSE") for name in names)
    assert not any(name.startswith(("tests", "fixtures")) for name in names)


def test_wheel_runs_the_main_job(unpacked: Path, tmp_path: Path) -> None:
    """A new project is made, proven and written by the wheel alone, away from the source."""
    environment = os.environ | {"PYTHONPATH": str(unpacked)}
    for arguments in (
        ("new", "first.toml"),
        ("prove", "first.toml"),
        ("write", "first.toml", "-o", "out"),
    ):
        run = subprocess.run(
            [sys.executable, "-P", "-m", "cutpaths", *arguments],
            cwd=tmp_path,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
        assert (run.returncode, run.stderr) == (0, "")
    assert (tmp_path / "out" / "index.html").stat().st_size > 10_000
    backing = tmp_path / "out" / "machine" / "first-blanket-cutter-backing.dxf"
    assert backing.stat().st_size > 10_000
