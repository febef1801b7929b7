"""The JSON Schema of the project file, so that editors complete and check it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import msgspec

from cutpaths.project.kinds import LENGTH_PATTERN, NAME_PATTERN, TEXT_MOST, Day, Number, Patch
from cutpaths.project.shape import FileTable, Size
from cutpaths.project.variants import KEPT, KINDS

DIALECT = "https://json-schema.org/draft/2020-12/schema"

_LENGTH = {
    "title": "Length",
    "description": "A length: a bare number takes the file's units",
    "type": ["number", "string"],
    "pattern": LENGTH_PATTERN,
}
_LENGTH_REFERENCE = {"$ref": "#/$defs/Length"}
# Tables of lengths for which one length may stand.
_LENGTH_FOR_EACH = (
    ("BorderTable", "width"),
    ("MeasuredTable", "sides"),
    ("MeasuredTable", "diagonals"),
)


def schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of a project file read as TOML.

    It judges types and names; rules between keys are left to cutpaths itself.
    """
    made: dict[str, Any] = _without_none(msgspec.json.schema(FileTable, schema_hook=_length))
    tables = made["$defs"]
    for kind in (Patch, Size):
        tables[kind.__name__] = _or_length(tables[kind.__name__])
    for table, key in _LENGTH_FOR_EACH:
        keys = tables[table]["properties"]
        keys[key] = _or_length(keys[key])
    tables["Length"] = _LENGTH
    whole = tables["FileTable"]["properties"]
    whole |= {kind: _overrides(kind, list(whole)) for kind in KINDS}
    return {"$schema": DIALECT, "title": "cutpaths project file"} | made


def schema_text() -> str:
    """The schema as the file in docs/ has it."""
    return msgspec.json.format(msgspec.json.encode(schema()), indent=2).decode() + "\n"


def _length(kind: type) -> dict[str, Any]:
    if kind is Number:
        return {"type": "number"}
    if kind is Day:
        return {"type": "string", "minLength": 1, "maxLength": TEXT_MOST}
    if kind is not Fraction:
        raise NotImplementedError(kind)
    return dict(_LENGTH_REFERENCE)


def _overrides(kind: str, keys: list[str]) -> dict[str, Any]:
    """The schema of tables that override parts of the file; what they hold is judged there."""
    return {
        "description": f"Each {kind} by its name: keys that take the place of those of the file",
        "type": "object",
        "propertyNames": {"pattern": NAME_PATTERN},
        "additionalProperties": {
            "type": "object",
            "properties": {key: {} for key in keys if key not in KEPT},
            "additionalProperties": False,
        },
    }


def _or_length(table: dict[str, Any]) -> dict[str, Any]:
    """The schema of a table for which a bare length may stand."""
    about = {key: table[key] for key in ("title", "description") if key in table}
    rest = {key: table[key] for key in table if key not in about}
    return about | {"anyOf": [_LENGTH_REFERENCE | {"exclusiveMinimum": 0}, rest]}


def _without_none(node: Any) -> Any:
    """A schema without the None of keys that are left out, which TOML cannot write."""
    if isinstance(node, list):
        return [_without_none(each) for each in node]
    if not isinstance(node, dict):
        return node
    node = {key: _without_none(value) for key, value in node.items()}
    if node.get("default", "") is None:
        del node["default"]
    choices = [choice for choice in node.get("anyOf", ()) if choice != {"type": "null"}]
    if len(choices) == 1:
        del node["anyOf"]
        node = choices[0] | node
    return node
