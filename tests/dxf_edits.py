"""Ways to break a DXF file: its tags as pairs of lines, and edits of them."""

from __future__ import annotations

from collections.abc import Callable

from cutpaths.shapes import Point

Tags = list[tuple[str, str]]


def tags_of(data: bytes) -> Tags:
    """The tags of a file: group codes and values as they are written."""
    lines = data.decode().split("\n")
    return list(zip(lines[:-1:2], lines[1::2], strict=True))


def bytes_of(tags: Tags) -> bytes:
    """The file of some tags."""
    return "".join(f"{code}\n{value}\n" for code, value in tags).encode()


def entity(tags: Tags, name: str) -> slice:
    """Where the first entity of a name stands in the ENTITIES section."""
    start = tags.index(("  0", name), tags.index(("  2", "ENTITIES")))
    end = next(n for n in range(start + 1, len(tags)) if tags[n][0] == "  0")
    return slice(start, end)


def with_group(name: str, code: int, value: str, *, after: bool = False) -> Callable[[Tags], Tags]:
    """Gives the first group of a code, in the first entity of a name, a value; or adds it."""

    def edit(tags: Tags) -> Tags:
        place = entity(tags, name)
        part = tags[place]
        written = f"{code:3}"
        if after:
            part.append((written, value))
        else:
            part[next(n for n, tag in enumerate(part) if tag[0] == written)] = (written, value)
        return [*tags[: place.start], *part, *tags[place.stop :]]

    return edit


def with_header(name: str, value: str, skip: int = 1) -> Callable[[Tags], Tags]:
    """Gives a header variable a value; the second one of a point with `skip` 2."""

    def edit(tags: Tags) -> Tags:
        at = tags.index(("  9", name)) + skip
        return [*tags[:at], (tags[at][0], value), *tags[at + 1 :]]

    return edit


def with_corners(change: Callable[[float, float], Point]) -> Callable[[Tags], Tags]:
    """Moves every point of the first polyline."""

    def edit(tags: Tags) -> Tags:
        place = entity(tags, "LWPOLYLINE")
        part = tags[place]
        for n, (code, value) in enumerate(part):
            if code == " 10":
                x, y = change(float(value), float(part[n + 1][1]))
                part[n : n + 2] = [(" 10", str(x)), (" 20", str(y))]
        return [*tags[: place.start], *part, *tags[place.stop :]]

    return edit


def without(name: str) -> Callable[[Tags], Tags]:
    """Drops the first entity of a name."""

    def edit(tags: Tags) -> Tags:
        place = entity(tags, name)
        return [*tags[: place.start], *tags[place.stop :]]

    return edit


def twice(name: str) -> Callable[[Tags], Tags]:
    """Writes the first entity of a name twice."""

    def edit(tags: Tags) -> Tags:
        place = entity(tags, name)
        return [*tags[: place.stop], *tags[place.start :]]

    return edit


def without_layer(tags: Tags) -> Tags:
    """Drops the first layer that is a role's from the layer table."""
    start = tags.index(("  0", "LAYER"), tags.index(("  2", "Defpoints")))
    end = next(n for n in range(start + 1, len(tags)) if tags[n][0] == "  0")
    return [*tags[:start], *tags[end:]]
