"""[pattern]: what a pattern says of itself; whole messages where it cannot."""

from __future__ import annotations

import pytest
from bad_input import XS, Row, told

from cutpaths.project import read
from cutpaths.project.model import SILENT, Pattern
from cutpaths.project.pattern_shape import PatternTable

HEAD = 'format = 1\ntitle = "Pond"\n'
REST = '[top]\nlayout = "squares"\npatch = 5\ncolumns = 6\nrows = 7\n[border]\nwidth = 2\n'
END = "width = 2"
DATE = "must be a date such as 2026-03-14, or text of 1 to 120 letters"

ROWS: list[Row] = [
    (
        {END: f"{END}\n[pattern]\nversion = 1"},
        "pond.toml:13: `pattern.version` must be text of 1 to 120 letters, got '1'",
    ),
    (
        {END: f"{END}\n[pattern]\nversion = 1.2"},
        "pond.toml:13: `pattern.version` must be text of 1 to 120 letters, got '1.2'",
    ),
    (
        {END: f'{END}\n[pattern]\nauthor = ""'},
        "pond.toml:13: `pattern.author` must be text of 1 to 120 letters, got ''",
    ),
    (
        {END: f'{END}\n[pattern]\nauthor = "  "\ndate = " "'},
        "pond.toml:13: `pattern.author` must not be blank\n"
        "pond.toml:14: `pattern.date` must not be blank",
    ),
    (
        {END: f'{END}\n[pattern]\ncontact = "a\\u0007b"'},
        "pond.toml:13: `pattern.contact` must not hold control characters, got U+0007. Write one "
        "line of plain text",
    ),
    (
        {END: f'{END}\n[pattern]\nlicense = "CC0"'},
        "pond.toml:13: `pattern.license` is not a known key. Write `licence`",
    ),
    ({END: f"{END}\n[pattern]\ndate = 2026"}, f"pond.toml:13: `pattern.date` {DATE}, got '2026'"),
    ({END: f"{END}\n[pattern]\ndate = 20.5"}, f"pond.toml:13: `pattern.date` {DATE}, got '20.5'"),
    ({END: f"{END}\n[pattern]\ndate = true"}, f"pond.toml:13: `pattern.date` {DATE}, got 'true'"),
    (
        {END: f"{END}\n[pattern]\ndate = []"},
        f"pond.toml:13: `pattern.date` {DATE}, got an empty list",
    ),
    (
        {END: f"{END}\n[pattern]\ndate = 2026-03-14T10:00:00Z"},
        f"pond.toml:13: `pattern.date` {DATE}, got a date with a time",
    ),
    (
        {END: f"{END}\n[pattern]\ndate = 10:00:00"},
        f"pond.toml:13: `pattern.date` {DATE}, got a date or time",
    ),
    (
        {END: f'{END}\n[pattern]\ndate = "{XS}"'},
        f"pond.toml:13: `pattern.date` {DATE}, got '{XS[:40]}...'",
    ),
    (
        {'title = "Pond"': 'title = "Pond"\npattern = "mine"'},
        "pond.toml:3: `pattern` must be a table, got 'mine'",
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS)
def test_bad_keys_of_a_pattern(changes: dict[str, str], message: str) -> None:
    """Each line names file, line and key, what is wrong and what would be right."""
    assert told(changes) == message


def test_a_pattern_is_read_as_written() -> None:
    """Every key is text; a date of TOML becomes the text of the day (ISO 8601)."""
    table = (
        '[pattern]\nversion = "1.2"\ndate = 2026-03-14\nauthor = "Reed & Rill"\n'
        'contact = "rill@example.org"\nlicence = "CC0"\nskill = "beginner"\nbatch = "7b"\n'
    )
    assert read(HEAD + table + REST).pattern == Pattern(
        version="1.2",
        date="2026-03-14",
        author="Reed & Rill",
        contact="rill@example.org",
        licence="CC0",
        skill="beginner",
        batch="7b",
    )
    assert read(f'{HEAD}[pattern]\ndate = "spring"\n{REST}').pattern.date == "spring"


def test_a_file_may_say_nothing_of_itself() -> None:
    """Without the table everything is empty."""
    assert read(HEAD + REST).pattern == SILENT
    assert set(PatternTable.__struct_fields__) == set(Pattern.__struct_fields__)


def test_a_colorway_may_have_its_own_version() -> None:
    """A table that overrides others may override this one, key by key."""
    text = HEAD + '[pattern]\nversion = "1"\nauthor = "R"\n' + REST
    text += '[colorway.dusk.pattern]\nversion = "1d"\n'
    assert read(text, colorway="dusk").pattern == Pattern(version="1d", author="R")
