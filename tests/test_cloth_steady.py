"""The plan that is printed is that of the command, and soon made."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from cutpaths.cloth.plan_words import steps
from cutpaths.cloth.steady import STEADY, steady_plan
from cutpaths.pieces import build
from cutpaths.project import load

FIXTURES = Path(__file__).parent.parent / "fixtures"
KILN = FIXTURES / "kiln.toml"


def test_it_has_no_clock() -> None:
    """Tries end its search and nothing else."""
    assert STEADY.seconds is None
    assert STEADY.tries is not None


def test_it_is_the_plan_of_the_command() -> None:
    """`cutpaths cloth` says the same steps and notes, in a process with another hash seed."""
    found = steady_plan(build(load(KILN)))
    command = [sys.executable, "-m", "cutpaths", "cloth", str(KILN), "--json"]
    done = subprocess.run(
        command, capture_output=True, text=True, check=True, env={"PYTHONHASHSEED": "7"}
    )
    data = json.loads(done.stdout)
    ruler = found.kit.project.ruler
    for plan in found.plans:
        assert tuple(data["fabrics"][plan.fabric.name]["steps"]) == steps(plan, ruler)
    assert tuple(data["notes"]) == found.notes


def test_a_backing_is_joined() -> None:
    """A backing wider than its cloth comes back as panels, with the key to write."""
    found = steady_plan(build(load(KILN)))
    assert found.kit.panels is not None
    assert any("Write `join = { seams = 1" in note for note in found.notes)


def test_no_solver_is_loaded() -> None:
    """It needs no extra package."""
    code = (
        "import sys\nfrom pathlib import Path\nfrom cutpaths.cloth.steady import steady_plan\n"
        "from cutpaths.pieces import build\nfrom cutpaths.project import load\n"
        f"steady_plan(build(load(Path({str(KILN)!r}))))\n"
        "print('highspy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
