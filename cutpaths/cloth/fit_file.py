"""A size that cloth on hand makes as a project file of its own, in TOML 1.0.

It has all tables of the project that it was fitted from, of its includes too, but for what the
size settles: the numbers of the top, the border, the joining of the backing, and where the opening
lies. Sizes of the old file and what was measured of its top are left out.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence

from cutpaths.cloth.fit import Option
from cutpaths.cloth.fit_tops import top_table
from cutpaths.lengths import in_unit
from cutpaths.source import Written

TITLE_MOST = 120  # letters
_BARE = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)
_LEFT_OUT = ("measured", "size")


def project_text(table: Mapping[str, object], each: Option, name: str) -> str:
    """The project file of one size.

    Args:
        table: the tables of the project that was fitted.
        each: the size.
        name: of the file that the project was read from.
    """
    made = {key: value for key, value in table.items() if key not in _LEFT_OUT}
    unit = each.project.ruler.unit
    made["title"] = f"{each.project.title} {each.columns} x {each.rows}"[:TITLE_MOST]
    made["top"] = top_table(each.project.top, _table(table, "top"))
    made["border"] = {"width": in_unit(each.border, unit)}
    made["backing"] = _without(_table(table, "backing"), "join")
    if each.join is not None:
        join = {
            "seams": each.join.seams,
            "run": "down" if each.join.down else "across",
            "at": [in_unit(mm, unit) for mm in each.join.at or ()],
            "allowance": in_unit(each.join.allowance, unit),
        }
        made["backing"] = {**_table(made, "backing"), "join": join}
    made.pop("opening", None)
    heads = [f"# Fitted to the cloth on hand, from {name}."]
    return "\n".join([*heads, *_lines(made, ())]) + "\n"


def _table(table: Mapping[str, object], key: str) -> dict[str, object]:
    found = table.get(key)
    return dict(found) if isinstance(found, Mapping) else {}


def _without(table: dict[str, object], key: str) -> dict[str, object]:
    return {name: value for name, value in table.items() if name != key}


def _lines(table: Mapping[str, object], path: tuple[str, ...]) -> Iterator[str]:
    """The plain keys of a table, then the tables in it."""
    inner = {key: value for key, value in table.items() if isinstance(value, Mapping)}
    plain = {key: value for key, value in table.items() if key not in inner}
    if path and (plain or not inner):
        yield ""
        yield f"[{'.'.join(map(_key, path))}]"
    for key, value in plain.items():
        yield f"{_key(key)} = {_value(value)}"
    for key, within in inner.items():
        yield from _lines(within, (*path, key))


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _text(text: str) -> str:
    """A basic string: as in JSON, but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _value(value: object) -> str:
    match value:
        case Written():
            return str(value)
        case str():
            return _text(value)
        case bool():
            return "true" if value else "false"
        case Mapping():
            inner = ", ".join(f"{_key(str(key))} = {_value(each)}" for key, each in value.items())
            return f"{{ {inner} }}" if inner else "{}"
        case Sequence():
            return f"[{', '.join(map(_value, value))}]"
        case _:
            return str(value)
