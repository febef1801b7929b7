"""Tests of the page are skipped only where that is allowed."""

from __future__ import annotations

import os

import pytest

from browser import driver


def test_a_missing_browser_is_an_error_where_all_tests_must_run() -> None:
    """Without a browser a person's run skips; with CI=true it does not, nor with a browser."""
    assert driver.may_skip({}, there=False)
    assert driver.may_skip({"CI": "false"}, there=False)
    assert not driver.may_skip({"CI": "true"}, there=False)
    assert not driver.may_skip({}, there=True)


def test_where_all_tests_must_run_the_browser_is_there() -> None:
    """With CI=true its absence is a failure of its own, whatever marks the other tests have."""
    assert driver.CHROMIUM.exists() or os.environ.get("CI") != "true"


def test_a_missing_browser_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    """The failure names the browser and what installs it."""
    monkeypatch.setattr(driver, "CHROMIUM", driver.CHROMIUM / "none")
    with (
        pytest.raises(pytest.fail.Exception, match=r"is missing: run tests/browser/install$"),
        driver.browser(320, 320),
    ):
        raise AssertionError("a browser that is not there was started")
