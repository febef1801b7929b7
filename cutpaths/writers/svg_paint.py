"""Painted shapes of pictures in SVG: colours, and prints as patterns.

A print is a `<pattern>` (SVG 1.1, 13.3) of one `<image>` with its PNG data inside the file; one
that only lies otherwise takes the content over by `xlink:href` and has a `patternTransform` of its
own. Under the image lies a slightly larger one, because viewers soften its edges and would show
white lines between the repeats. The colour beneath is the fallback after the pattern's name (11.2).
Shapes of one paint are one `<path>`, because a viewer lays a pattern out anew for each element.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Iterable
from typing import Any

from cutpaths.drawing import Drawing, Item, by_paint
from cutpaths.paint import EDGE_MM, Paint, Print, hex_of
from cutpaths.shapes import IDENTITY, Motion, Path, Point
from cutpaths.values import replace

GROUP = "paint"
_BEYOND = 0.02  # how far the image beneath reaches over at each side, as a part of its size

_Element = Any  # svgwrite ships no types: an element of its tree
_Number = Callable[[float], str]
_Route = Callable[[tuple[Point, ...], bool], str]


def add_paint(
    canvas: _Element, drawing: Drawing, items: Iterable[Item], number: _Number, route: _Route
) -> None:
    """Adds the painted shapes of a drawing, in groups of their keys, before any line."""
    groups = list(by_paint(items))
    if not groups:
        return
    width = number(EDGE_MM * drawing.pen.scale)
    outer = canvas.add(canvas.g(id=GROUP, stroke_width=width, stroke_linejoin="round"))
    names = _define(canvas, [paint for _, by in groups for paint in by], drawing, number)
    for key, by in groups:
        group = outer.add(canvas.g(id=f"{GROUP}-{key}"))
        for paint, painted in by.items():
            paths = [item.shape for item in painted if isinstance(item.shape, Path)]
            routes = " ".join(route(path.points, path.closed) for path in paths)
            group.add(canvas.path(d=routes, **_attributes(paint, names)))


def _attributes(paint: Paint, names: dict[Print, str]) -> dict[str, str]:
    fill = hex_of(paint.colour)
    if paint.print is not None:
        fill = f"url(#{names[paint.print]}) {fill}"
    return {"fill": fill, "stroke": "none" if paint.edge is None else hex_of(paint.edge)}


def _define(
    canvas: _Element, paints: Iterable[Paint], drawing: Drawing, number: _Number
) -> dict[Print, str]:
    """Defines each print that is used, and returns their names."""
    names: dict[Print, str] = {}
    images: dict[Print, str] = {}
    for print_ in (paint.print for paint in paints if paint.print is not None):
        if print_ in names:
            continue
        image = replace(print_, motion=IDENTITY)
        if image not in images:
            images[image] = f"cloth-{len(images) + 1}"
            _add_image(canvas, images[image], image, number)
        names[print_] = f"print-{len(names) + 1}"
        matrix = " ".join(map(number, _matrix(print_.motion, drawing.size[1])))
        place = canvas.pattern(
            id=names[print_],
            inherit=f"#{images[image]}",
            patternTransform=f"matrix({matrix})",
        )
        canvas.defs.add(place)
    return names


def _add_image(canvas: _Element, name: str, print_: Print, number: _Number) -> None:
    """Defines an image and the pattern of it that the others take over."""
    size = number(print_.width), number(print_.height)
    link = f"data:image/png;base64,{b64encode(print_.data).decode()}"
    image = canvas.image(link, size=size, preserveAspectRatio="none", id=f"image-{name}")
    canvas.defs.add(image)
    pattern = canvas.pattern(id=name, size=size, patternUnits="userSpaceOnUse")
    beyond = (number(-_BEYOND * side) for side in (print_.width, print_.height))
    larger = f"matrix({number(1 + 2 * _BEYOND)} 0 0 {number(1 + 2 * _BEYOND)} {' '.join(beyond)})"
    pattern.add(canvas.use(f"#image-{name}", transform=larger))
    pattern.add(canvas.use(f"#image-{name}"))
    canvas.defs.add(pattern)


def _matrix(motion: Motion, height: float) -> tuple[float, ...]:
    """The motion as SVG has it, y down on both sides.

    In the pattern the image hangs below the origin, one repeat lower than it stands on it.
    """
    origin = motion.point((0.0, 0.0))
    right, down = (motion.point(p) for p in ((1.0, 0.0), (0.0, -1.0)))
    return (
        right[0] - origin[0],
        origin[1] - right[1],
        down[0] - origin[0],
        origin[1] - down[1],
        origin[0],
        height - origin[1],
    )
