"""Locks, declared dependencies and texts of the project agree with each other."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import textwrap
import tomllib
from collections.abc import Callable
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PIN = re.compile(r"^([A-Za-z0-9._-]+)==([^\s;\\]+)(?: *; *([^\\]+?))? *\\?$")


def pins(lock: str) -> set[tuple[str, str, str]]:
    """Read name, version and marker of every requirement in a lock."""
    found = set()
    for line in (ROOT / lock).read_text(encoding="utf-8").splitlines():
        match = PIN.match(line)
        if match:
            found.add((match[1], match[2], match[3] or ""))
        else:
            assert re.fullmatch(r"    --hash=sha256:[0-9a-f]{64}( \\)?", line), f"{lock}: {line}"
    return found


def normal(name: str) -> str:
    """Write a distribution's name the one way PyPA normalizes it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def declared(entries: list[str]) -> set[str]:
    """Take the names out of requirement strings."""
    return {normal(re.split(r"[\s<>=!~;\[]", entry, maxsplit=1)[0]) for entry in entries}


@pytest.mark.parametrize("lock", ["requirements.lock", "requirements-dev.lock"])
def test_a_lock_holds_nothing_but_pinned_versions_and_their_hashes(lock: str) -> None:
    text = (ROOT / lock).read_text(encoding="utf-8")
    assert pins(lock)
    assert "://" not in text
    assert "index" not in text
    requirements = [part for part in re.split(r"\n(?=\S)", text) if part.strip()]
    assert [part for part in requirements if "--hash=sha256:" not in part] == []


def test_the_development_lock_contains_the_runtime_lock() -> None:
    missing = pins("requirements.lock") - pins("requirements-dev.lock")
    # a marker may be narrower in the larger lock; versions may not differ
    large = {(name, version) for name, version, _ in pins("requirements-dev.lock")}
    assert [entry for entry in missing if (entry[0], entry[1]) not in large] == []


def test_every_declared_dependency_is_locked() -> None:
    runtime = {normal(name) for name, _, _ in pins("requirements.lock")}
    large = {normal(name) for name, _, _ in pins("requirements-dev.lock")}
    groups = PROJECT["dependency-groups"]
    assert declared(PROJECT["project"]["dependencies"]) - runtime == set()
    assert declared(groups["build"]) - runtime == set()
    assert declared([entry for entry in groups["dev"] if isinstance(entry, str)]) - large == set()
    extras = PROJECT["project"]["optional-dependencies"]
    assert declared([entry for extra in extras.values() for entry in extra]) - large == set()


def imported_packages(folder: Path) -> dict[str, Path]:
    """Name every top-level module that code in a folder imports, anywhere in it."""
    found: dict[str, Path] = {}
    for path in sorted(folder.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found.update((alias.name.partition(".")[0], path) for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                found[node.module.partition(".")[0]] = path
    return found


def test_the_package_imports_only_what_it_declares() -> None:
    """A module that happens to be here because a development tool brought it is missing on a fresh machine."""
    allowed = declared(PROJECT["project"]["dependencies"])
    extras = PROJECT["project"]["optional-dependencies"]
    allowed |= declared([entry for extra in extras.values() for entry in extra])
    owners = packages_distributions()
    strange = {}
    for name, path in imported_packages(ROOT / "src").items():
        if name in sys.stdlib_module_names or name == "sendoff":
            continue
        if not {normal(owner) for owner in owners.get(name, [])} & allowed:
            strange[name] = str(path.relative_to(ROOT))
    assert strange == {}


def test_every_declared_dependency_is_used() -> None:
    """Only a package that carries files and no code that we import is exempt; say which."""
    files_only = {
        "tzdata",  # read by zoneinfo where the system has no time zones
        "argon2-cffi",  # Django hashes passwords with it (web/config.py)
        "whitenoise",  # a middleware that web/config.py names
        "font-source-sans-pro",  # its TTF files are read by the typesetter (papers/typeset.py)
    }
    owners: dict[str, set[str]] = {}
    for module, names in packages_distributions().items():
        for name in names:
            owners.setdefault(normal(name), set()).add(module)
    used = set(imported_packages(ROOT / "src"))
    unused = [
        name
        for name in sorted(declared(PROJECT["project"]["dependencies"]) - files_only)
        if not owners.get(name, {name.replace("-", "_")}) & used
    ]
    assert unused == []


def test_make_alone_lists_the_commands(needs_tool: Callable[[str], str]) -> None:
    make = needs_tool("make")
    command = [make, f"PYTHON={sys.executable}"]
    bare = {
        name: value for name, value in os.environ.items() if not name.startswith("MAKE") and name != "MFLAGS"
    }
    said = subprocess.run(command, cwd=ROOT, env=bare, capture_output=True, text=True, check=True)
    listed = [line.split()[1] for line in said.stdout.splitlines()]
    assert listed == ["setup", "demo", "serve", "test", "prove", "bench", "look", "docs", "system"]


def test_the_version_stands_in_the_changelog() -> None:
    from sendoff import __version__

    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert re.search(rf"^## {re.escape(__version__)}\b", text, re.MULTILINE)


def test_links_between_the_documents_lead_somewhere() -> None:
    broken = []
    documents = [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")]
    assert len(documents) > 5
    for document in documents:
        targets = re.findall(r"\]\(([^)#\s]+)[^)]*\)", document.read_text(encoding="utf-8"))
        broken += [
            f"{document.relative_to(ROOT)}: {target}"
            for target in targets
            if "://" not in target and not (document.parent / target).exists()
        ]
    assert broken == []


def test_files_named_in_contributing_exist() -> None:
    """ "How to add" names every file; a renamed file must not leave a reader searching."""
    text = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`((?:src|tests|docs|examples|proofs|benchmarks|tools)/[^`\s]*)`", text))
    assert len(named) > 10
    patterns = {name: re.sub(r"[A-Z]{2,}\w*", "*", name) for name in named}
    assert [name for name, pattern in patterns.items() if not list(ROOT.glob(pattern.rstrip("/")))] == []


def lines_of_code(source: str) -> int:
    """Count lines that are neither blank nor comment nor docstring: what a reader has to follow."""
    told: set[int] = set()
    for node in ast.walk(ast.parse(source)):
        if (
            isinstance(node, ast.Expr)
            and isinstance(node.value, ast.Constant)
            and isinstance(node.value.value, str)
        ):
            told.update(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    lines = enumerate(source.splitlines(), 1)
    return sum(
        bool(line.strip()) and not line.strip().startswith("#")
        for number, line in lines
        if number not in told
    )


def test_no_module_is_too_long_to_read_in_one_sitting() -> None:
    made_by_a_tool = ROOT / "src" / "sendoff" / "web" / "migrations"
    modules = [path for path in sorted((ROOT / "src").rglob("*.py")) if path.parent != made_by_a_tool]
    lengths = {
        str(path.relative_to(ROOT)): lines_of_code(path.read_text(encoding="utf-8")) for path in modules
    }
    assert {name: length for name, length in lengths.items() if length > 500} == {}


SECOND_LOOKS = {
    # lays out every number of a deck problem in one pass; to be parted when the planner's tests are tidied
    "src/sendoff/calc/deck_plan/variables.py: flatten",
}


def test_no_function_is_longer_than_sixty_lines() -> None:
    long = {}
    for path in sorted((ROOT / "src").rglob("*.py")):
        source = path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.FunctionDef):
                length = lines_of_code(textwrap.dedent(ast.get_source_segment(source, node) or ""))
                name = f"{path.relative_to(ROOT)}: {node.name}"
                if length > 60 and name not in SECOND_LOOKS:
                    long[name] = length
    assert long == {}


def commands_in_the_documents() -> list[tuple[str, ...]]:
    """Find every `sendoff command [subcommand]` that a document shows."""
    found = set()
    for document in (*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")):
        text = document.read_text(encoding="utf-8")
        for words in re.findall(r"(?:^ {4}|`)(?:\.venv/bin/)?sendoff ([a-z][a-z ]*)", text, re.MULTILINE):
            known = [word for word in words.split() if word.isalpha()]
            found.add(tuple(known[: 2 if known[0] in {"catalogue", "yard"} else 1]))
    return sorted(found)


@pytest.mark.parametrize("command", commands_in_the_documents(), ids=" ".join)
def test_a_command_shown_in_a_document_exists(command: tuple[str, ...]) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "sendoff", *command, "--help"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
