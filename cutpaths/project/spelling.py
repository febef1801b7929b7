"""The known name that is spelled most like an unknown one."""

from __future__ import annotations

from collections.abc import Iterable


def nearest_name(name: str, known: Iterable[str]) -> str:
    """The known name nearest to `name`; empty where none is near."""
    # Loaded only here: a file without errors never needs it.
    from difflib import get_close_matches

    return next(iter(get_close_matches(name, list(known), n=1)), "")
