"""The published JSON Schema is current, accepts every right file and refuses wrong shapes."""

from __future__ import annotations

import json
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from strategies import UNITS, project_tables, toml_text, written_lengths

from cutpaths.lengths import Unit
from cutpaths.project import schema, template
from cutpaths.project.json_schema import schema_text

ROOT = Path(__file__).parents[1]

JUDGE = jsonschema.Draft202012Validator(schema())

RIGHT: dict[str, Any] = {
    "format": 1,
    "title": "Pond",
    "top": {"layout": "squares", "patch": 5, "columns": 3, "rows": 2},
    "border": {"width": 2},
}


def test_published_schema_is_current() -> None:
    """docs/ holds the schema as the code makes it; write `schema_text()` there to renew it."""
    assert (ROOT / "docs" / "project-file.schema.json").read_text("utf-8") == schema_text()


def test_schema_is_one() -> None:
    """The schema itself follows the dialect that it names (JSON Schema 2020-12)."""
    jsonschema.Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]


@pytest.mark.parametrize("path", sorted((ROOT / "fixtures").glob("*.toml")), ids=lambda p: p.stem)
def test_examples_follow_the_schema(path: Path) -> None:
    """An editor that checks by the schema accepts every example."""
    JUDGE.validate(as_json(tomllib.loads(path.read_text("utf-8"))))


def as_json(table: dict[str, Any]) -> Any:
    """A table of TOML as an editor hands it to a schema: dates are text."""
    return json.loads(json.dumps(table, default=date.isoformat))


def test_new_project_follows_the_schema() -> None:
    """The file that a new project starts from is accepted too."""
    JUDGE.validate(tomllib.loads(template()))


@settings(max_examples=60)
@given(project_tables())
def test_right_tables_follow_the_schema(table: dict[str, Any]) -> None:
    """Whatever is read as a project is accepted."""
    JUDGE.validate(tomllib.loads(toml_text(table)))


@given(written_lengths(), UNITS)
def test_written_lengths_follow_the_schema(written: tuple[str, object], unit: Unit) -> None:
    """Every written form of a length is accepted."""
    JUDGE.validate(RIGHT | {"units": unit.value, "border": {"width": written[0]}})


@pytest.mark.parametrize(
    "change",
    [
        {"format": 2},
        {"title": 5},
        {"title": ""},
        {"units": "feet"},
        {"colour": "red"},
        {"border": {}, "border2": {}},
        {"border": 2},
        {"border": {"width": "wide"}},
        {"border": {"width": 0}},
        {"border": {"width": {"a": 2}}},
        {"border": {"width": {"A": 0}}},
        {"border": {"backing": "5 ft"}},
        {"border": {"backing": {"width": 5}}},
        {"top": {"layout": "stripes"}},
        {"top": {"layout": "squares", "columns": 3, "rows": 2}},
        {"top": {"layout": "squares", "patch": True}},
        {"top": {"layout": "panel", "cut": 30}},
        {"top": {"layout": "outline", "points": [[0, 0, 0]]}},
        {"top": {"layout": "outline", "regular": {"sides": 2, "side": 9}}},
        {"fabric": {"Sand": {}}},
        {"opening": {"side": "AB"}},
        {"measured": {"wide": 5}},
        {"measured": {"sides": 30, "diagonals": {"BC-DA": 42}}},
        {"turn_of_cloth": -1},
        {"seams": {"miter": [1]}},
    ],
    ids=str,
)
def test_wrong_shapes_are_refused(change: dict[str, Any]) -> None:
    """Unknown keys, missing keys, wrong types and wrong names are refused."""
    JUDGE.validate(RIGHT)
    assert not JUDGE.is_valid(RIGHT | change)
