"""Makes everything in docs/ that is generated: pictures, the commands, tables, the JSON Schema.

Run by hand, `python docs/make.py`, after a change that shows in docs/; a test compares the files.
Pages are written by hand but for what stands between a line `<!-- made: what -->` and the next
`<!-- end -->`; `what` is one of `TABLES`, or `keys` and the name of a table of the project file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import click
import pictures_blanket as blanket
import pictures_corners as corners
import pictures_lines
import pictures_sides as sides
from make_keys import keys
from make_keys import tables as tables
from pictures_parts import part_inside as part_inside

from cutpaths.cli import cli
from cutpaths.drawing import Document
from cutpaths.project.json_schema import schema_text
from cutpaths.roles import STYLES, Role
from cutpaths.writers import svg

DOCS = Path(__file__).parent
PICTURES: tuple[Callable[[], Document], ...] = (
    blanket.finished,
    blanket.layers,
    blanket.letters,
    blanket.faces,
    blanket.tidepool_front,
    blanket.tidepool_backing,
    blanket.tidepool_fold,
    corners.dots,
    corners.equal,
    corners.unequal,
    corners.hexagon,
    corners.miter_folded,
    corners.template,
    corners.folded_over,
    sides.centers,
    sides.turn_of_cloth,
    sides.opening,
    pictures_lines.lines,
)
COLUMNS = 88
_MADE = re.compile(r"(<!-- made: (?P<what>[^>]+?) -->\n).*?(<!-- end -->)", re.DOTALL)


def generated() -> dict[str, bytes]:
    """Everything that is made, by its name in docs/."""
    pages = ("files.md", "project-file.md")
    return {
        **{f"pictures/{made.name}.svg": picture(made) for made in (make() for make in PICTURES)},
        "commands.md": "\n".join(commands()).encode(),
        "project-file.schema.json": schema_text().encode(),
        **{name: filled((DOCS / name).read_text(encoding="utf-8")).encode() for name in pages},
    }


def picture(document: Document) -> bytes:
    """An SVG on white paper, because a page may be dark."""
    paper = b'<rect width="100%" height="100%" fill="#ffffff"/>'
    return svg.render(document).replace(b"<g ", paper + b"<g ", 1)


def filled(page: str) -> str:
    """A page with its made parts made anew."""
    return _MADE.sub(lambda found: f"{found[1]}\n{_made(found['what'])}\n\n{found[3]}", page)


def _made(what: str) -> str:
    kind, _, name = what.partition(" ")
    return "\n".join(keys(name) if kind == "keys" else TABLES[what]())


def commands() -> Iterator[str]:
    """The page of commands, from the help of each."""
    yield "# Commands\n"
    yield "Made from `--help` of each command.\n"
    parent = click.Context(cli, info_name="cutpaths", **cli.context_settings, **_WIDTH)
    yield from _help(cli, parent, "cutpaths")
    for name in cli.list_commands(parent):
        command = cli.get_command(parent, name)
        if command is not None:
            inner = click.Context(command, info_name=name, parent=parent, **_WIDTH)
            yield from _help(command, inner, f"cutpaths {name}")
    yield _AFTER_COMMANDS


_WIDTH: Mapping[str, Any] = {"terminal_width": COLUMNS, "max_content_width": COLUMNS}
_AFTER_COMMANDS = """\
## Exit status

| status | meaning |
| --- | --- |
| 0 | done |
| 1 | the project cannot be made, a check failed, or a file could not be read or written |
| 2 | wrong usage: an unknown command or option, a missing argument |
| 130 | interrupted |

Results go to standard output. Notes, errors and progress go to standard error.
"""


def _help(command: click.Command, context: click.Context, title: str) -> Iterator[str]:
    yield f"## {title}\n"
    yield f"```text\n{command.get_help(context)}\n```\n"


def roles() -> Iterator[str]:
    """The table of roles."""
    yield "| role | what it is | line | a cutting machine |"
    yield "| --- | --- | --- | --- |"
    for role in reversed(Role):
        style = STYLES[role]
        yield f"| `{role}` | {style.meaning} | {_pattern(style.pattern)} | {_work(role)} |"


def _pattern(pattern: tuple[float, ...]) -> str:
    if not pattern:
        return "solid"
    dashes, gaps = pattern[::2], pattern[1::2]
    pairs = zip(dashes, gaps, strict=True)
    return ", ".join(f"{dash:g} mm and a gap of {gap:g}" for dash, gap in pairs)


def _work(role: Role) -> str:
    return {"cut": "cuts", "draw": "draws", "draw when asked": "draws when asked"}.get(
        STYLES[role].work, "does nothing"
    )


TABLES: dict[str, Callable[[], Iterator[str]]] = {"roles": roles}


def main() -> None:
    """Writes what has changed, and names it."""
    for name, data in generated().items():
        path = DOCS / name
        if not path.exists() or path.read_bytes() != data:
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(data)
            click.echo(path.relative_to(DOCS.parent))


if __name__ == "__main__":
    main()
