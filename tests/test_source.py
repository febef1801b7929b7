"""Project files become tables, and every key is found again in its file and line."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

from cutpaths.errors import FileError, InputError
from cutpaths.key_lines import KeyPath, key_lines, line_of
from cutpaths.source import Written, load, merged, read

TEXT = """\
format = 1
title = '''
two
lines'''
a.b = 1

[top] # a comment
layout = "squares"
patch = { cut = 5, "fin\\u0069shed" = { x = 1 } }
chart = [
  "a b", # first
  "b a",
]
points = [[0, 0],
          [1,
           2]]

[fabric."dark sea"]
label = "Sea"
[[list]]
x = 1
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("format",), 1),
        (("title",), 2),
        (("a",), 5),
        (("a", "b"), 5),
        (("top",), 7),
        (("top", "layout"), 8),
        (("top", "patch", "cut"), 9),
        (("top", "patch", "finished"), 9),
        (("top", "patch", "finished", "x"), 9),
        (("top", "chart"), 10),
        (("top", "chart", 0), 11),
        (("top", "chart", 1), 12),
        (("top", "points", 0), 14),
        (("top", "points", 1), 15),
        (("top", "points", 1, 1), 16),
        (("fabric",), 18),
        (("fabric", "dark sea"), 18),
        (("fabric", "dark sea", "label"), 19),
        (("list",), 20),
        (("top", "rows"), 7),
        (("fabric", "dark sea", "weight"), 18),
        (("top", "chart", 7), 10),
        (("missing",), 1),
    ],
)
def test_lines_of_keys(path: KeyPath, line: int) -> None:
    """A key, or an item of a list, has its own line; a missing one that of the table round it."""
    assert line_of(TEXT, path) == line
    assert read(TEXT, "project").place(path) == ("project", line)


def test_lines_with_other_line_ends() -> None:
    """Lines are counted alike whichever way they end."""
    assert key_lines(TEXT.replace("\n", "\r\n")) == key_lines(TEXT)


def test_floats_stay_as_written() -> None:
    """A float is its own digits, and can be told from text."""
    table = read("a = 0.10\nb = '0.10'\nc = nan", "project").table
    assert table == {"a": "0.10", "b": "0.10", "c": "nan"}
    assert [type(value) for value in table.values()] == [Written, str, Written]


def test_merged_tables() -> None:
    """The first table's keys win and tables merge in turn; lists are taken whole."""
    over = {"a": 1, "t": {"x": [1], "deep": {"k": 1}}}
    under = {"a": {"b": 2}, "t": {"x": [2, 3], "y": 4, "deep": {"k": 2, "m": 3}}, "z": 5}
    assert merged(over, under) == {
        "a": 1,
        "t": {"x": [1], "y": 4, "deep": {"k": 1, "m": 3}},
        "z": 5,
    }
    assert under["t"] == {"x": [2, 3], "y": 4, "deep": {"k": 2, "m": 3}}


def write(folder: Path, **files: str) -> Path:
    """Writes `name.toml` for each name; the path of the first."""
    for name, text in files.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder / f"{next(iter(files))}.toml"


def test_includes_are_merged_depth_first(tmp_path: Path) -> None:
    """A file's keys win over its includes', an earlier include over a later, each read once."""
    main = write(
        tmp_path,
        main='include = ["b.toml", "c.toml"]\nx = "main"\n',
        b='include = ["d.toml"]\nx = "b"\ny = "b"\n',
        c='include = ["d.toml"]\ny = "c"\nz = "c"\n',
        d='z = "d"\n[t]\nk = 1\n',
    )
    source = load(main)
    assert source.table == {"x": "main", "y": "b", "z": "d", "t": {"k": 1}}
    assert [file.name for file in source.files] == ["main.toml", "b.toml", "d.toml", "c.toml"]
    data = b"".join((tmp_path / file.name).read_bytes() for file in source.files)
    assert source.digest == hashlib.sha256(data).hexdigest()
    assert source.place(("y",)) == ("b.toml", 3)
    assert source.place(("t", "k")) == ("d.toml", 3)
    assert source.place(("t", "missing")) == ("d.toml", 2)


def test_digest_is_that_of_the_bytes(tmp_path: Path) -> None:
    """The digest of one file is SHA-256 of its bytes, its byte order mark included."""
    main = tmp_path / "main.toml"
    main.write_bytes(b"\xef\xbb\xbfx = 1\r\n")
    source = load(main)
    assert source.table == {"x": 1}
    assert source.digest == hashlib.sha256(b"\xef\xbb\xbfx = 1\r\n").hexdigest()


@pytest.mark.parametrize(
    ("include", "problem"),
    [
        ("'b.toml'", 'must be a list of file names. Write for example `include = ["cloth.toml"]`'),
        ("[1]", 'must be a list of file names. Write for example `include = ["cloth.toml"]`'),
        ("[1.5]", 'must be a list of file names. Write for example `include = ["cloth.toml"]`'),
        (
            "['no.toml']",
            "must name a file that can be read, got 'no.toml'. "
            "Put it into the same folder or mend its name",
        ),
        ("['../b.toml']", "must name .toml files of the same folder, got '../b.toml'"),
        ("['/etc/b.toml']", "must name .toml files of the same folder, got '/etc/b.toml'"),
        (r"['a\b.toml']", r"must name .toml files of the same folder, got 'a\\b.toml'"),
        ("['c:b.toml']", "must name .toml files of the same folder, got 'c:b.toml'"),
        ('["b\\u0000.toml"]', r"must name .toml files of the same folder, got 'b\x00.toml'"),
        ("['b.txt']", "must name .toml files of the same folder, got 'b.txt'"),
        (
            "['main.toml']",
            "must not lead back to a file: main.toml, which includes main.toml. "
            "Leave one of them out",
        ),
    ],
)
def test_includes_that_cannot_be(tmp_path: Path, include: str, problem: str) -> None:
    """An include that names no file of the folder is told with its line."""
    main = write(tmp_path, main=f"x = 1\ninclude = {include}\n")
    with pytest.raises(InputError) as caught:
        load(main)
    assert str(caught.value) == f"main.toml:2: `include` {problem}"


def test_include_cycle_is_told_where_it_closes(tmp_path: Path) -> None:
    """A cycle names its files in order, at the line that closes it."""
    main = write(
        tmp_path,
        main='include = ["b.toml"]',
        b='\ninclude = ["c.toml"]',
        c='include = ["b.toml"]',
    )
    with pytest.raises(InputError) as caught:
        load(main)
    way = "b.toml, which includes c.toml, which includes b.toml"
    assert str(caught.value) == (
        f"c.toml:1: `include` must not lead back to a file: {way}. Leave one of them out"
    )


def test_too_many_files(tmp_path: Path) -> None:
    """A project has 16 files at most."""
    names = [f"f{index}" for index in range(16)]
    listed = ", ".join(f'"{name}.toml"' for name in names)
    main = write(tmp_path, main=f"include = [{listed}]", **dict.fromkeys(names, ""))
    with pytest.raises(InputError) as caught:
        load(main)
    assert str(caught.value) == (
        "main.toml:1: `include` must not bring the project to more than 16 files"
    )


def test_every_broken_include_is_told(tmp_path: Path) -> None:
    """All includes are read before anything is told."""
    main = write(tmp_path, main='include = ["b.toml", "c.toml", "no.toml"]', b="x = ", c="y")
    with pytest.raises(InputError) as caught:
        load(main)
    assert str(caught.value).splitlines() == [
        "b.toml:1: is not TOML: invalid value",
        "c.toml:1: is not TOML: expected '=' after a key in a key/value pair",
        "main.toml:1: `include` must name a file that can be read, got 'no.toml'. "
        "Put it into the same folder or mend its name",
    ]


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"\x89PNG\r\n\x1a\n\0\0", "main.toml: must be a text file, this is a binary one"),
        ("x = 1".encode("utf-16"), "main.toml: must be a text file, this is a binary one"),
        (
            b"x = 1\ny = '\xe9'\n",
            "main.toml:2: must be UTF-8 text, has byte 0xe9. Save it as UTF-8",
        ),
        (b"#" * 1_000_001, "main.toml: must be at most 1,000,000 bytes long, is longer"),
        (b"x = 1\n\ny = [1,\n", "main.toml:3: is not TOML: invalid value"),
        (b"x = 1\nx = 2\n", "main.toml:2: is not TOML: cannot overwrite a value"),
        (b"x = 1\n" + b"y = " + b"[" * 5000, "main.toml: must not nest lists or tables so deeply"),
        (b"x = 1\ny = " + b"9" * 5000, "main.toml:2: has a number with thousands of digits"),
        (
            b"x = 1\n" + b"a." * 400_000 + b"b = 1",
            "main.toml:2: must not have keys of more than 32 parts",
        ),
    ],
    ids=["png", "utf-16", "latin-1", "large", "cut-off", "twice", "brackets", "digits", "dots"],
)
def test_bytes_that_are_no_project(tmp_path: Path, data: bytes, message: str) -> None:
    """Binary, foreign, huge, broken and deeply nested files give one line, at once."""
    main = tmp_path / "main.toml"
    main.write_bytes(data)
    with pytest.raises(InputError) as caught:
        load(main)
    assert str(caught.value) == message


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    """A missing file, a folder and an impossible name are file errors that name the path."""
    for path, reason in [
        (tmp_path / "no.toml", "no such file or directory"),
        (tmp_path, "is a directory"),
    ]:
        with pytest.raises(FileError) as caught:
            load(path)
        assert str(caught.value) == f"{path}: cannot be read: {reason}"
    with pytest.raises(FileError) as caught:
        load(Path("a\0b.toml"))
    assert str(caught.value) == r"'a\x00b.toml': cannot be read: not a file name"


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root reads every file")
def test_file_without_permission(tmp_path: Path) -> None:
    """A file that may not be read is a file error."""
    main = write(tmp_path, main="x = 1")
    main.chmod(0)
    with pytest.raises(FileError) as caught:
        load(main)
    assert str(caught.value) == f"{main}: cannot be read: permission denied"


def test_text_has_no_includes() -> None:
    """A text that is not a file has no folder to include from."""
    with pytest.raises(InputError) as caught:
        read('include = ["b.toml"]', "pasted")
    assert str(caught.value) == (
        "pasted:1: `include` cannot be used in a text that is not a file. "
        "Put all tables into the text itself"
    )
    assert read("include = []\nx = 1", "pasted").table == {"x": 1}


def test_text_with_half_a_letter() -> None:
    """A Python string that no file can hold is refused like a file that is not UTF-8."""
    with pytest.raises(InputError) as caught:
        read("x = '\ud800'", "pasted")
    assert str(caught.value) == "pasted:1: must be UTF-8 text, has byte 0xed. Save it as UTF-8"


def test_the_line_finder_is_loaded_for_errors_only(tmp_path: Path) -> None:
    """A sound project, with an include, loads neither the finder of lines nor what it needs."""
    main = write(tmp_path, main='include = ["b.toml"]\nx = 1\n', b="y = 2\n")
    script = (
        f"import sys; sys.path[:] = {sys.path!r}\n"
        "from pathlib import Path\n"
        "from cutpaths.project import read, template\n"
        "from cutpaths.source import load\n"
        f"read(template()), load(Path({str(main)!r}))\n"
        "print(sorted({'tree_sitter', 'tree_sitter_toml', 'difflib'} & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-S", "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout == "[]\n"


@pytest.mark.parametrize(
    ("value", "hint"),
    [
        ("14 1/2", '. Put fractions in quotes: "14 1/2"'),
        ("1/2 in  # more", '. Put fractions in quotes: "1/2 in"'),
        ("4½", '. Put fractions in quotes: "4½"'),
        ('4-1/2"', '. Put fractions in quotes: "4-1/2"'),
        ("4,5", ". Write 4.5"),
        ("57 mm", '. Put lengths with a unit in quotes: "57 mm"'),
        ("12 34", ""),
    ],
)
def test_lengths_without_quotes_get_a_hint(value: str, hint: str) -> None:
    """The likeliest slips are not TOML, and the hint says what would be."""
    with pytest.raises(InputError) as caught:
        read(f"format = 1\npatch = {value}\n", "pond.toml")
    said = "is not TOML: expected newline or end of document after a statement"
    assert str(caught.value) == f"pond.toml:2: {said}{hint}"


def test_a_fraction_in_a_list_gets_the_hint() -> None:
    """The line is that of the slip, and a quote that is not closed is another slip."""
    with pytest.raises(InputError) as caught:
        read("widths = [\n  3,\n  4 1/2,\n]\n", "pond.toml")
    assert str(caught.value) == (
        'pond.toml:3: is not TOML: unclosed array. Put fractions in quotes: "4 1/2"'
    )
    with pytest.raises(InputError) as caught:
        read("patch = '4 1/2\n", "pond.toml")
    assert str(caught.value) == """pond.toml:1: is not TOML: expected "'\""""
    with pytest.raises(InputError) as caught:
        read("patch = '1/2' x  # 4 1/2\n", "pond.toml")
    said = "is not TOML: expected newline or end of document after a statement"
    assert str(caught.value) == f"pond.toml:1: {said}"
