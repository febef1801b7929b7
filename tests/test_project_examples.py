"""The examples, the file of a new project, and files that include others."""

from __future__ import annotations

import hashlib
import re
import time
import tomllib
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import get_args

import pytest

from cutpaths.lengths import INCH
from cutpaths.pieces import build
from cutpaths.project import load, load_variants, read, template
from cutpaths.project.model import Fabric, Panel, Regular, Squares
from cutpaths.project.patchwork import Blocks, Bricks, Grid, OnPoint, Strips
from cutpaths.project.shape import FileTable

FIXTURES = Path(__file__).parents[1] / "fixtures"


def inches(*numbers: float) -> tuple[Fraction, ...]:
    """Lengths in mm from inches."""
    return tuple(Fraction(number) * INCH for number in numbers)


def test_new_project_works_as_it_stands() -> None:
    """The file that a new project starts from is itself a project, without notes."""
    project = read(template())
    assert (project.title, project.notes) == ("First blanket", ())
    assert project.borders == inches(2.5, 2.5, 2.5, 2.5)


@pytest.mark.parametrize(
    "line",
    [
        'backing = { width = "37 1/2", height = 42 }',
        'finished = { width = 32, height = "36 1/2" }',
    ],
)
def test_sizes_in_the_comments_of_a_new_project_agree(line: str) -> None:
    """Taking the comment sign away gives another size of the same blanket."""
    assert f"# {line}" in template()
    assert read(template().replace(f"# {line}", line)).borders == inches(2.5, 2.5, 2.5, 2.5)


# A suggestion: one comment with a key, or a table with the comments under it.
SUGGESTION = re.compile(r"(?:^# \[.*\n)?(?:^# [\w.]+ = .*\n?)+", re.MULTILINE)
ALONE = re.compile(r"^# [\w.]+ = .*$", re.MULTILINE)
# What a suggestion takes the place of, by how it starts.
INSTEAD = {
    "chart": ("columns", "rows", "fabrics"),
    "backing": ("width",),
    "finished": ("width",),
}


def suggestions() -> list[str]:
    """Each suggestion in the comments of a new project, without its comment signs."""
    found = []
    for each in SUGGESTION.findall(template()):
        parts = [each] if each.startswith("# [") else ALONE.findall(each)
        found += [re.sub(r"^# ", "", part.strip("\n"), flags=re.MULTILINE) for part in parts]
    return found


def with_suggestion(suggestion: str) -> str:
    """The file of a new project that follows one of its suggestions."""
    text = template()
    commented = re.sub("^", "# ", suggestion, flags=re.MULTILINE)
    assert text.count(commented) == 1
    if suggestion.startswith("[top]"):
        text = re.sub(r"^\[top\]\n(?:.+\n)+", "", text, flags=re.MULTILINE)
    for key in INSTEAD.get(suggestion.split()[0], ()):
        text = re.sub(rf"^{key} = .*\n", "", text, count=1, flags=re.MULTILINE)
    if suggestion.startswith("nearest"):
        text = re.sub(r"^width = .*\n# backing", "backing", text, flags=re.MULTILINE)
    return text.replace(commented, suggestion)


@pytest.mark.parametrize("suggestion", suggestions(), ids=lambda text: text.split("\n")[0])
def test_each_suggestion_of_a_new_project_can_be_followed(suggestion: str, tmp_path: Path) -> None:
    """With its comment signs away, each gives a blanket that can be made, in all its sizes."""
    path = tmp_path / "first.toml"
    path.write_text(with_suggestion(suggestion), encoding="utf-8")
    plain = read(template())
    for project in load_variants(path):
        assert build(project).backing.count == 1
        assert project.digest != plain.digest


def test_suggestions_of_a_new_project_are_found() -> None:
    """Every optional table and every layout is among them."""
    listed = suggestions()
    tables = [each.split("]")[0][1:] for each in listed if each.startswith("[")]
    optional = ["patches", "opening", "filling", "measured", "arrange"]
    assert tables == ["top", "top", *optional, "size.large", "colorway.dusk"]
    keys = [each.split()[0] for each in listed if not each.startswith("[")]
    single = ["ruler", "turn_of_cloth", "colour", "chart", "backing", "finished", "nearest"]
    assert keys == single
    line = next(line for line in template().splitlines() if line.startswith("layout"))
    layouts = set(re.findall(r"[a-z-]+", line)) - {"layout", "or"}
    kinds = get_args(FileTable.__annotations__["top"])[0]
    assert layouts == {kind.__struct_config__.tag for kind in get_args(kinds)}


EXAMPLES: dict[str, tuple[type, tuple[Fraction, ...], int]] = {
    "beehive": (Regular, inches(*[1.5] * 6), 0),
    "boathouse": (Strips, (Fraction(50),) * 4, 0),
    "cove": (Squares, inches(*[2.25] * 4), 1),
    "doorway": (Squares, inches(3, 2, 1, 1.5), 0),
    "ferry": (Squares, inches(*[3] * 4), 0),
    "fjord": (Squares, tuple(map(Fraction, (75, 73, 75, 73))), 2),
    "harbor": (Squares, inches(*[2.5] * 4), 0),
    "kiln": (Bricks, inches(*[2.5] * 4), 0),
    "lighthouse": (Grid, inches(*[2] * 4), 0),
    "orchard": (Panel, inches(*[2.5] * 4), 0),
    "tidepool": (Squares, inches(*[2.5] * 4), 0),
    "trellis": (OnPoint, inches(*[2.25] * 4), 0),
    "windrose": (Blocks, inches(*[2] * 4), 0),
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples(name: str) -> None:
    """Every example is a project with the top and borders that its comments promise."""
    path = FIXTURES / f"{name}.toml"
    project = load(path)
    kind, borders, notes = EXAMPLES[name]
    assert (type(project.top), project.borders, len(project.notes)) == (kind, borders, notes)
    assert project.digest == hashlib.sha256(path.read_bytes()).hexdigest()


def test_every_example_is_listed() -> None:
    """No example is left without a test."""
    assert {path.stem for path in FIXTURES.glob("*.toml")} == set(EXAMPLES)


def test_include_shares_fabrics(tmp_path: Path) -> None:
    """Tables of an included file count as if they stood in the project."""
    (tmp_path / "cloth.toml").write_text('[fabric.oat]\nlabel = "Oat"\n', encoding="utf-8")
    main = tmp_path / "main.toml"
    main.write_text('include = ["cloth.toml"]\n' + template(), encoding="utf-8")
    assert load(main).fabrics[0] == Fabric(name="oat", label="Oat", directional=False)


HEAD = """\
format = 1
title = "Pond"
border = { width = 2 }
[top]
layout = "squares"
patch = 5
"""


def best_time(work: Callable[[], object]) -> float:
    """Seconds of the fastest of some runs."""
    times = []
    for _ in range(5):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def test_large_chart_is_fast() -> None:
    """A chart of 60 x 60 takes a small multiple of what reading its TOML takes."""
    names = [f"f{index}" for index in range(20)]
    rows = [" ".join(names[(row * 7 + i * i) % 20] for i in range(60)) for row in range(60)]
    chart = "chart = [" + ",\n".join(f'"{row}"' for row in rows) + "]"
    fabrics = "".join(f"[fabric.{name}]\n" for name in names)
    text = HEAD + chart + '\n[backing]\nfabric = "f1"\n' + fabrics
    assert best_time(lambda: read(text)) < 30 * best_time(lambda: tomllib.loads(text))
