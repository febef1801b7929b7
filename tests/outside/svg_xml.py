"""SVG by a bare XML reader: elements, attributes and the numbers of path data."""

from __future__ import annotations

import re
import xml.dom.minidom
from xml.dom.minidom import Element

Point = tuple[float, float]


def root(data: bytes) -> Element:
    """The root element."""
    element = xml.dom.minidom.parseString(data).documentElement  # noqa: S318 - our own bytes
    assert element is not None
    return element


def all_of(element: Element, tag: str) -> list[Element]:
    """Every element of a tag below one."""
    return list(element.getElementsByTagName(tag))


def group(data: bytes, name: str) -> Element:
    """The group with an id."""
    (found,) = (g for g in all_of(root(data), "g") if g.getAttribute("id") == name)
    return found


def points(path: Element) -> list[Point]:
    """The points of a path, as they are written."""
    numbers = list(map(float, re.findall(r"-?[\d.]+", path.getAttribute("d"))))
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def text(element: Element, tag: str) -> str:
    """The text of the first element of a tag below one."""
    node = all_of(element, tag)[0].firstChild
    return "" if node is None or node.nodeValue is None else node.nodeValue
