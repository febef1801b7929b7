"""HTML from a template with named places, escaped by default.

A place is `{{name}}`. What goes there is escaped as text unless it is `Markup`, which only this
package's own files and this module make.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from html import escape

from cutpaths.errors import DrawingError

_PLACE = re.compile(r"\{\{([a-z_]+)\}\}")


class Markup(str):
    """HTML that may stand as it is."""

    __slots__ = ()


def filled(template: str, values: Mapping[str, str]) -> str:
    """A template with every place filled.

    >>> filled("<p>{{a}}</p>", {"a": "<b>"})
    '<p>&lt;b&gt;</p>'

    Raises:
        DrawingError: a place has no value, or a value no place.
    """
    places = set(_PLACE.findall(template))
    if places != values.keys():
        raise DrawingError(f"a template has places {sorted(places)}, got {sorted(values)}")

    def value(found: re.Match[str]) -> str:
        text = values[found[1]]
        return text if isinstance(text, Markup) else escape(text)

    return _PLACE.sub(value, template)


def data_block(value: object) -> Markup:
    r"""JSON for a `<script type="application/json">`: nothing in it ends the block or opens a tag.

    >>> data_block({"a": "</script>"})
    '{"a":"\\u003c/script\\u003e"}'
    """
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    for letter in "<>&\u2028\u2029":
        text = text.replace(letter, f"\\u{ord(letter):04x}")
    return Markup(text)
