"""Write the pages that say what the calculations do and where every number comes from, from data and docstrings.

    docs/calculations/index.md      all families, with how many checks from outside hold each
    docs/calculations/FAMILY.md     every calculation: meaning, formula, inputs, range, example, sources, checks
    docs/sources.md                 every source, how we know it, and each clause with what stands on it
    docs/coverage.md                every clause used: read or recalled, and how what stands on it is checked
    docs/tables.md                  every published table
    docs/words.md                   the words of the house, and those an owner meets in a pack

Nothing on those pages is written by hand. `python tools/docs.py --check` says which of them are out of date.
"""

from __future__ import annotations

import sys
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final

import tomli

from sendoff import sources, tables, words
from sendoff.calc import arguments, calculations, docstrings
from sendoff.calc.contract import Calculation
from sendoff.cli.calc import default_of, result_of

ROOT: Final = Path(__file__).resolve().parent.parent
DOCS: Final = ROOT / "docs"
CASES: Final = ROOT / "tests" / "cases"
HOUSE_WORDS: Final = Path(__file__).parent / "house_words.toml"
MADE: Final = "<!-- Made by tools/docs.py from docstrings and data: change those, then run `make docs`. -->"

KNOWN: Final = {"read": "read", "memory": "from memory", "derived": "derived"}


def case_files(folder: Path = CASES) -> list[dict[str, Any]]:
    """Return every worked example of tests/cases."""
    return [
        case
        for path in sorted(folder.rglob("*.toml"))
        for case in tomli.loads(path.read_text(encoding="utf-8")).get("case", [])
    ]


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> list[str]:
    """Return the lines of a table."""
    names = list(head)
    lines = [f"| {' | '.join(names)} |", f"|{'---|' * len(names)}"]
    return [*lines, *(f"| {' | '.join(_cell(cell) for cell in row)} |" for row in rows)]


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def _title(family: str) -> str:
    return family.replace("_", " ").capitalize()


def how_known(evidence: str) -> str:
    """Return the evidence in the words of the pages."""
    return KNOWN.get(evidence, evidence)


def family_page(family: str, members: list[Calculation], cases: list[dict[str, Any]]) -> str:
    """Return the page of one family."""
    module = sys.modules[f"sendoff.calc.{family}"]
    lines = [MADE, "", f"# {_title(family)}", "", (module.__doc__ or "").strip(), ""]
    lines += [f"- [{one.name}](#{one.name}): {one.meaning}" for one in members]
    for calculation in members:
        lines += [
            "",
            *_calculation(calculation, [case for case in cases if case["function"] == calculation.name]),
        ]
    return "\n".join(lines) + "\n"


def _calculation(calculation: Calculation, cases: list[dict[str, Any]]) -> list[str]:
    doc = docstrings.read(calculation)
    lines = [f"## {calculation.name}", "", calculation.meaning, "", "```text", calculation.formula, "```", ""]
    lines += [doc.formula, ""]
    rows = [
        (
            f"`{argument.name}`",
            calculation.symbols.get(argument.name, ""),
            argument.said + (f"; default: {default_of(calculation, argument)}" if argument.optional else ""),
            doc.parameters[argument.name],
        )
        for argument in arguments.arguments(calculation).values()
    ]
    lines += table(("input", "symbol", "written as", "meaning"), rows)
    results = ", ".join(f"`{line}`" for line in result_of(calculation))
    lines += ["", f"**Result.** {doc.returns} {results}", "", f"**Range.** {doc.notes}", ""]
    lines += [*_example(doc.example), ""]
    lines += ["**Sources**", ""]
    for reference in doc.references:
        clause = f", {reference.clause}" if reference.clause else ""
        lines.append(f"- [{sources.get(reference.source).title}](../sources.md#{reference.source}){clause}")
    lines += [f"- published table [{name}](../tables.md#{name})" for name in calculation.tables.values()]
    if cases:
        lines += ["", "**Checks**", ""]
        lines += table(
            ("check", "kind", "source", "clause", "how we know"),
            [
                (case["id"], _kind(case), case["source"], case["clause"], how_known(case["evidence"]))
                for case in cases
            ],
        )
    return lines


def _example(text: str) -> list[str]:
    """Return an example, its code and what it prints fenced."""
    lines: list[str] = []
    inside = False
    for line in text.splitlines():
        if line.startswith(">>>") and not inside:
            lines.append("```pycon")
            inside = True
        elif inside and not line.strip():
            lines.append("```")
            inside = False
        lines.append(line)
    return [*lines, "```"] if inside else lines


def _kind(case: Mapping[str, Any]) -> str:
    return f"{case['kind']}, refused" if "refused" in case else str(case["kind"])


def index_page(by_family: Mapping[str, list[Calculation]], cases: list[dict[str, Any]]) -> str:
    """Return the page that lists all families."""
    family_of = {one.name: family for family, members in by_family.items() for one in members}
    rows = []
    totals: Counter[str] = Counter()
    for family, members in by_family.items():
        own = [case for case in cases if family_of.get(case["function"]) == family and case["kind"] != "pin"]
        counted = Counter(case["evidence"] for case in own)
        refused = sum("refused" in case for case in own)
        other = sum(case["kind"] == "other program" for case in own)
        numbers = Counter(
            calculations=len(members), checks=len(own), read=counted["read"], memory=counted["memory"],
            derived=counted["derived"], none=counted["common practice, no source"], other=other, refused=refused,
        )  # fmt: skip
        totals.update(numbers)
        rows.append((f"[{_title(family)}]({family}.md)", *_numbers(numbers)))
    rows.append(("all", *_numbers(totals)))
    head = ("family", *(_HEAD[name] for name in _HEAD))
    lines = [
        MADE,
        "",
        "# Calculations",
        "",
        "Every number Sendoff computes, with its formula, its range and its source. `sendoff calc` lists them at the",
        "command line, `sendoff calc NAME --help` explains one, `sendoff calc NAME key=value …` computes it.",
        "",
        "How many checks from outside hold each family: read in the source, recalled, derived by hand, taken from",
        "another program; and how many of them are inputs that must be refused. Further checks against other programs",
        "are the tests in `tests/against/`.",
        "",
        *table(head, rows),
    ]
    return "\n".join(lines) + "\n"


_HEAD: Final = {
    "calculations": "calculations",
    "checks": "checks",
    "read": "read",
    "memory": "from memory",
    "derived": "derived",
    "none": "no source",
    "other": "other program",
    "refused": "refused",
}


def _numbers(numbers: Mapping[str, int]) -> tuple[str, ...]:
    return tuple(str(numbers.get(name, 0)) for name in _HEAD)


def sources_page(known: Mapping[str, Calculation], cases: list[dict[str, Any]]) -> str:
    """Return the page of sources: each with its clauses, and what stands on them."""
    uses: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for calculation in known.values():
        for reference in docstrings.read(calculation).references:
            uses[reference.source][reference.clause].append(f"`{calculation.name}`")
    for table_id in tables.ids():
        for row in tables.load(table_id).rows:
            entry = f"[table {table_id}](tables.md#{table_id})"
            if entry not in uses[row["source"]][row["clause"]]:
                uses[row["source"]][row["clause"]].append(entry)
    checks: dict[str, dict[str, list[dict[str, Any]]]] = defaultdict(lambda: defaultdict(list))
    for case in cases:
        checks[case["source"]][case["clause"]].append(case)
    lines = [
        MADE,
        "",
        "# Sources",
        "",
        "Where every table, calculation and check comes from, and how we know what it says: *read* means that the",
        "text or figure was seen, *from memory* that it was recalled and not seen, *derived* that it follows by",
        "arithmetic or statics, *common practice, no source* that it has none. Most United States federal text was",
        "read in the annual edition of 2015; a later edition may differ.",
        "",
        *table(
            ("source", "what it is", "edition", "how we know"),
            [
                (f"[{key}](#{key})", one.title, one.edition, how_known(one.evidence))
                for key, one in sources.load().items()
            ],
        ),
    ]
    for key, source in sources.load().items():
        lines += ["", f"## {key}", "", f"{source}.", *(["", source.note] if source.note else []), ""]
        rows = [("used", clause, ", ".join(users), "") for clause, users in uses.get(key, {}).items()]
        rows += [
            (
                "checked",
                clause,
                ", ".join(dict.fromkeys(f"`{case['function']}`" for case in held)),
                _held(held),
            )
            for clause, held in checks.get(key, {}).items()
        ]
        lines += table(("", "clause", "by", "how"), rows) if rows else ["Nothing stands on it yet."]
    return "\n".join(lines) + "\n"


def coverage_page(known: Mapping[str, Calculation], cases: list[dict[str, Any]]) -> str:
    """Return the page that says of every clause used how we know it and how what stands on it is checked."""
    by_function: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for case in cases:
        by_function[case["function"]].append(case)
    users: dict[tuple[str, str], dict[str, None]] = defaultdict(dict)
    recalled: set[tuple[str, str]] = set()
    for calculation in known.values():
        for reference in docstrings.read(calculation).references:
            users[reference.source, reference.clause][calculation.name] = None
        for table_id in calculation.tables.values():
            for row in tables.load(table_id).rows:
                users[row["source"], row["clause"]][calculation.name] = None
                if row["evidence"] == "memory":
                    recalled.add((row["source"], row["clause"]))
    rows: list[tuple[str, ...]] = []
    counted: Counter[str] = Counter()
    for (source, clause), names in sorted(users.items()):
        evidence = "memory" if (source, clause) in recalled else sources.get(source).evidence
        own = [case for name in names for case in by_function[name] if case["source"] == source]
        others = [case for name in names for case in by_function[name] if case["source"] != source]
        counted[how_known(evidence)] += 1
        counted["own" if own else "others"] += 1
        how = _held(own) if own else f"not by itself; what uses it, by {_sources_of(others)}"
        by = ", ".join(f"[{name}](calculations/{known[name].family}.md#{name})" for name in names)
        rows.append((f"[{source}](sources.md#{source})", clause, how_known(evidence), by, how))
    said = "; ".join(f"{how} {counted[how]}" for how in sorted(counted) if how not in {"own", "others"})
    lines = [
        MADE,
        "",
        "# Coverage",
        "",
        "Every clause a calculation stands on, by itself or through a published table: whether it was read or",
        "recalled, what uses it, and how that is checked by cases that name the same source. Where none does, the",
        "calculation is held by other sources.",
        "",
        f"{len(rows)} clauses: {said}.",
        f"Checked by cases of their own source {counted['own']}, by others alone {counted['others']}.",
        "",
        *table(("source", "clause", "how we know", "used by", "how checked"), rows),
    ]
    return "\n".join(lines) + "\n"


def _sources_of(cases: list[dict[str, Any]]) -> str:
    counted = Counter(case["source"] for case in cases)
    return ", ".join(f"{times} of {source}" for source, times in counted.most_common(3)) or "nothing yet"


def _held(held: list[dict[str, Any]]) -> str:
    counted = Counter(f"{_kind(case)} ({how_known(case['evidence'])})" for case in held)
    return ", ".join(kind if times == 1 else f"{times} × {kind}" for kind, times in sorted(counted.items()))


def tables_page(known: Mapping[str, Calculation]) -> str:
    """Return the page of published tables."""
    lines = [
        MADE,
        "",
        "# Published tables",
        "",
        "Values as printed in their source, shipped with the package in `src/sendoff/data/tables/`. A yard may give",
        "another one of the same columns: `sendoff calc NAME … table=own.toml`.",
    ]
    for table_id in tables.ids():
        one = tables.load(table_id)
        users = [name for name, calculation in known.items() if table_id in calculation.tables.values()]
        places = dict.fromkeys((row["source"], row["clause"], row["evidence"]) for row in one.rows)
        lines += [
            "",
            f"## {table_id}",
            "",
            f"{one.title}: {len(one.rows)} rows of {', '.join(one.columns)}.",
            "",
        ]
        lines += [one.note, ""] if one.note else []
        lines += [
            f"- [{source}](sources.md#{source}){f', {clause}' if clause else ''} ({how_known(evidence)})"
            for source, clause, evidence in places
        ]
        used = ", ".join(f"[{name}](calculations/{known[name].family}.md#{name})" for name in sorted(users))
        lines.append(f"- used by {used}" if used else "- used by no calculation of its own name")
    return "\n".join(lines) + "\n"


def words_page() -> str:
    """Return the page of words: those of the house, and those an owner meets."""
    house = tomli.loads(HOUSE_WORDS.read_text(encoding="utf-8"))
    lines = [MADE, "", "# Words", "", "One thing, one word.", "", "## Words of the house", ""]
    lines += table(("word", "meaning"), house.items())
    lines += ["", "## Words an owner meets", "", "A booklet explains those whose part its unit has.", ""]
    rows = [
        (f"{one.said['en']}<br>{one.said['es']}", f"{one.means['en']}<br>{one.means['es']}")
        for one in words.load()
    ]
    lines += table(("word, palabra", "meaning, significado"), rows)
    return "\n".join(lines) + "\n"


def pages() -> dict[Path, str]:
    """Return every page, by its place under docs/."""
    known = dict(sorted(calculations().items()))
    cases = case_files()
    by_family: dict[str, list[Calculation]] = {}
    for family in sorted({one.family for one in known.values()}):
        by_family[family] = [one for one in known.values() if one.family == family]
    found = {Path("calculations") / "index.md": index_page(by_family, cases)}
    for family, members in by_family.items():
        found[Path("calculations") / f"{family}.md"] = family_page(family, members, cases)
    found[Path("sources.md")] = sources_page(known, cases)
    found[Path("coverage.md")] = coverage_page(known, cases)
    found[Path("tables.md")] = tables_page(known)
    found[Path("words.md")] = words_page()
    return found


def stale(folder: Path = DOCS) -> list[str]:
    """Return what is out of date: pages that differ or are missing, and pages of families that are gone."""
    made = pages()
    wrong = [
        f"{path.as_posix()} is out of date"
        for path, text in made.items()
        if not (folder / path).is_file() or (folder / path).read_text(encoding="utf-8") != text
    ]
    there = {path.relative_to(folder) for path in (folder / "calculations").glob("*.md")}
    return wrong + [f"{path.as_posix()} belongs to no family" for path in sorted(there - set(made))]


def write(folder: Path = DOCS) -> int:
    """Write all pages and remove those of families that are gone; return how many there are."""
    made = pages()
    (folder / "calculations").mkdir(parents=True, exist_ok=True)
    for path in (folder / "calculations").glob("*.md"):
        if path.relative_to(folder) not in made:
            path.unlink()
    for relative, text in made.items():
        (folder / relative).write_text(text, encoding="utf-8")
    return len(made)


def main(words: list[str]) -> int:
    """Write the pages, or say which are out of date."""
    if words == ["--check"]:
        wrong = stale()
        print("\n".join([*wrong, "Run: make docs"]) if wrong else "docs: up to date")
        return bool(wrong)
    if words:
        print("docs: say nothing, or --check")
        return 2
    print(f"docs: {write()} pages written")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
