"""Progress: a line on a terminal that is gone again, and not a word elsewhere."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cutpaths.cli import searching, working

TIDEPOOL = Path(__file__).parent.parent / "fixtures" / "tidepool.toml"


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Standard error is a terminal, and nobody waits for the first word."""
    monkeypatch.setattr(working, "quiet", lambda: False)
    monkeypatch.setattr(working, "QUIET", 0.0)
    monkeypatch.setattr(working, "BETWEEN", 0.01)
    monkeypatch.setattr(searching, "quiet", lambda: False)
    monkeypatch.setattr(searching, "QUIET", -1.0)
    monkeypatch.setattr(searching, "BETWEEN", -1.0)


@pytest.mark.usefixtures("terminal")
def test_silent_work_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """What is done and for how long, again and again, and the line is taken away at the end."""
    with working.working("Proving"):
        time.sleep(0.1)
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\rProving (0 s)") >= 2
    assert told.err.endswith("\r")


@pytest.mark.usefixtures("terminal")
def test_work_that_fails_takes_its_line_away(capsys: pytest.CaptureFixture[str]) -> None:
    """The error passes, and its message starts on a clean line."""
    with pytest.raises(ZeroDivisionError):
        _fail()
    assert capsys.readouterr().err.endswith("\r")


def _fail() -> None:
    with working.working("Proving"):
        time.sleep(0.05)
        raise ZeroDivisionError


def test_nothing_is_told_where_nobody_watches(capsys: pytest.CaptureFixture[str]) -> None:
    """Standard error of a script stays empty."""
    with working.working("Proving"):
        time.sleep(0.05)
    assert capsys.readouterr() == ("", "")


def test_quick_work_is_not_told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a terminal too, what takes under a second says nothing."""
    monkeypatch.setattr(working, "quiet", lambda: False)
    with working.working("Proving"):
        time.sleep(0.01)
    assert capsys.readouterr() == ("", "")


@pytest.mark.usefixtures("terminal")
def test_searches_tell_how_far_they_are(capsys: pytest.CaptureFixture[str]) -> None:
    """Each in its own words; the clock and Ctrl-C end them, and the reason is told."""
    with searching.counting("Trying sizes", 100.0) as person:
        assert person.counted(3, 10)
    assert capsys.readouterr().err == "\rTrying sizes 3 of 10 (0 s)\r"
    with searching.arranging(0.0) as watch:
        assert not watch("Swapping", 0.25)
    assert watch.stopped == "the time limit of 0 s by the clock was reached"
    assert capsys.readouterr().err == "\rSwapping 25% (0 s)\r"
    with searching.arranging(100.0) as watch:
        signal.raise_signal(signal.SIGINT)
        assert not watch("Swapping", 0.0)
    assert (watch.interrupted, watch.stopped) == (True, "the search was interrupted")


@pytest.mark.skipif(os.name == "nt", reason="signals of this kind are not sent there")
def test_interrupted_nothing_is_written(tmp_path: Path) -> None:
    """Ctrl-C while files are drawn: status 130, one word, no folder."""
    code = (
        "import os, signal\n"
        "from cutpaths.writers import dxf\n"
        "dxf.render = lambda _document: os.kill(os.getpid(), signal.SIGINT)\n"
        "import sys\n"
        f"sys.argv = ['cutpaths', 'write', {str(TIDEPOOL)!r}, '-o', 'out', '--for', 'cad']\n"
        "from cutpaths.cli import main\n"
        "main()\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert (run.returncode, run.stdout, run.stderr) == (130, "", "\nInterrupted.\n")
    assert list(tmp_path.iterdir()) == []
