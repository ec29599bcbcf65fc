"""The slips that a mutation run makes, one at a time, in the bodies of functions.

Standard operators: a comparison, sum, product or `and` exchanged for its neighbour; a condition turned round; a number
one more; True for False; a string changed; a value lost (None); a statement left out; `break` for `continue`; `min` for
`max`, `any` for `all`. Left alone: docstrings, annotations, decorators, `assert`, what a module computes when it is
imported (tables, rule descriptions, defaults of options): the checks against published tables hold those.
"""

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass

Change = Callable[[], None]

COMPARE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd, ast.BitXor: ast.BitOr,
    ast.LShift: ast.RShift, ast.RShift: ast.LShift,
}  # fmt: skip
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any", "minimum": "maximum", "maximum": "minimum"}
COMPOUND = (ast.If, ast.For, ast.While, ast.With, ast.Try, ast.Match, ast.FunctionDef, ast.ClassDef)


@dataclass(frozen=True)
class Mutant:
    """One slip. `lines` are those of the statement (for a compound one, of its head): who runs them may notice."""

    function: str
    line: int
    what: str
    lines: tuple[int, int]
    do: Change
    undo: Change


def functions_of(tree: ast.Module) -> Iterator[tuple[str, ast.FunctionDef]]:
    """(name, node) of each function and method; one inside another belongs to it."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, node
        elif isinstance(node, ast.ClassDef):
            for inner in node.body:
                if isinstance(inner, ast.FunctionDef):
                    yield f"{node.name}.{inner.name}", inner


def mutants_of(tree: ast.Module) -> Iterator[Mutant]:
    """Every mutant of a module. Between `do` and `undo` the tree itself is changed."""
    for name, function in functions_of(tree):
        for statement in _statements(function.body):
            if isinstance(statement, (ast.Assert, ast.Import, ast.ImportFrom, ast.Pass)) or _is_docstring(statement):
                continue
            first, last = statement.lineno, statement.end_lineno or statement.lineno
            if isinstance(statement, COMPOUND):
                body = getattr(statement, "body", None) or getattr(statement, "cases", None)
                last = max(first, min(last, _line_of(body[0]) - 1)) if body else first
            for line, what, do, undo in _slips(statement):
                yield Mutant(name, line, what, (first, last), do, undo)


def _line_of(node: ast.AST) -> int:
    return node.pattern.lineno if isinstance(node, ast.match_case) else node.lineno  # type: ignore[attr-defined]


def _is_docstring(node: ast.stmt) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _statements(body: list[ast.stmt]) -> Iterator[ast.stmt]:
    for statement in body:
        yield statement
        for field in ("body", "orelse", "finalbody"):
            yield from _statements(getattr(statement, field, None) or [])
        for part in [*getattr(statement, "handlers", ()), *getattr(statement, "cases", ())]:
            yield from _statements(part.body)


Slip = tuple[int, str, Change, Change]


def _slips(statement: ast.stmt) -> Iterator[Slip]:
    """The slips of one statement, without those of the statements inside it."""
    yield from _of_statement(statement)
    for node in _own_nodes(statement):
        if isinstance(node, ast.Compare):
            for at, operator in enumerate(node.ops):
                yield from _exchange(node, node.ops, at, operator, COMPARE)
        elif isinstance(node, (ast.BinOp, ast.AugAssign)):
            if type(node.op) in ARITHMETIC:
                yield _field(
                    node, "op", ARITHMETIC[type(node.op)](), f"{_is(node.op)} for {_is(ARITHMETIC[type(node.op)]())}"
                )
        elif isinstance(node, ast.BoolOp):
            other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
            yield _field(node, "op", other, f"{_is(node.op)} for {_is(other)}")
        elif isinstance(node, ast.UnaryOp):
            if isinstance(node.op, ast.Not):
                yield _field(node, "operand", ast.UnaryOp(ast.Not(), node.operand), "without not")
            else:
                yield _field(node, "op", ast.UAdd(), f"without {_is(node.op)}")
        elif isinstance(node, ast.IfExp):
            yield _field(node, "test", ast.UnaryOp(ast.Not(), node.test), "condition turned round")
        elif isinstance(node, ast.comprehension):
            for at, test in enumerate(node.ifs):
                yield _item(node.ifs, at, ast.UnaryOp(ast.Not(), test), test.lineno, "condition turned round")
        elif isinstance(node, ast.Constant):
            yield from _constant(node)
        elif isinstance(node, ast.Name) and node.id in NAMES and isinstance(node.ctx, ast.Load):
            yield _field(node, "id", NAMES[node.id], f"{node.id} for {NAMES[node.id]}")
        elif isinstance(node, ast.Attribute) and node.attr in NAMES:
            yield _field(node, "attr", NAMES[node.attr], f"{node.attr} for {NAMES[node.attr]}")


def _of_statement(node: ast.stmt) -> Iterator[Slip]:
    if isinstance(node, ast.If):
        yield _field(node, "test", ast.UnaryOp(ast.Not(), node.test), "condition turned round", node.lineno)
    elif isinstance(node, ast.Return) and node.value is not None and not _is_none(node.value):
        yield _field(node, "value", ast.Constant(None), "returns None")
    elif isinstance(node, (ast.Assign, ast.AnnAssign)) and node.value is not None and not _is_none(node.value):
        yield _field(node, "value", ast.Constant(None), "value lost")
    elif isinstance(node, ast.Expr) and isinstance(node.value, (ast.Call, ast.Yield, ast.YieldFrom)):
        # `if 0: …` keeps the function a generator
        yield _field(node, "value", ast.IfExp(ast.Constant(0), node.value, ast.Constant(None)), "left out")
    elif isinstance(node, ast.AugAssign):
        yield _field(node, "value", ast.Constant(None), "value lost")


def _is_none(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def _own_nodes(statement: ast.stmt) -> Iterator[ast.AST]:
    """The expressions of a statement, annotations and decorators left out."""
    skip = {
        "annotation",
        "returns",
        "decorator_list",
        "args",
        "body",
        "orelse",
        "finalbody",
        "handlers",
        "cases",
        "type_ignores",
    }
    waiting: list[ast.AST] = [statement]
    while waiting:
        node = waiting.pop()
        yield node
        for field, value in ast.iter_fields(node):
            if field == "args" and isinstance(node, ast.Call):
                waiting += value
            elif field in ("body", "orelse") and isinstance(node, (ast.IfExp, ast.Lambda)):
                waiting.append(value)
            elif field not in skip:
                waiting += [
                    part for part in (value if isinstance(value, list) else [value]) if isinstance(part, ast.AST)
                ]


def _constant(node: ast.Constant) -> Iterator[Slip]:
    value = node.value
    if isinstance(value, bool):
        yield _field(node, "value", not value, f"{value} for {not value}")
    elif isinstance(value, (int, float)):
        yield _field(node, "value", value + 1, f"{value} for {value + 1}")
    elif isinstance(value, str):
        yield _field(node, "value", f"XX{value}", f"XX before {value[:20]!r}")


def _exchange(node: ast.expr, operators: list[ast.cmpop], at: int, operator: ast.cmpop,
              table: dict[type[ast.cmpop], type[ast.cmpop]]) -> Iterator[Slip]:  # fmt: skip
    other = table[type(operator)]()
    yield _item(operators, at, other, node.lineno, f"{_is(operator)} for {_is(other)}")


def _is(operator: ast.AST) -> str:
    return type(operator).__name__


def _field(node: ast.AST, name: str, new: object, what: str, line: int | None = None) -> Slip:
    old = getattr(node, name)
    at: int = line if line is not None else getattr(node, "lineno", 0)
    return at, what, lambda: setattr(node, name, new), lambda: setattr(node, name, old)


def _item(items: list, at: int, new: ast.AST, line: int, what: str) -> Slip:
    old = items[at]
    return line, what, lambda: items.__setitem__(at, new), lambda: items.__setitem__(at, old)
