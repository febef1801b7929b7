"""Imports run one way, and cheap commands stay cheap."""

from __future__ import annotations

import ast
import subprocess
import sys
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import cutpaths

ROOT = Path(cutpaths.__file__).parent
# A module may import only what stands above it here.
ORDER = (
    "later",
    "values",
    "errors",
    "lengths",
    "roles",
    "shapes",
    "paint",
    "key_lines",
    "toml_slips",
    "source",
    "project",
    "geometry",
    "pieces",
    "figures",
    "proof",
    "arrange",
    "cloth",
    "machine",
    "projector",
    "strokes",
    "drawing",
    "sheets",
    "writers",
    "readback",
    "formats",
    "files",
    "cli",
    "__main__",
)
# Third-party packages, and the only parts that may import them.
THIRD_PARTY = {
    "click": {"cli"},
    "ezdxf": {"writers"},
    "ortools": {"arrange"},
    "highspy": {"cloth"},
    "msgspec": {"values", "project", "machine", "projector"},
    "numpy": {"cloth", "projector", "proof"},
    "PIL": {"readback", "sheets"},
    "resvg_py": {"writers"},
    "shapely": {"proof"},
    "svgwrite": {"writers"},
    "tree_sitter": {"key_lines"},
    "tree_sitter_toml": {"key_lines"},
    "typst": {"writers"},
}
TIDEPOOL = ROOT.parent / "fixtures" / "tidepool.toml"
HEAVY = {"shapely", "ezdxf", "svgwrite", "numpy", "tree_sitter", "typst"}
# Each module costs a command a third of a million instructions before it has done anything.
FIGURES_MODULES = 110


def _modules() -> dict[str, Path]:
    names = {}
    for path in sorted(ROOT.rglob("*.py")):
        parts = path.relative_to(ROOT.parent).with_suffix("").parts
        names[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return names


MODULES = _modules()


@cache
def _imports(path: Path) -> set[str]:
    """Every module named by an import anywhere in a file, lazy ones too."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            inner = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= (inner & MODULES.keys()) or {node.module}
    return found


def _part(module: str) -> str:
    return module.split(".")[1] if "." in module else ""


@pytest.mark.parametrize("module", [m for m in MODULES if m != "cutpaths"])
def test_imports_go_up_the_list_only(module: str) -> None:
    """Each module imports only what stands above its part of the package."""
    place = ORDER.index(_part(module))
    below = {
        name
        for name in _imports(MODULES[module])
        if name.startswith("cutpaths.") and ORDER.index(_part(name)) > place
    }
    assert below == set()


def test_no_module_imports_itself_round_about() -> None:
    """The graph of imports inside the package has no cycle."""
    graph = {
        module: {name for name in _imports(path) if name in MODULES and name != module}
        for module, path in MODULES.items()
        if path.name != "__init__.py"
    }
    assert len(tuple(TopologicalSorter(graph).static_order())) >= len(graph)


@pytest.mark.parametrize("package", sorted(THIRD_PARTY))
def test_third_party_packages_are_confined(package: str) -> None:
    """Each third-party package is imported only in the parts that are there for it."""
    users = {
        _part(module)
        for module, path in MODULES.items()
        if any(name.split(".")[0] == package for name in _imports(path))
    }
    assert users <= THIRD_PARTY[package]
    assert users


def _loaded(*arguments: str) -> set[str]:
    code = (
        "import sys\n"
        "from cutpaths.cli import cli\n"
        f"cli.main({list(arguments)!r}, standalone_mode=False)\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    return set(run.stderr.split())


@pytest.mark.parametrize(
    "arguments", [("--help",), ("write", "--help"), ("figures", str(TIDEPOOL))]
)
def test_cheap_commands_load_no_heavy_library(arguments: tuple[str, ...]) -> None:
    """Help and figures load no writer and no geometry library."""
    loaded = _loaded(*arguments)
    assert loaded & HEAVY == set()
    assert {name for name in loaded if name.startswith("cutpaths.writers")} == set()


def test_figures_load_only_what_the_project_asks_for() -> None:
    """Figures of plain squares load few modules, and none of layouts, joins or remedies."""
    loaded = _loaded("figures", str(TIDEPOOL))
    ours = {name for name in loaded if name.startswith("cutpaths.")}
    assert {"cutpaths.geometry.layouts.squares", "cutpaths.figures.collect"} <= ours
    assert len(ours) <= FIGURES_MODULES
    unasked = {
        "cutpaths.figures.measured",
        "cutpaths.figures.outlines",
        "cutpaths.geometry.folded",
        "cutpaths.geometry.layouts.blocks",
        "cutpaths.geometry.layouts.pairs",
        "cutpaths.pieces.panels",
        "cutpaths.project.json_schema",
        "dataclasses",
        "json",
    }
    assert loaded & unasked == set()


def test_values_are_no_data_classes() -> None:
    """Nothing but `values`, for type checkers, imports data classes: they are slow to define."""
    users = {module for module, path in MODULES.items() if "dataclasses" in _imports(path)}
    assert users == {"cutpaths.values"}


def test_importing_the_package_loads_nothing_heavy() -> None:
    """`import cutpaths` alone loads no third-party package at all."""
    code = "import cutpaths, sys; print('\\n'.join(sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert set(run.stdout.split()) & (HEAVY | {"click", "msgspec"}) == set()
