"""Small faults planted in calculations one at a time, and whether the tests notice: mutation testing.

A mutant is one change of one node of a module's syntax tree: a comparison turned, a sum made a difference, a number
altered, a guard left out, a condition held true or false. The module's functions are given the mutant's code in a
forked process, where the worked examples of the family, its doctests and its property tests are run until one fails.
Texts, docstrings, decorators and annotations are left alone: they are looked at by other tests.
"""

from __future__ import annotations

import ast
import copy
import doctest
import importlib
import inspect
import io
import os
import signal
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any, Final

ROOT: Final = Path(__file__).resolve().parents[1]
PATIENCE_s: Final = 90
"""A mutant that runs longer than this has hung, and was noticed."""

_COMPARED: Final[dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
_REASONED: Final[dict[type[ast.operator], type[ast.operator]]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}
_CALLED: Final = {
    "min": "max",
    "max": "min",
    "sin": "cos",
    "cos": "sin",
    "ceil": "floor",
    "floor": "ceil",
    "exceeds": "reaches",
}


@dataclass(frozen=True)
class Mutant:
    """One planted fault: where it is, and what was changed to what."""

    module: str
    function: str
    before: str
    after: str
    number: int
    """Tells apart the same change made at several places of one function."""

    @property
    def name(self) -> str:
        """The name it has in lists: it does not move when lines do."""
        again = f" [{self.number}]" if self.number else ""
        return f"{self.module}.{self.function}: {self.before}  ->  {self.after}{again}"


def mutants(source: str, module: str) -> Iterator[tuple[Mutant, ast.Module]]:
    """Return every mutant of a module with its changed syntax tree."""
    tree = ast.parse(source)
    seen: Counter[tuple[str, str, str]] = Counter()
    for function, path in _places(tree):
        for before, after, change in _changes(_at(tree, path)):
            changed = copy.deepcopy(tree)
            change(_at(changed, path[:-1]), path[-1])
            key = (function, before, after)
            yield Mutant(module, function, before, after, seen[key]), ast.fix_missing_locations(changed)
            seen[key] += 1


Path_ = tuple[tuple[str, int | None], ...]


def _at(node: Any, path: Sequence[tuple[str, int | None]]) -> Any:
    for field, index in path:
        node = getattr(node, field)
        if index is not None:
            node = node[index]
    return node


def _places(tree: ast.Module) -> Iterator[tuple[str, Path_]]:
    """Walk the code of functions and module constants, and nothing else."""
    for index, statement in enumerate(tree.body):
        here: Path_ = (("body", index),)
        if isinstance(statement, ast.FunctionDef):
            for number, part in enumerate(statement.body):
                if number == 0 and isinstance(part, ast.Expr) and isinstance(part.value, ast.Constant):
                    continue  # the docstring
                yield from _walk(part, (*here, ("body", number)), statement.name)
            for name in ("defaults", "kw_defaults"):
                for number, default in enumerate(getattr(statement.args, name)):
                    if default is not None:
                        yield from _walk(default, (*here, ("args", None), (name, number)), statement.name)
        elif isinstance(statement, ast.Assign | ast.AnnAssign) and statement.value is not None:
            target = statement.target if isinstance(statement, ast.AnnAssign) else statement.targets[0]
            name = target.id if isinstance(target, ast.Name) else "?"
            if not isinstance(statement.value, ast.Subscript):  # not a type alias
                yield from _walk(statement.value, (*here, ("value", None)), name)


def _walk(node: ast.AST, path: Path_, function: str) -> Iterator[tuple[str, Path_]]:
    if isinstance(node, ast.Raise | ast.JoinedStr):
        return  # messages
    yield function, path
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "decorator_list"} or getattr(node, "arg", "") == "strict":
            continue  # zip(..., strict=True) of lists already held to one length
        if isinstance(value, list):
            for index, item in enumerate(value):
                if isinstance(item, ast.AST):
                    yield from _walk(item, (*path, (field, index)), function)
        elif isinstance(value, ast.AST):
            yield from _walk(value, (*path, (field, None)), function)


Change = Callable[[Any, tuple[str, int | None]], None]


def _put(new: ast.AST) -> Change:
    def change(parent: Any, step: tuple[str, int | None]) -> None:
        field, index = step
        if index is None:
            setattr(parent, field, new)
        else:
            getattr(parent, field)[index] = new

    return change


def _changes(node: ast.AST) -> Iterator[tuple[str, str, Change]]:
    for new in _others(node):
        yield _said(node), _said(new), _put(new)


def _said(node: ast.AST) -> str:
    return " ".join(ast.unparse(node).split())[:90]


def _others(node: ast.AST) -> Iterator[ast.AST]:  # noqa: C901, PLR0912  one branch for each kind of fault
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        for operator in _COMPARED.get(type(node.ops[0]), ()):
            yield ast.Compare(node.left, [operator()], node.comparators)
    elif isinstance(node, ast.Compare):
        for index, old in enumerate(node.ops):
            for operator in _COMPARED.get(type(old), ())[:1]:
                yield ast.Compare(
                    node.left, [*node.ops[:index], operator(), *node.ops[index + 1 :]], node.comparators
                )
    elif isinstance(node, ast.BinOp) and type(node.op) in _REASONED:
        if not _is_text(node):
            yield ast.BinOp(node.left, _REASONED[type(node.op)](), node.right)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield node.operand
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int):
        yield ast.Constant(node.value + 1)
    elif isinstance(node, ast.Constant) and isinstance(node.value, float):
        # a hair that forgives rounding is made a beam, anything else a quarter more
        yield ast.Constant(1.0 if not node.value else node.value * (1e6 if abs(node.value) < 1e-6 else 1.25))
    elif isinstance(node, ast.Call):
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if name in _CALLED:
            func = copy.deepcopy(node.func)
            setattr(func, "attr" if isinstance(func, ast.Attribute) else "id", _CALLED[name])
            yield ast.Call(func, node.args, node.keywords)
    elif isinstance(node, ast.If):
        yield ast.If(ast.Constant(value=True), node.body, node.orelse)
        yield ast.If(ast.Constant(value=False), node.body, node.orelse)
    elif isinstance(node, ast.IfExp):
        yield node.body
        yield node.orelse
    elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield ast.Pass()
    elif isinstance(node, ast.AugAssign) and type(node.op) in _REASONED:
        yield ast.AugAssign(node.target, _REASONED[type(node.op)](), node.value)


def _is_text(node: ast.AST) -> bool:
    return any(
        isinstance(part, ast.JoinedStr) or (isinstance(part, ast.Constant) and isinstance(part.value, str))
        for part in ast.walk(node)
    )


def plant(tree: ast.Module, module: ModuleType) -> None:
    """Give the functions and constants of a loaded module the code and values of a mutant."""
    space: dict[str, Any] = {"__name__": f"{module.__name__}__mutant", "__file__": module.__file__}
    sys.modules[space["__name__"]] = ModuleType(space["__name__"])  # dataclasses look their module up
    stripped = copy.deepcopy(tree)
    for statement in stripped.body:
        if isinstance(statement, ast.FunctionDef):
            statement.decorator_list = []
    exec(compile(stripped, str(module.__file__), "exec"), space)
    for name, new in list(space.items()):
        old = module.__dict__.get(name)
        if isinstance(new, FunctionType) and new.__globals__ is space and old is not None:
            body = inspect.unwrap(old)
            body.__code__ = new.__code__.replace(co_filename=body.__code__.co_filename)
            body.__defaults__, body.__kwdefaults__ = new.__defaults__, new.__kwdefaults__
        elif (
            isinstance(new, int | float | str | tuple | dict | frozenset)
            and not name.startswith("__")
            and new != old
        ):
            for other in list(sys.modules.values()):
                if getattr(other, "__name__", "").startswith("sendoff") and other.__dict__.get(name) is old:
                    other.__dict__[name] = new


@dataclass(frozen=True)
class Suite:
    """The tests of one family: its worked examples, its doctests, and files for pytest."""

    family: str
    files: tuple[str, ...]

    def notices(self, module: ModuleType) -> bool:
        """Whether any test fails."""
        looks = (
            self._examples_fail,
            self._refusals_fail,
            lambda: self._doctests_fail(module),
            self._files_fail,
        )
        return any(look() for look in looks)

    def _examples_fail(self) -> bool:
        cases = importlib.import_module("tests.calc.test_cases")
        for case in cases.CASES:
            if case["family"] == self.family:
                try:
                    cases.test_the_case_comes_out_as_its_source_says(case)
                except BaseException:  # noqa: BLE001  any failure is notice enough
                    return True
        return False

    def _refusals_fail(self) -> bool:
        refusals = importlib.import_module("tests.calc.test_refusals")
        for test, asked in refusals.ALL:
            for arguments in asked:
                if self._is_mine(arguments[0]):
                    try:
                        test(*arguments)
                    except BaseException:  # noqa: BLE001  any failure is notice enough
                        return True
        return False

    def _is_mine(self, name: str) -> bool:
        from sendoff.calc import calculations

        return calculations()[name].family == self.family

    def _doctests_fail(self, module: ModuleType) -> bool:
        flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS
        runner = doctest.DocTestRunner(verbose=False, optionflags=flags)
        found = doctest.DocTestFinder().find(module)
        return any(runner.run(test, out=lambda _: None).failed for test in found)

    def _files_fail(self) -> bool:
        import pytest

        asked = [
            "-x",
            "-q",
            "-p",
            "no:cacheprovider",
            "-p",
            "no:xdist",
            *(str(ROOT / file) for file in self.files),
        ]
        return bool(self.files) and pytest.main(asked) != 0


def is_noticed(tree: ast.Module, module: ModuleType, suite: Suite) -> bool:
    """Plant a mutant in a process of its own and run the suite there."""
    child = os.fork()
    if child == 0:
        code = 1  # noticed, unless everything passes
        try:
            signal.alarm(PATIENCE_s)
            with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
                plant(tree, module)
                code = 1 if suite.notices(module) else 0
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) != 0
