"""A layout as a TOML file that a project includes.

It holds the chart of the top and nothing else; what is known of it stands in comments. TOML 1.0:
basic strings escape the quotation mark, the backslash and control characters; comments hold none.
"""

from __future__ import annotations

from cutpaths.arrange.report import chart_rows, verdict_lines
from cutpaths.arrange.rules import ArrangeRules
from cutpaths.arrange.search import Arranged

HEAD = "# Laid out by `cutpaths arrange`"  # by this a later run knows the file as its own


def included(rules: ArrangeRules, found: Arranged, *, seed: int, seconds: float) -> bytes:
    """The file's bytes, the same for the same layout.

    Args:
        rules: what the layout was made by.
        found: the layout and what is known of it.
        seed: what repeats it.
        seconds: the work allowed, which repeats it too.
    """
    lines = [
        f"{HEAD} --seed {seed} --seconds {seconds:g}; run it again to change it.",
        *(_comment(line) for line in verdict_lines(rules, found)),
        "",
        "[top]",
        "chart = [",
        *(f"    {quoted(row)}," for row in chart_rows(rules, found.layout)),
        "]",
    ]
    return ("\n".join(lines) + "\n").encode()


def quoted(text: str) -> str:
    r"""A text as a TOML basic string.

    >>> print(quoted('a "b" \\ c' + chr(10)))
    "a \"b\" \\ c\u000A"
    """
    return '"' + "".join(_escaped(letter) for letter in text) + '"'


def _escaped(letter: str) -> str:
    if letter in '"\\':
        return f"\\{letter}"
    return f"\\u{ord(letter):04X}" if letter < " " or letter == "\x7f" else letter


def _comment(text: str) -> str:
    return "# " + "".join(letter if letter.isprintable() else "?" for letter in text)
