"""Sizes and colorways: tables that override parts of a project before anything is checked.

`[size.NAME]` and `[colorway.NAME]` hold keys as they stand in the file itself, such as
`top.columns = 8` or `[colorway.dusk.fabric.sand]`. A table is merged key by key; a list or a value
takes the place of the other one. A [top] of another layout takes the place of the whole other one,
whose keys mean nothing in it. A colorway wins over a size, and both over the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from hashlib import sha256

from cutpaths.lengths import shown
from cutpaths.project.flaws import Flaw, stop_at
from cutpaths.project.kinds import NAME_PATTERN
from cutpaths.project.shape import FileTable
from cutpaths.project.spelling import nearest_name
from cutpaths.source import KeyPath, Source, merged
from cutpaths.values import Value, replace

SIZE, COLORWAY = "size", "colorway"
KINDS = (SIZE, COLORWAY)
VARIANTS_MOST = 100
# What makes a file that file, and not one size or colorway of it.
KEPT = frozenset({"format", "include", "units", *KINDS})


class Variants(Value):
    """The names of a project's sizes and colorways, in the order of the file."""

    sizes: tuple[str, ...]
    colorways: tuple[str, ...]


def variants_of(text: Source) -> Variants:
    """Sizes and colorways that a project declares.

    Raises:
        InputError: a table of them has no proper name, or overrides what it may not.
    """
    flaws = [flaw for kind in KINDS for flaw in _table_flaws(text, kind)]
    stop_at(flaws, text)
    return Variants(tuple(_tables(text, SIZE)), tuple(_tables(text, COLORWAY)))


def chosen(text: Source, size: str | None, colorway: str | None) -> Source:
    """The project in one of its sizes and one of its colorways; as it stands where none is named.

    Raises:
        InputError: it does not declare them, or they override what they may not.
    """
    known = variants_of(text)
    stop_at(
        [*_unknown(SIZE, size, known.sizes), *_unknown(COLORWAY, colorway, known.colorways)], text
    )
    table = {key: value for key, value in text.table.items() if key not in KINDS}
    digest, overrides = text.digest, text.overrides
    for kind, name in ((SIZE, size), (COLORWAY, colorway)):
        if name is not None:
            table = _overridden(_tables(text, kind)[name], table)
            overrides = ((kind, name), *overrides)
            digest = sha256(f"{digest} {kind}.{name}".encode()).hexdigest()
    return replace(text, table=table, digest=digest, overrides=overrides)


def _overridden(over: Mapping[str, object], under: Mapping[str, object]) -> dict[str, object]:
    match over, under:
        case {"top": {"layout": new}}, {"top": {"layout": old}} if new != old:
            under = {key: value for key, value in under.items() if key != "top"}
    return merged(over, under)


def _tables(text: Source, kind: str) -> dict[str, Mapping[str, object]]:
    found = text.table.get(kind, {})
    return dict(found) if isinstance(found, Mapping) else {}


def _table_flaws(text: Source, kind: str) -> Iterator[Flaw]:
    found = text.table.get(kind, {})
    if not isinstance(found, Mapping):
        yield Flaw((kind,), f"must be tables such as [{kind}.large]")
        return
    if len(found) > VARIANTS_MOST:
        yield Flaw((kind,), f"must not be over {VARIANTS_MOST} tables, has {len(found)}")
    for name, table in found.items():
        if not re.fullmatch(NAME_PATTERN, name):
            rule = "must be named in lower-case letters, such as `large`"
            yield Flaw((kind, name), f"{rule}, got {shown(name)}")
        elif not isinstance(table, Mapping):
            hint = f"Write a table such as [{kind}.{name}]"
            yield Flaw((kind, name), "must be a table of keys to override", hint)
        else:
            yield from _key_flaws((kind, name), table)


def _key_flaws(path: KeyPath, table: Mapping[str, object]) -> Iterator[Flaw]:
    known = sorted(set(FileTable.__struct_fields__) - KEPT)
    for key in table:
        if key in KEPT:
            yield Flaw((*path, key), "must be the same for the whole file", "Leave it out")
        elif key not in known:
            near = nearest_name(key, known)
            hint = f"Write `{near}`" if near else f"Known keys here: {', '.join(known)}"
            yield Flaw((*path, key), "is not a known key", hint)


def _unknown(kind: str, name: str | None, known: tuple[str, ...]) -> Iterator[Flaw]:
    if name is None or name in known:
        return
    if not known:
        hint = f"Declare it in a table such as [{kind}.large]"
    else:
        hint = f"Declared are {', '.join(known)}"
    yield Flaw((kind,), f"must be a declared one, got {shown(name)}", hint)
