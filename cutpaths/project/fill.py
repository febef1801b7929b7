"""Fills the structs of `shape` from TOML tables, and says everything that does not fit.

msgspec judges the plain values; the walk over tables is our own, because a person wants all
findings at once and not the first.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime
from enum import Enum
from fractions import Fraction
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

import msgspec

from cutpaths.errors import FINDINGS_SHOWN
from cutpaths.lengths import EXAMPLES, Unit, read_length, shown
from cutpaths.project.file_kinds import wrong_kind
from cutpaths.project.flaws import Flaw, stop_at
from cutpaths.project.kinds import TEXT_MOST, Day, Length, Number, Table
from cutpaths.project.shape import EVERY
from cutpaths.project.spelling import nearest_name
from cutpaths.source import KeyPath, Source, Written
from cutpaths.values import Value

LONGEST = Fraction(100_000)  # mm

_NUMBER = r"[+-]?[0-9]{1,9}(\.[0-9]{1,9})?"

T = TypeVar("T", bound=Table)

_WORDS = {str: "be text in quotes", bool: "be true or false", int: "be a whole number"}


class _Spot(Value):
    """Where the walk is, the unit of bare numbers, the flaws so far, and the struct of the file."""

    path: KeyPath
    unit: Unit
    flaws: list[Flaw]
    root: type[Table]

    def at(self, part: str | int) -> _Spot:
        return _Spot((*self.path, part), self.unit, self.flaws, self.root)

    def flaw(self, problem: str, hint: str = "") -> None:
        self.flaws.append(Flaw(self.path, problem, hint))


def fill(kind: type[T], source: Source) -> T:
    """Fills one struct, its tables included, from the table of a file.

    Raises:
        InputError: something does not fit; it carries all such findings.
    """
    stop_at([*wrong_kind(_fields(kind), source)], source)
    units = source.table.get("units")
    unit = Unit(units) if isinstance(units, str) and units in list(Unit) else Unit.INCH
    spot = _Spot((), unit, [], kind)
    filled: T = _table(kind, source.table, spot)
    stop_at(spot.flaws, source)
    return filled


def _table(kind: type[Table], table: Mapping[str, object], spot: _Spot) -> Any:
    """Fills a struct; None where a flaw of its own keys keeps it from being made."""
    before = len(spot.flaws)
    fields = _fields(kind)
    _unknown_keys(kind, table, spot)
    values: dict[str, Any] = {}
    for name, field in fields.items():
        if name in table:
            values[name] = _value(field.type, table[name], spot.at(name))
        elif field.required:
            example = _unwrapped(field.type)[1].get("write", f"`{name}`")
            example = example if "`" in example else f"`{example}`"
            spot.at(name).flaw("is missing", f"Write for example {example}")
    return None if len(spot.flaws) > before else kind(**values)


@cache
def _fields(kind: type[Table]) -> dict[str, msgspec.structs.FieldInfo]:
    return {field.name: field for field in msgspec.structs.fields(kind)}


def _unknown_keys(kind: type[Table], table: Mapping[str, object], spot: _Spot) -> None:
    tag = kind.__struct_config__.tag_field
    known = sorted([*_fields(kind), tag] if tag else _fields(kind))
    unknown = [key for key in table if key not in known]
    for count, key in enumerate(unknown):
        hint = _known_key(key, known, kind, spot.root) if count < FINDINGS_SHOWN else ""
        spot.at(key).flaw("is not a known key", hint)


def _known_key(key: str, known: list[str], kind: type[Table], root: type[Table]) -> str:
    """What a person may have meant: a key spelled alike, or the same key in another table."""
    if near := nearest_name(key, known):
        return f"Write `{near}`"
    inner = [n for n in _fields(kind) if any(key in _fields(t) for t in _tables_of(n, kind))]
    if inner and kind is not root:
        return f"`{key}` belongs in its table {' or '.join(f'`{name}`' for name in sorted(inner))}"
    if key in _fields(root):
        if _tables_of(key, root):
            return f"`{key}` is a table of its own: write {_heading(key, root)}"
        return f"`{key}` belongs at the head of the file, above the first table"
    for name in _fields(root):
        for table in _tables_of(name, root):
            if key in _fields(table):
                tag = table.__struct_config__.tag
                layout = f" with layout {tag}" if tag else ""
                return f"`{key}` belongs in the table {_heading(name, root)}{layout}"
    return f"Known keys here: {', '.join(known)}"


def _heading(name: str, root: type[Table]) -> str:
    """How a table is written; of those that a person names there is one for each name."""
    named = get_origin(_unwrapped(_fields(root)[name].type)[0]) is dict
    return f"[{name}.NAME]" if named else f"[{name}]"


def _tables_of(name: str, root: type[Table]) -> list[type[Table]]:
    """The tables that a key of a table, such as the head of the file, may hold."""
    kind = _unwrapped(_fields(root)[name].type)[0]
    choices = get_args(kind) or (kind,)
    return [each for each in choices if isinstance(each, type) and issubclass(each, Table)]


def _value(hint: Any, value: object, spot: _Spot) -> Any:
    """Reads one value by its type; None, with a flaw, where it does not fit."""
    kind, extra = _unwrapped(hint)
    if isinstance(kind, type) and issubclass(kind, Table):
        return _table_or_short(kind, value, spot)
    if kind is Fraction:
        return _length(value, extra["least"], spot)
    if kind is Number:
        return _number(value, extra, spot)
    if kind is Day:
        return _day(value, spot)
    match get_origin(kind), value:
        case (origin, dict() as table) if origin in (Union, UnionType):
            return _tagged(get_args(kind), table, spot)
        case (origin, dict() as table) if origin is dict:
            return _named(kind, table, spot)
        case (origin, Written() | str() | int()) if get_args(kind)[1:] == (Length,):
            return {EVERY: _length(value, "positive", spot)}
        case (origin, list() as items) if origin is list:
            item = get_args(kind)[0]
            return [_value(item, each, spot.at(count)) for count, each in enumerate(items)]
        case (origin, list() as items) if origin is tuple and len(items) == len(get_args(kind)):
            return tuple(map(_value, get_args(kind), items, [spot] * len(items)))
    return _scalar(hint, kind, extra, value, spot)


def _unwrapped(hint: Any) -> tuple[Any, dict[str, str]]:
    """A type without its annotations and its None, and what the annotations say to us."""
    extra: dict[str, str] = {}
    while True:
        if get_origin(hint) is Annotated:
            hint, *metas = get_args(hint)
            for meta in metas:
                extra = (meta.extra or {}) | extra
            continue
        options = [option for option in get_args(hint) if option is not type(None)]
        if get_origin(hint) not in (Union, UnionType) or len(options) > 1:
            return hint, extra
        hint = options[0]


def _table_or_short(kind: type[Table], value: object, spot: _Spot) -> Any:
    if isinstance(value, dict):
        return _table(kind, value, spot)
    if kind.short and isinstance(value, str | int):
        least = _unwrapped(_fields(kind)[kind.short[0]].type)[1]["least"]
        return kind(**dict.fromkeys(kind.short, _length(value, least, spot)))
    either = "a length or a table" if kind.short else "a table"
    spot.flaw(f"must be {either}, got {_got(value)}")
    return None


def _tagged(kinds: tuple[type[Table], ...], table: Mapping[str, object], spot: _Spot) -> Any:
    """One of several tables, by the key that tells them apart."""
    by_tag = {str(kind.__struct_config__.tag): kind for kind in kinds}
    key = str(kinds[0].__struct_config__.tag_field)
    names = _one_of(by_tag)
    if key not in table:
        spot.at(key).flaw("is missing", f"Write {names}")
        return None
    tag = table[key]
    if not isinstance(tag, str) or tag not in by_tag:
        spot.at(key).flaw(f"must be {names}, got {_got(tag)}")
        return None
    return _table(by_tag[tag], table, spot)


def _named(kind: Any, table: Mapping[str, object], spot: _Spot) -> dict[str, Any]:
    """A table whose keys are names of the person's own, or letters of sides."""
    key_type, value_type = get_args(kind)
    for name in table:
        _scalar(key_type, str, _unwrapped(key_type)[1], name, spot.at(name))
    return {name: _value(value_type, value, spot.at(name)) for name, value in table.items()}


def _length(value: object, least: str, spot: _Spot) -> Fraction | None:
    if not isinstance(value, str | int):
        spot.flaw(f"must be a length such as {EXAMPLES}, got {_got(value)}")
        return None
    try:
        mm = read_length(value, spot.unit)
    except ValueError as error:
        spot.flaw(str(error))
        return None
    if least == "positive" and mm <= 0:
        spot.flaw(f"must be more than 0, got {shown(value)}")
    elif least == "zero" and mm < 0:
        spot.flaw(f"must not be less than 0, got {shown(value)}")
    elif abs(mm) > LONGEST:
        spot.flaw(f"must not be over 100 m, got {shown(value)}")
    return mm


def _number(value: object, extra: Mapping[str, str], spot: _Spot) -> Number | None:
    """A number that is no length: a price, a percentage."""
    plain = isinstance(value, Written | int) and not isinstance(value, bool)
    if not plain or not re.fullmatch(_NUMBER, str(value)):
        spot.flaw(f"must {extra['must']}, got {_got(value)}")
        return None
    number = Number(str(value))
    if number < 0:
        spot.flaw(f"must not be less than 0, got {shown(value)}")
    elif "below" in extra and number >= int(extra["below"]):
        spot.flaw(f"must be less than {extra['below']}, got {shown(value)}")
    return number


def _day(value: object, spot: _Spot) -> str | None:
    """A date as TOML writes it, or text."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value.isoformat()
    text = isinstance(value, str) and not isinstance(value, Written)
    if text and 1 <= len(str(value)) <= TEXT_MOST:
        return str(value)
    got = "a date with a time" if isinstance(value, datetime) else _got(value)
    spot.flaw(f"must be a date such as 2026-03-14, or text of 1 to {TEXT_MOST} letters, got {got}")
    return None


def _scalar(hint: Any, kind: Any, extra: Mapping[str, str], value: object, spot: _Spot) -> Any:
    """A plain value, judged by msgspec; what it must be is said in our own words."""
    plain = isinstance(value, str | int | list | dict) and not isinstance(value, Written)
    try:
        if plain:  # else msgspec would take a float or a date for text
            return msgspec.convert(value, hint)
    except msgspec.ValidationError:
        pass
    spot.flaw(f"must {extra.get('must') or _words(kind)}, got {_got(value)}")
    return None


def _words(kind: Any) -> str:
    if get_origin(kind) is Literal:
        return f"be {_one_of(get_args(kind))}"
    if isinstance(kind, type) and issubclass(kind, Enum):
        return f"be {_one_of([member.value for member in kind])}"
    if get_origin(kind) is list:
        return "be a list"
    if get_origin(kind) is dict and get_args(kind)[1] == Length:
        return "be a length or a table"
    if get_origin(kind) is tuple:
        return "be a pair such as [0, 0]"
    return _WORDS.get(kind, "be a table")


def _one_of(names: Any) -> str:
    *most, last = sorted(str(name) for name in names)
    return f"{', '.join(most)} or {last}" if most else last


def _got(value: object) -> str:
    match value:
        case dict():
            return "a table"
        case list():
            return f"a list of {len(value)}" if value else "an empty list"
        case str() | bool() | int():
            return shown(value)
    return "a date or time"
