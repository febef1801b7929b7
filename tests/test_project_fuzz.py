"""Whatever stands in a file: a project, or findings in one line each."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import project_tables, toml_text

from cutpaths.errors import InputError
from cutpaths.project import Project, read, schema


def read_or_told(text: str) -> Project | InputError:
    """The project, or the error that tells why there is none."""
    try:
        return read(text, name="fuzz.toml")
    except InputError as error:
        return error


def check(text: str) -> None:
    """Asserts that a text is a project or is told in lines that a person can read."""
    found = read_or_told(text)
    if isinstance(found, Project):
        assert found.title
        return
    assert found.findings
    for finding in found.findings:
        line = str(finding)
        assert line.startswith("fuzz.toml")
        assert line.isprintable(), line
        assert 0 <= finding.line <= text.count("\n") + 1


WORDS = sorted({key for table in schema()["$defs"].values() for key in table.get("properties", {})})
SCALARS = st.one_of(
    st.integers(),
    st.integers(1, 50),
    st.booleans(),
    st.text(max_size=12),
    st.sampled_from(["squares", "panel", "outline", "cm", "A", "4 1/2", "57 mm", "1/8", "0", "-1"]),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=4),
        st.dictionaries(st.one_of(st.sampled_from(WORDS), st.text(max_size=6)), inner, max_size=4),
    ),
    max_leaves=12,
)
TABLES = st.dictionaries(st.sampled_from(WORDS), VALUES, max_size=8)


@settings(max_examples=200)
@given(st.text(max_size=80))
def test_any_text(text: str) -> None:
    """Any text is a project or is told why not."""
    check(text)


@settings(max_examples=200)
@given(st.binary(max_size=80))
def test_any_bytes(data: bytes) -> None:
    """Any bytes, read as Latin letters, are a project or are told why not."""
    check(data.decode("latin-1"))


@settings(max_examples=300)
@given(TABLES)
def test_any_tables(table: dict[str, Any]) -> None:
    """Known keys with any values are a project or are told why not."""
    check(toml_text(table))


@settings(max_examples=400, suppress_health_check=[HealthCheck.too_slow])
@given(project_tables(), st.data())
def test_damaged_projects(table: dict[str, Any], data: st.DataObject) -> None:
    """A right project with one value put in, changed or left out is one or is told why not."""
    damaged = copy.deepcopy(table)
    inner: Any = damaged
    while True:
        keys = list(inner) if isinstance(inner, dict) else list(range(len(inner)))
        key = data.draw(st.sampled_from([*keys, *(["patch"] if isinstance(inner, dict) else [])]))
        deeper = inner[key] if key in keys else None
        if isinstance(deeper, dict | list) and deeper and data.draw(st.booleans()):
            inner = deeper
            continue
        break
    if key in keys and data.draw(st.booleans()):
        del inner[key]
    else:
        inner[key] = data.draw(VALUES)
    check(toml_text(damaged))
