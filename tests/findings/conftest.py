"""A demo yard for each test."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.demo import DemoYard


@pytest.fixture
def demo(tmp_path: Path) -> DemoYard:
    return DemoYard(tmp_path)
