"""Starts the distribution's Chromium, away from any network, and reads what it draws."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--force-device-scale-factor=1",
    "--hide-scrollbars",
)


def may_skip(environment: Mapping[str, str], *, there: bool) -> bool:
    """Whether tests of the page may be skipped: without a browser, but not where all must run."""
    return not there and environment.get("CI") != "true"


NEEDS_CHROMIUM = pytest.mark.skipif(
    may_skip(os.environ, there=CHROMIUM.exists()), reason="run tests/browser/install first"
)


@contextmanager
def browser(width: int, height: int) -> Iterator[BrowserContext]:
    """A browser with a new, empty profile and a window of a size in pixels."""
    from playwright.sync_api import sync_playwright

    if not CHROMIUM.exists():
        pytest.fail(f"{CHROMIUM} is missing: run tests/browser/install")
    with TemporaryDirectory() as profile, sync_playwright() as play:
        context = play.chromium.launch_persistent_context(
            profile,
            executable_path=str(CHROMIUM),
            args=list(ARGUMENTS),
            viewport={"width": width, "height": height},
            accept_downloads=True,
        )
        try:
            yield context
        finally:
            context.close()
