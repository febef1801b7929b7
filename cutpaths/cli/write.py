"""`cutpaths write`: the files of a project."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.drawing import drawn, jobs_of, path_of, put, say_notes, say_unknown, stem_of
from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.options import folder_option, force_option, unchecked_option
from cutpaths.cli.working import working
from cutpaths.values import Value

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cutpaths.errors import InputError
    from cutpaths.pieces import Kit
    from cutpaths.projector.rig import Rig
    from cutpaths.proof.check import Proof
    from cutpaths.sheets.pages.paper import Paper
    from cutpaths.sheets.sheet import Output, Wishes

# The uses are named again here, so that help loads no sheet; a test compares the two.
USES = ("booklet", "cad", "cloth", "cutter", "labels", "pages", "pictures", "projector", "records")


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@folder_option()
@click.option(
    "--for",
    "uses",
    type=click.Choice(USES),
    multiple=True,
    help="What the files are for; repeatable. All by default.",
)
@click.option(
    "--paper",
    metavar="NAME",
    help="Paper of what is printed: a4, letter, a3, a0 ..., or the width of a roll, as 36 in."
    " Letter or A4 by default.",
)
@click.option(
    "--print-margin",
    metavar="LENGTH",
    help="What the printer leaves white at each edge of a page, as 5 mm; 8 mm by default.",
)
@click.option("--whole", is_flag=True, help="Have the large pieces on pages too, in tiles to join.")
@click.option(
    "--left-handed", is_flag=True, help="Show scissors, needle and ruler for the left hand."
)
@click.option("--large-print", is_flag=True, help="Set the booklet in large letters.")
@click.option(
    "--text-on-cloth", is_flag=True, help="Let a machine draw labels and grain lines on cloth."
)
@click.option(
    "--rig",
    "rig_file",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Rig file of a projector: plan frames for it; see `cutpaths calibrate`.",
)
@click.option(
    "--frame-marks",
    type=click.Choice(("all", "corners")),
    default="all",
    show_default=True,
    help="What frames show: all marks, or only corners and centers.",
)
@click.option(
    "--frame-pixels",
    is_flag=True,
    help="Write each frame of the rig also as PNG; needs the extra `pictures`.",
)
@unchecked_option()
@force_option()
@variant_options
def command(
    project: Path,
    folder: Path,
    uses: tuple[str, ...],
    paper: str | None,
    print_margin: str | None,
    whole: bool,
    left_handed: bool,
    large_print: bool,
    text_on_cloth: bool,
    rig_file: Path | None,
    frame_marks: str,
    frame_pixels: bool,
    no_check: bool,
    force: bool,
    size: str | None,
    colorway: str | None,
) -> None:
    """Prove a PROJECT and write its files, each kind into its folder.

    Without --for that is everything that a shop hands over, and a page that shows it, index.html.
    Nothing is written when the proof fails, or when a file does not read back as it was drawn.
    """
    from cutpaths.projector.needs import Wanted
    from cutpaths.proof import prove, require
    from cutpaths.sheets.sheet import Wishes

    kit = kit_of(project, size, colorway)
    printed_on = _paper(paper, print_margin, kit)
    with working("Proving"):
        proof = prove(kit)
        require(proof)
    wishes = Wishes(
        text_on_cloth=text_on_cloth,
        rig=None if rig_file is None else _rig(rig_file),
        frame_marks=Wanted(frame_marks),
        frame_pixels=frame_pixels,
        paper=printed_on,
        whole=whole,
        left_handed=left_handed,
        large_print=large_print,
        beside=project.parent,
        proof=proof,
    )
    left_out: list[str] = []
    with working("Laying out"):
        made = _outputs(kit, _Asked(uses, project, rig_file), wishes, left_out)
    stem = stem_of(kit)
    if uses:
        files = drawn(jobs_of(made), stem, check=not no_check)
    else:
        files = drawn(jobs_of(made), stem, check=not no_check, left_out=left_out)
        files |= _index(kit, proof, made, files, left_out)
    put(kit, project, folder, files, force=force)
    for line in _page_summary(made):
        click.echo(line, err=True)
    beside = (note for output in made for note in output.notes)
    say_notes(dict.fromkeys((*kit.notes, *beside, *left_out)))
    say_unknown(made)


class _Asked(Value):
    """What was asked for, and the files in which something may be wrong."""

    uses: tuple[str, ...]
    project: Path
    rig: Path | None

    def needs(self, use: str) -> bool:
        """Whether there is nothing without this use."""
        from cutpaths.sheets.uses import OPTIONAL

        return bool(self.uses) or use not in OPTIONAL

    def located(self, error: InputError, kit: Kit, use: str) -> InputError:
        """What is wrong, with its file and line: those of the rig, or of the project."""
        from cutpaths.project.located import located
        from cutpaths.projector.rig_reading import placed

        if self.rig is not None and use == "projector":
            return placed(error, self.rig)
        chosen = kit.project.size or None, kit.project.colorway or None
        return located(error, self.project, size=chosen[0], colorway=chosen[1])


def _paper(name: str | None, margin: str | None, kit: Kit) -> Paper | None:
    """What is printed on; None where nothing of it was asked for."""
    from cutpaths.sheets.pages.paper import paper_named, usual_paper

    hint = "--paper"
    try:
        asked = paper_named(name) if name is not None else None
        if margin is None:
            return asked
        hint = "--print-margin"
        return (asked or usual_paper(kit.project.ruler.unit)).with_margin(margin)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint=hint) from error


def _rig(file: Path) -> Rig:
    from cutpaths.projector.rig_reading import load

    return load(file)


def _outputs(kit: Kit, asked: _Asked, wishes: Wishes, left_out: list[str]) -> tuple[Output, ...]:
    """What is to be written; what everything can do without and cannot be made, is said.

    Raises:
        InputError: the rig is not calibrated, its picture cannot hold a mark, or what was asked
            for by name cannot be made.
    """
    from cutpaths.errors import DrawingError, InputError
    from cutpaths.sheets.uses import USES as TABLE
    from cutpaths.sheets.uses import outputs_for

    made: list[Output] = []
    for use in TABLE:
        if asked.uses and use not in asked.uses:
            continue
        try:
            made += outputs_for(kit, use, wishes)
        except (InputError, DrawingError) as error:
            found = asked.located(error, kit, use) if isinstance(error, InputError) else error
            if asked.needs(use):
                raise found from error
            left_out.append(f"the files for {use!r} are left out. {found}")
    return tuple(made)


def _index(
    kit: Kit,
    proof: Proof,
    made: tuple[Output, ...],
    files: Mapping[str, bytes],
    left_out: Sequence[str],
) -> dict[str, bytes]:
    """The page that shows every file."""
    from cutpaths.formats import render_checked
    from cutpaths.sheets.index import Filed, index_document

    stem = stem_of(kit)
    named = ((output, path_of(output, form, stem)) for output, form in jobs_of(made))
    filed = [
        Filed(output=output, path=path, size=len(files[path]))
        for output, path in named
        if path in files
    ]
    page = index_document(kit, proof, filed, left_out)
    return {_index_name(kit): render_checked(page, "index")}


def _index_name(kit: Kit) -> str:
    """Of its own for each size and colorway, whose files may lie in one folder."""
    from cutpaths.files import safe_name

    chosen = " ".join(filter(None, (kit.project.size, kit.project.colorway)))
    return f"index-{safe_name(chosen)}.html" if chosen else "index.html"


def _page_summary(made: tuple[Output, ...]) -> tuple[str, ...]:
    """How many placements and frames the projector page has, and how well they hold."""
    from cutpaths.sheets.page import PageDocument

    pages = (o.document.content for o in made if isinstance(o.document, PageDocument))
    return tuple(line for content in pages for line in content.summary)
