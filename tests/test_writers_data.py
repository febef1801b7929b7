"""JSON: what a program reads is what was meant."""

from __future__ import annotations

import json
from typing import Any

import pytest
from sample_drawings import marked

from cutpaths.errors import DrawingError
from cutpaths.formats import render_checked
from cutpaths.readback.data import check
from cutpaths.sheets.data import DataDocument
from cutpaths.writers.data import render

TREE = {"title": "Größe ½", "sizes": [1.5, 2, None], "of": {"round": False}}


def _data(tree: dict[str, Any]) -> DataDocument:
    return DataDocument("data", (), tree)


def test_the_bytes_of_a_small_tree() -> None:
    """Indented, in the order of the document, letters as they are, one line's end at the end."""
    made = render_checked(_data({"b": "½", "a": [1]}), "json")
    assert made == '{\n  "b": "½",\n  "a": [\n    1\n  ]\n}\n'.encode()
    assert json.loads(render_checked(_data(TREE), "json")) == TREE


def test_tuples_are_lists() -> None:
    """Frozen values read back as what JSON has for them."""
    assert json.loads(render_checked(_data({"a": (1, ("b",))}), "json")) == {"a": [1, ["b"]]}


def test_what_is_no_data_is_refused() -> None:
    """A drawing has no data, and JSON has no number that is not finite (RFC 8259, section 6)."""
    with pytest.raises(DrawingError, match="JSON holds data, and marked has none"):
        render(marked())
    with pytest.raises(DrawingError, match="data cannot be JSON"):
        render(_data({"a": float("nan")}))


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("1.5", "1.6", "data.sizes.0 is 1.6, expected 1.5"),
        ("null", "null, 1", "data.sizes has 4 entries, expected 3"),
        ('"of"', '"off"', "data.of is in one of the two only"),
        ("false", "0", "data.of.round is 0, expected False"),
        ("1.5", "NaN", "no JSON in UTF-8: NaN is no number of JSON"),
        ('"title"', '"of"', "no JSON in UTF-8: a name stands twice among ['of', 'sizes', 'of']"),
        ("}\n}", "}", "no JSON in UTF-8: Expecting ',' delimiter"),
    ],
)
def test_a_damaged_file_is_found_out(good: str, bad: str, told: str) -> None:
    """The reader says where the file differs."""
    data = render(_data(TREE))
    assert check(_data(TREE), data) == ()
    found = check(_data(TREE), data.decode().replace(good, bad).encode())
    assert found[0].startswith(told)
