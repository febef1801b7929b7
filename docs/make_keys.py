"""Tables of the keys of a project file, from its JSON Schema, in words for people."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from cutpaths.project.json_schema import schema

Shape = Mapping[str, Any]

# What the schema leaves to the page; the table of the file itself is all tables.
_MEANINGS = {
    "top": "The patchwork or the one piece of cloth; its keys follow its `layout`",
    "title": "Name of the blanket, on sheets and in file names",
    "layout": "Which kind of top this is",
    "width": "Across",
    "height": "Down",
    "sides": "How many",
    "patch": "Size of a square",
    "include": "Other files of the same folder whose tables are used too",
}
_DEFAULT = re.compile(r" \(default: (.+)\)$")


def tables() -> dict[str, Shape]:
    """Every table that a project file may hold, by its name in the schema."""
    shapes = {name: _table(shape) for name, shape in schema()["$defs"].items()}
    return {name: shape for name, shape in shapes.items() if "properties" in shape}


def keys(name: str) -> Iterator[str]:
    """The keys of one table, in the order of the schema."""
    shape = tables()[name]
    yield "| key | value | default | meaning |"
    yield "| --- | --- | --- | --- |"
    for key, value in shape["properties"].items():
        must = key in shape.get("required", ())
        default = "must be given" if must else _default(value)
        yield f"| `{key}` | {_value(value)} | {default} | {_meaning(key, value)} |"


def _table(shape: Shape) -> Shape:
    """The part of a shape that is a table, where a bare length may stand for it."""
    return next((each for each in shape.get("anyOf", ()) if "properties" in each), shape)


def _default(value: Shape) -> str:
    """The default that the schema holds, or else what the description says of it."""
    match value.get("default"):
        case bool() as yes:
            return f"`{str(yes).lower()}`"
        case str() as word:
            return f'`"{word}"`'
        case int() as number:
            return f"`{number}`"
    said = _DEFAULT.search(str(value.get("description", "")))
    return said[1] if said else ""


def _meaning(key: str, value: Shape) -> str:
    """What a key is for, without the default, which has a column of its own."""
    text = str(value.get("description") or "")
    return _DEFAULT.sub("", text) or _described(value) or _MEANINGS[key]


def _described(value: Shape) -> str:
    """The first sentence about the table that a key holds; nothing for other values."""
    inner = value.get("additionalProperties") or value
    name = str(inner.get("$ref", "")).rpartition("/")[2]
    if name == "Length":
        return ""
    text = str(schema()["$defs"].get(name, {}).get("description", ""))
    return text.partition(". ")[0].rstrip(".")


def _value(value: Shape) -> str:
    """What a key holds."""
    if "$ref" in value:
        return _named(str(value["$ref"]).rpartition("/")[2])
    if "enum" in value:
        return _one_of(value["enum"])
    if "anyOf" in value:
        kinds = dict.fromkeys(_value(each) for each in value["anyOf"])
        return " or ".join(kinds)
    match value.get("type"):
        case "array":
            return _list(value)
        case "object":
            return "table"
        case "boolean":
            return "`true` or `false`"
        case "integer":
            return "whole number"
        case "number":
            return "number"
    return "text"


def _list(value: Shape) -> str:
    if "prefixItems" in value["items"]:
        return "list of pairs of lengths"
    return f"list of {_value(value['items'])}s"


def _named(name: str) -> str:
    shape = schema()["$defs"][name]
    if name == "Length":
        return "length"
    if "enum" in shape:
        return _one_of(shape["enum"])
    return "length or table" if "anyOf" in shape else "table"


def _one_of(values: list[Any]) -> str:
    quoted = (f'"{value}"' if isinstance(value, str) else str(value) for value in values)
    return " or ".join(f"`{value}`" for value in quoted)
