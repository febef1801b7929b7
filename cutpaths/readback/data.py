"""Reads a JSON file and compares it with its data; the standard library alone."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from cutpaths.drawing import Document
from cutpaths.sheets.data import DataDocument


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """Each difference between a file and its data, in words."""
    if not isinstance(document, DataDocument):
        return ("data was expected",)
    try:
        found = json.loads(data.decode(), object_pairs_hook=_once, parse_constant=_finite)
    except ValueError as error:
        return (f"no JSON in UTF-8: {error}",)
    return tuple(_differences(document.data, found, "data"))


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object, each of whose names stands in it once."""
    names = [name for name, _ in pairs]
    if len(set(names)) != len(names):
        raise ValueError(f"a name stands twice among {names}")
    return dict(pairs)


def _finite(word: str) -> float:
    raise ValueError(f"{word} is no number of JSON")


def _differences(wanted: object, found: object, at: str) -> Iterator[str]:
    if isinstance(wanted, Mapping) and isinstance(found, dict):
        for name in sorted(wanted.keys() ^ found.keys()):
            yield f"{at}.{name} is in one of the two only"
        for name in wanted:
            if name in found:
                yield from _differences(wanted[name], found[name], f"{at}.{name}")
    elif isinstance(wanted, Sequence) and not isinstance(wanted, str) and isinstance(found, list):
        if len(wanted) != len(found):
            yield f"{at} has {len(found)} entries, expected {len(wanted)}"
            return
        for number, (one, other) in enumerate(zip(wanted, found, strict=True)):
            yield from _differences(one, other, f"{at}.{number}")
    elif wanted != found or isinstance(wanted, bool) != isinstance(found, bool):
        yield f"{at} is {found!r}, expected {wanted!r}"
