"""What every machine file's report says first: cautions, and who does what.

Sources: university laser-cutter safety pages (never leave it running unattended, no PVC); North
Dakota State University Extension CB111 (rotary cutter: away from children). The rest is common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cutpaths.machine.bed import Tool, ToolKind

_ALWAYS = (
    "The machine maker's instructions and local rules come first; ask a qualified person when in "
    "doubt.",
    "Never leave the machine running unattended, and keep children and animals away from it.",
)
_BY_KIND = {
    ToolKind.LASER: (
        "Laser: cut only material that its maker calls suitable, never PVC or vinyl; treated and "
        "synthetic cloth may burn or give off harmful fumes. Lid shut, extraction on, "
        "extinguisher at hand.",
    ),
    ToolKind.DRAG_KNIFE: (
        "Blade: keep hands off the bed while it moves; cap the blade when it is out of the "
        "machine.",
    ),
    ToolKind.ROTARY_BLADE: (
        "Blade: keep hands off the bed while it moves; close the rotary blade when it is out of "
        "the machine.",
    ),
}
SPLIT = (
    "The usual split: the table marks and cuts the backing, the machine cuts patches and templates."
)
FIRST = (
    "First draw or cut the scale check on scrap and measure both squares: 100 mm and 3 in. Set the "
    "units as the file says, scale 100 %, fit and join off."
)


def cautions(tools: Iterable[Tool]) -> Iterator[str]:
    """The cautions for the tools in use."""
    yield from _ALWAYS
    kinds = {tool.kind for tool in tools}
    for kind, lines in _BY_KIND.items():
        if kind in kinds:
            yield from lines


def compensation(tools: Iterable[Tool]) -> Iterator[str]:
    """Whether these files make up for the tools, and the warning not to do it twice."""
    for tool in tools:
        made_up = [
            f"{name} {float(value):g} mm"
            for name, value in (
                ("kerf", tool.kerf),
                ("blade offset", tool.blade_offset),
                ("overcut", tool.overcut),
            )
            if value
        ]
        if made_up:
            yield (
                f"These files make up for {', '.join(made_up)} of {tool.name}: set the same in the "
                "machine's own program to 0."
            )
        elif not tool.draws:
            yield (
                f"Lines of {tool.name} are drawn sizes: kerf, blade offset and overcut are left "
                "to the machine's own program, which usually applies them."
            )
