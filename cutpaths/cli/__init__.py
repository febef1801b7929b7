"""The command line: thin commands, each in a module of its own that is loaded when it is asked for.

Results go to standard output, talk to standard error. Exit status: 0 done; 1 the project cannot
be made, a proof failed, or a file could not be read or written; 2 wrong usage; 130 interrupted.
"""

from __future__ import annotations

import gc
import importlib
import os
import sys
from contextlib import suppress

import click

from cutpaths.errors import CutpathsError

# Each command's module offers `command`; the order is that of the work.
COMMANDS = {
    "new": "cutpaths.cli.new",
    "arrange": "cutpaths.cli.arrange",
    "figures": "cutpaths.cli.figures",
    "prove": "cutpaths.cli.prove",
    "write": "cutpaths.cli.write",
    "picture": "cutpaths.cli.picture",
    "cloth": "cutpaths.cli.cloth",
    "kits": "cutpaths.cli.kits",
    "fit": "cutpaths.cli.fit",
    "new-rig": "cutpaths.cli.new_rig",
    "target": "cutpaths.cli.target",
    "calibrate": "cutpaths.cli.calibrate",
    "new-bed": "cutpaths.cli.new_bed",
    "beds": "cutpaths.cli.beds",
}


# Objects made before Python looks for cycles among them. Modules and drawings have hardly any, and
# at Python's own 700 the looking takes a tenth of a short command.
_LOOK_AFTER = 200_000


class _LazyGroup(click.Group):
    """A group whose commands are imported when they are used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command = importlib.import_module(COMMANDS[cmd_name]).command
        return command if isinstance(command, click.Command) else None


@click.group(cls=_LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="cutpaths", message="%(version)s")
def cli() -> None:
    """Exact pieces, marks and proof of a self-bound, mitered patchwork blanket.

    A project is one small TOML file. Start with `cutpaths new`.
    """


def main() -> None:
    """Runs the command line; every failure is one clear line, never a traceback."""
    gc.set_threshold(_LOOK_AFTER)
    try:
        status = cli.main(standalone_mode=False)
    except CutpathsError as error:
        click.echo(f"Error: {error}", err=True)
        status = 1
    except click.ClickException as error:
        error.show()
        status = error.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("Interrupted.", err=True)
        status = 130
    except OSError as error:  # our files have errors of their own, so that this is an output
        with suppress(OSError):  # to which even this may go
            what = error.filename or "the output"
            click.echo(f"Error: {what} cannot be written: {_reason(error)}", err=True)
        _drop_output()
        status = 1
    gc.freeze()  # all goes with the process: Python need not look once more
    sys.exit(status if isinstance(status, int) else 0)


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()


def _drop_output() -> None:
    """Keeps Python from another try, and another complaint, when it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError:
            os.dup2(nowhere, stream.fileno())
