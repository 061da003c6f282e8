"""`sendoff calc`: every calculation by name, with any unit of the right dimension, its working and its source."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Annotated, Any, Literal, NoReturn

import typer

from sendoff.cli import streams

if TYPE_CHECKING:
    from sendoff.calc.arguments import Argument
    from sendoff.calc.contract import Calculation, Step, Term, Worked

System = Literal["us", "metric"]

HELP = """Compute any limit: the number, its working and its source.

sendoff calc                          lists all calculations, by family
sendoff calc FAMILY                   lists one family
sendoff calc NAME --help              says what it asks for
sendoff calc NAME key=value ...       computes; values carry their unit: "110 psi", "758 kPa"
"""


def register(app: typer.Typer) -> None:
    """Give the command to the one command line."""
    app.command(
        "calc",
        help=HELP,
        short_help="Compute any limit by itself.",
        context_settings={"help_option_names": []},
    )(calc)


def calc(
    name: Annotated[str, typer.Argument(metavar="[NAME]", show_default=False)] = "",
    values: Annotated[list[str] | None, typer.Argument(metavar="[KEY=VALUE]...", show_default=False)] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the result as JSON.")] = False,
    help_wanted: Annotated[bool, typer.Option("--help", help="Say what a calculation asks for.")] = False,
) -> None:
    if not name and help_wanted:
        typer.echo(HELP.rstrip())
        return
    from sendoff.calc import calculations

    known = calculations()
    name = name.strip().replace("-", "_")
    if not name or name in {calculation.family for calculation in known.values()}:
        typer.echo("\n".join(listing(known, name)))
        return
    calculation = known.get(name)
    if calculation is None:
        refuse([_no_such(name, known)])
    elif help_wanted:
        typer.echo("\n".join(help_of(calculation)))
    else:
        answer = compute(calculation, values or [])
        lines = [streams.as_json(answer, indent=2)] if as_json else said(calculation, answer)
        typer.echo("\n".join(lines))


def refuse(lines: Iterable[str]) -> NoReturn:
    """Say what is wrong and end with exit code 2."""
    for line in lines:
        typer.echo(line, err=True)
    raise typer.Exit(2)


def _no_such(name: str, known: Mapping[str, Calculation]) -> str:
    near = difflib.get_close_matches(name, known, 4, 0.5)
    parts = [part for part in name.split("_") if len(part) > 2]
    near += [other for other in known if other not in near and any(part in other for part in parts)]
    cure = f"Near it: {', '.join(near[:8])}." if near else "sendoff calc lists all."
    return f"There is no calculation named '{name}'. {cure}"


def listing(known: Mapping[str, Calculation], family: str = "") -> list[str]:
    """Return the list of calculations: name, two or more spaces, meaning; grouped by family."""
    shown = [calculation for calculation in known.values() if family in {"", calculation.family}]
    width = max((len(calculation.name) for calculation in shown), default=0)
    lines: list[str] = []
    for group in sorted({calculation.family for calculation in shown}):
        lines += [""] if lines else []
        lines.append(f"{group.replace('_', ' ').capitalize()}:")
        members = sorted((one for one in shown if one.family == group), key=lambda one: one.name)
        lines += [f"{one.name:<{width}}  {one.meaning}" for one in members]
    return lines


def compute(calculation: Calculation, values: list[str]) -> dict[str, Any]:
    """Return the answer of a calculation as the JSON form; anything wrong ends the command with exit code 2."""
    from sendoff.calc import arguments
    from sendoff.calc.contract import worked
    from sendoff.errors import FaultyInput, OutOfRange, shown

    given: dict[str, str] = {}
    for value in values:
        key, equals, text = value.partition("=")
        key = key.strip()
        if not equals:
            refuse(
                [f"{value}: is not key=value. Write one of: {', '.join(arguments.arguments(calculation))}."]
            )
        if key in given:
            refuse([f"{key}: is given twice. Give it once."])
        given[key] = text.strip()
    if "today" in arguments.arguments(calculation):
        given.setdefault("today", this_day())
    try:
        done = worked(calculation.function, **arguments.read(calculation, given))
    except FaultyInput as error:
        refuse(str(fault) for fault in error.faults)
    except OutOfRange as error:
        entered = next((text for key, text in given.items() if _is_named(key, error.name)), None)
        refuse([f"{error}" if entered is None else f"{error.name}: {error.allowed} (found {shown(entered)})"])
    return answer_of(calculation, done)


def _is_named(key: str, name: str) -> bool:
    """Tell whether a person's key means an argument: its name, or its name without the unit."""
    return key in {name, name.rpartition("_")[0]}


def this_day() -> str:
    """Return the day on the machine's calendar: calculations have no clock of their own."""
    import datetime as dt

    return dt.datetime.now().astimezone().date().isoformat()


def answer_of(calculation: Calculation, done: Worked[Any]) -> dict[str, Any]:
    """Return result, working and sources as plain data."""
    steps: list[Step] = []
    for step in done.steps:  # a step done twice with the same numbers is told once
        if step not in steps:
            steps.append(step)
    return {
        "calculation": calculation.name,
        "result": {term.name: value_of(term.name, term.value) for term in done.steps[-1].gave},
        "working": [step_as_data(step) for step in steps],
        "sources": _sources(done.steps),
    }


def value_of(name: str, value: Any) -> Any:
    """Return a value as data: SI, unit, and as each system shows it; words, dates and yes or no as they are."""
    import dataclasses
    import datetime as dt

    from sendoff import units
    from sendoff.display import fine
    from sendoff.tables import Table

    if isinstance(value, Table):
        return {"value": value.id}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {
            field.name: value_of(field.name, getattr(value, field.name))
            for field in dataclasses.fields(value)
        }
    if isinstance(value, tuple):
        items = [value_of(name, item) for item in value]
        if items and all(set(item) == {"value", "unit", "shown_us", "shown_metric"} for item in items):
            shown = {key: [item[key] for item in items] for key in ("value", "shown_us", "shown_metric")}
            return {**shown, "unit": items[0]["unit"]}
        return {"value": [item["value"] if set(item) == {"value"} else item for item in items]}
    if isinstance(value, dt.date):
        return {"value": value.isoformat()}
    if value is None or isinstance(value, bool | str):
        return {"value": value}
    kind = units.kind_of_name(name)
    if kind is None:
        return {"value": value}
    return {
        "value": value,
        "unit": units.SI_UNIT[kind],
        "shown_us": str(fine(kind, value, "us")),
        "shown_metric": str(fine(kind, value, "metric")),
    }


def step_as_data(step: Step) -> dict[str, Any]:
    def terms(of: tuple[Term, ...]) -> list[dict[str, Any]]:
        found = []
        for term in of:
            value = value_of(term.name, term.value)
            whole = value if "value" in value else {"value": value}
            found.append({"name": term.name, "symbol": term.symbol, **whole})
        return found

    return {
        "calculation": step.calculation,
        "formula": step.formula,
        "put_in": terms(step.put_in),
        "gave": terms(step.gave),
    }


def _sources(steps: tuple[Step, ...]) -> list[dict[str, str]]:
    """Return every source the steps stand on, the outermost calculation's first, then those of its tables."""
    from sendoff import sources
    from sendoff.calc import calculations, docstrings
    from sendoff.tables import Table, load

    found: dict[tuple[str, str], dict[str, str]] = {}

    def add(source_id: str, clause: str, table: str = "") -> None:
        source = sources.get(source_id)
        entry = {
            "id": source_id,
            "title": source.title,
            "publisher": source.publisher,
            "edition": source.edition,
        }
        entry |= {"clause": clause, "evidence": source.evidence}
        found.setdefault((source_id, clause), entry | ({"table": table} if table else {}))

    for step in reversed(steps):
        calculation = calculations()[step.calculation]
        for reference in docstrings.read(calculation).references:
            add(reference.source, reference.clause)
        used = {term.name: term.value for term in step.put_in}
        for argument, table_id in calculation.tables.items():
            table = used.get(argument)
            table = table if isinstance(table, Table) else load(table_id)
            for source_id, clause in dict.fromkeys((row["source"], row["clause"]) for row in table.rows):
                add(source_id, clause, table.id)
    return list(found.values())


def _value_said(value: Mapping[str, Any]) -> str:
    if "shown_us" in value:
        us, metric = value["shown_us"], value["shown_metric"]
        if isinstance(us, list):
            us, metric = ", ".join(us), ", ".join(metric)
        return us if us == metric else f"{us} ({metric})"
    if "value" not in value:
        return "; ".join(f"{key} {_value_said(inner)}" for key, inner in value.items())
    plain = value["value"]
    if isinstance(plain, Mapping):
        return _value_said(plain)
    if isinstance(plain, list):
        return (
            ", ".join(_value_said(item) if isinstance(item, Mapping) else str(item) for item in plain)
            or "none"
        )
    if isinstance(plain, bool):
        return "yes" if plain else "no"
    return "none" if plain is None else str(plain)


def said(calculation: Calculation, answer: Mapping[str, Any]) -> list[str]:
    """Return the answer as a person reads it: result, working, source."""
    width = max(len(name) for name in answer["result"])
    lines = [f"{name:<{width}}  {_value_said(value)}" for name, value in answer["result"].items()]
    lines += ["", "Working"]
    for step in answer["working"]:
        lines.append(f"  {step['calculation']}: {step['formula']}")
        lines += [f"    {_term_said(term)}" for term in step["put_in"]]
        lines += [f"    gives {_term_said(term)}" for term in step["gave"]]
    lines += ["", "Source"]
    for source in answer["sources"]:
        parts = (source["title"], source["edition"], source["clause"])
        how = {"read": "read at source", "memory": "from memory"}.get(source["evidence"], source["evidence"])
        table = f"; table {source['table']}" if "table" in source else ""
        lines.append(f"  {', '.join(part for part in parts if part)} ({how}{table})")
    if calculation.family:
        lines += [
            "",
            "The data plate and the makers' papers come first, then local law. A limit checked is no promise.",
        ]
    return lines


def _term_said(term: Mapping[str, Any]) -> str:
    symbol = term["symbol"] if term["symbol"] == term["name"] else f"{term['symbol']} = {term['name']}"
    return f"{symbol} = {_value_said({key: value for key, value in term.items() if key not in {'name', 'symbol'}})}"


def help_of(calculation: Calculation) -> list[str]:
    """Return what a calculation asks for, gives, and where it comes from."""
    from sendoff import sources
    from sendoff.calc import arguments, docstrings

    doc = docstrings.read(calculation)
    lines = [f"{calculation.name}: {calculation.meaning}", "", f"  {calculation.formula}", "", "Inputs"]
    for argument in arguments.arguments(calculation).values():
        default = " (default: this day)" if argument.name == "today" else ""
        if argument.optional:
            default = f" (default: {default_of(calculation, argument)})"
        lines += [
            f"  {argument.name}={argument.said}{default}",
            f"      {doc.parameters.get(argument.name, '')}",
        ]
    lines += ["", "Result", *(f"  {line}" for line in result_of(calculation)), f"      {doc.returns}"]
    lines += [
        "",
        "Range",
        f"  {doc.notes}",
        "",
        "Example",
        *(f"  {line}" for line in doc.example.splitlines()),
    ]
    lines += ["", "Source"]
    for reference in doc.references:
        clause = f", {reference.clause}" if reference.clause else ""
        lines.append(f"  {sources.get(reference.source)}{clause}")
    lines += [f"  published table: {table}" for table in calculation.tables.values()]
    return lines


def default_of(calculation: Calculation, argument: Argument) -> str:
    """Return in words what stands in for an argument left out."""
    if argument.default is None:
        table = calculation.tables.get(argument.name)
        return f"the published table {table}" if table else "none"
    return _value_said(value_of(argument.name, argument.default))


def result_of(calculation: Calculation) -> list[str]:
    """Return the name and SI unit of every number or word a calculation gives."""
    import dataclasses
    import inspect
    import typing

    from sendoff import units

    def unit(name: str) -> str:
        kind = units.kind_of_name(name)
        return f" [{units.SI_UNIT[kind] or '-'}]" if kind else ""

    returned = typing.get_type_hints(inspect.unwrap(calculation.function))["return"]
    if isinstance(returned, type) and dataclasses.is_dataclass(returned):
        return [f"{field.name}{unit(field.name)}" for field in dataclasses.fields(returned)]
    return [f"{calculation.gives}{unit(calculation.gives)}"]
