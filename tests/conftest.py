"""What every test shares: a deterministic hypothesis, a clean environment, and honest counting of what was not run.

A test that looks through a program of the system asks for it, by fixture or by marker::

    def test_the_words_of_a_booklet(needs_tool):
        pdftotext = needs_tool("pdftotext")

    @pytest.mark.needs_tool("chromium")
    def test_the_page_opens(): ...

Where the program is absent the test is counted as "not run" in pytest's closing line; under CI or STRICT=1 it fails.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from typing import Final

import hypothesis
import pytest

NOT_RUN: Final = "not run: "
STRICT: Final = any(
    os.environ.get(name, "").lower() not in ("", "0", "false", "no") for name in ("CI", "STRICT")
)

# The same examples in every run, on a slow machine too: a failure here is a failure everywhere.
hypothesis.settings.register_profile(
    "steady",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=60,
    print_blob=True,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
# For `make prove`: many more, still the same ones each time.
hypothesis.settings.register_profile(
    "long", parent=hypothesis.settings.get_profile("steady"), max_examples=3000
)
hypothesis.settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


def find_tool(name: str) -> str:
    """Return the path of a program, or end the test as not run (a failure under CI or STRICT=1)."""
    found = shutil.which(name)
    if found:
        return found
    if STRICT:
        pytest.fail(f"'{name}' is absent, and absence is a failure here. Run: make system", pytrace=False)
    pytest.skip(f"{NOT_RUN}'{name}' is absent")


@pytest.fixture
def needs_tool() -> Callable[[str], str]:
    """Give a function that returns a program's path or ends the test as not run."""
    return find_tool


@pytest.fixture(autouse=True)
def _tools_marked_as_needed(request: pytest.FixtureRequest) -> None:
    for marker in request.node.iter_markers("needs_tool"):
        for name in marker.args:
            find_tool(name)


@pytest.fixture(autouse=True)
def _no_settings_from_outside(monkeypatch: pytest.MonkeyPatch) -> None:
    """A developer's own SENDOFF_* variables must not decide a test."""
    for name in list(os.environ):
        if name.startswith("SENDOFF_"):
            monkeypatch.delenv(name)


def pytest_report_teststatus(report: pytest.TestReport | pytest.CollectReport) -> tuple[str, str, str] | None:
    """Count tests that miss a program under a heading of their own, in the closing line."""
    if report.skipped and isinstance(report.longrepr, tuple) and NOT_RUN in str(report.longrepr[2]):
        return "not run", "n", "NOT RUN"
    return None


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say once which programs were missing and how many tests each kept from running."""
    reasons = [
        str(report.longrepr[2]).partition(NOT_RUN)[2] for report in terminalreporter.stats.get("not run", [])
    ]
    for reason in sorted(set(reasons)):
        terminalreporter.write_line(
            f"not run: {reasons.count(reason)} tests, {reason} (make system)", yellow=True
        )
