"""The lines of the keys of a TOML text; lines count from 1."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tree_sitter import Node

TEXTS_KEPT = 16  # as many files as a project may have

KeyPath = tuple[str | int, ...]


def line_of(text: str, path: KeyPath) -> int:
    """The line of a key, of an item of a list, or else of what is nearest round it."""
    lines = key_lines(text)
    for depth in range(len(path), 0, -1):
        if path[:depth] in lines:
            return lines[path[:depth]]
    return 1


@lru_cache(maxsize=TEXTS_KEPT)
def key_lines(text: str) -> Mapping[KeyPath, int]:
    """The line of every key of a TOML text, and of every item of its lists.

    Where a table is written in several places the first counts.
    """
    # Loaded only here: a file without errors never needs it.
    import tree_sitter_toml
    from tree_sitter import Language, Parser

    parser = Parser(Language(tree_sitter_toml.language()))
    nodes = parser.parse(text.encode()).root_node.named_children
    found = [each for node in nodes for each in _statement_lines(node)]
    return dict(reversed(found))


def _statement_lines(node: Node) -> Iterator[tuple[KeyPath, int]]:
    """Keys and lines of a pair, or of a table with its pairs."""
    if node.type == "pair":
        yield from _pair_lines(node, ())
    elif node.type in ("table", "table_array_element"):
        head, *pairs = _children(node)
        yield from _line_of_each(_key(head), (), node)
        for pair in pairs if node.type == "table" else ():
            yield from _pair_lines(pair, _key(head))


def _pair_lines(pair: Node, table: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    key, *values = _children(pair)
    yield from _line_of_each(_key(key), table, pair)
    for value in values:
        yield from _value_lines(value, (*table, *_key(key)))


def _value_lines(value: Node, path: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    if value.type == "inline_table":
        for pair in _children(value):
            yield from _pair_lines(pair, path)
    elif value.type == "array":
        for index, item in enumerate(_children(value)):
            yield (*path, index), item.start_point.row + 1
            yield from _value_lines(item, (*path, index))


def _children(node: Node) -> list[Node]:
    return [child for child in node.named_children if child.type != "comment"]


def _line_of_each(key: KeyPath, table: KeyPath, node: Node) -> Iterator[tuple[KeyPath, int]]:
    """A dotted key names each table on its way."""
    for depth in range(1, len(key) + 1):
        yield (*table, *key[:depth]), node.start_point.row + 1


def _key(node: Node) -> tuple[str, ...]:
    """The parts of a bare, quoted or dotted key."""
    if node.type == "dotted_key":
        return tuple(name for part in node.named_children for name in _key(part))
    text = (node.text or b"").decode()
    return tuple(tomllib.loads(f"{text} = 0")) if node.type == "quoted_key" else (text,)
