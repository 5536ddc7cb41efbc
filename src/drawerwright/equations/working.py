"""The working of a value, read from the equation's own source: formula in words, then in figures.

One template is kept for each equation; it is made when first asked for.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from drawerwright.equations.equation import Equation
from drawerwright.equations.sheet import EquationError

_SIGNS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: (" + ", 1),
    ast.Sub: (" − ", 1),
    ast.Mult: (" × ", 2),
    ast.Div: (" / ", 2),
}
_ENDS = {"minimum": "least", "maximum": "greatest"}
_WHOLE = 9


@cache
def template(equation: Equation, left_out: frozenset[str] = frozenset()) -> str:
    """A format string of the equation's return expression with its parameters as fields.

    `left_out` parameters count as 0 and are not shown. Raises EquationError where the function is not one
    return of plain arithmetic.
    """
    tree = ast.parse(textwrap.dedent(inspect.getsource(equation.function)))
    function = tree.body[0]
    assert isinstance(function, ast.FunctionDef)
    returns = [node for node in ast.walk(function) if isinstance(node, ast.Return)]
    if len(returns) != 1 or returns[0].value is None or returns[0] not in function.body:
        raise EquationError(f"{equation.name}: an equation is one return expression")
    names = {**vars(inspect.getmodule(equation.function) or object())}
    return _Words(equation, names, left_out).text(returns[0].value)[0]


class _Words:
    def __init__(self, equation: Equation, names: Mapping[str, Any], left_out: frozenset[str]) -> None:
        self.equation = equation
        self.names = names
        self.left_out = left_out

    def text(self, node: ast.expr) -> tuple[str, int]:
        """The words of an expression and how tightly they hold together."""
        match node:
            case ast.Name(id=name) if name in self.left_out:
                return "0", _WHOLE
            case ast.Name(id=name) if name in self.equation.parameters:
                return "{" + name + "}", _WHOLE
            case ast.Name(id=name) if isinstance(self.names.get(name), int | float):
                return plain(float(self.names[name])), _WHOLE
            case ast.Constant(value=int() | float() as value):
                return plain(float(value)), _WHOLE
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return self._negative(operand)
            case ast.BinOp(left=left, op=operator, right=right) if type(operator) in _SIGNS:
                return self._pair(left, type(operator), right)
            case ast.Call(func=function, args=arguments):
                return self._call(function, arguments)
        raise EquationError(f"{self.equation.name}: cannot put {ast.unparse(node)} into words")

    def _negative(self, operand: ast.expr) -> tuple[str, int]:
        words = self._held(operand, 2)
        return ("0", _WHOLE) if words == "0" else (f"−{words}", 1)

    def _pair(self, left: ast.expr, operator: type[ast.operator], right: ast.expr) -> tuple[str, int]:
        first, second = self.text(left), self.text(right)
        if operator in (ast.Add, ast.Sub) and second[0] == "0":
            return first
        if operator is ast.Add and first[0] == "0":
            return second
        if operator is ast.Sub and first[0] == "0":
            return self._negative(right)
        if operator is ast.Mult and "0" in (first[0], second[0]):
            return "0", _WHOLE
        sign, rank = _SIGNS[operator]
        firmly = rank + (operator in (ast.Sub, ast.Div))
        return f"{_bracketed(first, rank)}{sign}{_bracketed(second, firmly)}", rank

    def _held(self, node: ast.expr, rank: int) -> str:
        return _bracketed(self.text(node), rank)

    def _call(self, function: ast.expr, arguments: list[ast.expr]) -> tuple[str, int]:
        if isinstance(function, ast.Attribute) and function.attr == "abs":
            return f"|{self.text(arguments[0])[0]}|", _WHOLE
        if isinstance(function, ast.Attribute) and function.attr == "deg2rad":
            return self.text(arguments[0])
        if isinstance(function, ast.Attribute) and function.attr in ("sin", "tan"):
            return f"{function.attr} {self._held(arguments[0], _WHOLE)}", _WHOLE
        if isinstance(function, ast.Attribute) and function.attr in _ENDS:
            items = [self.text(item)[0] for item in self._flat(function.attr, arguments)]
            return f"{_ENDS[function.attr]} of ({'; '.join(items)})", _WHOLE
        phrase = (
            getattr(self.names.get(function.id), "phrase", None) if isinstance(function, ast.Name) else None
        )
        if not isinstance(phrase, str):
            raise EquationError(f"{self.equation.name}: no words for {ast.unparse(function)}")
        return phrase.format(*[self.text(item)[0] for item in arguments]), 0

    def _flat(self, name: str, arguments: list[ast.expr]) -> Iterator[ast.expr]:
        """`minimum(a, minimum(b, c))` is the least of three."""
        for item in arguments:
            match item:
                case ast.Call(func=ast.Attribute(attr=inner), args=others) if inner == name:
                    yield from self._flat(name, others)
                case _:
                    yield item


def _bracketed(words: tuple[str, int], rank: int) -> str:
    return words[0] if words[1] >= rank else f"({words[0]})"


def plain(value: float, decimals: int = 3) -> str:
    """A number as a shop reads it: no trailing zeros, a true minus sign."""
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".") if decimals else f"{value:.0f}"
    if text in ("-0", ""):
        text = "0"
    return text.replace("-", "−")


def words_of(quantity: str) -> str:
    """A quantity's name as words; built and true values go by the name of what was cut or read."""
    return quantity.removeprefix("built_").removeprefix("true_").replace("_", " ")


def formula(equation: Equation, arguments: tuple[str, ...], left_out: frozenset[str] = frozenset()) -> str:
    """The equation in words, each quantity by its name; `left_out` arguments are not shown."""
    fields = dict(zip(equation.parameters, arguments, strict=True))
    names = {name: words_of(argument) for name, argument in fields.items()}
    return template(equation, _parameters(fields, left_out)).format_map(names)


def figures(
    equation: Equation,
    arguments: tuple[str, ...],
    values: Mapping[str, float],
    show: Callable[[str, float], str],
    left_out: frozenset[str] = frozenset(),
) -> str:
    """The equation with numbers in place; a negative one is held in brackets.

    `show(quantity, value)` writes a value in the units wanted; `left_out` arguments are not shown. A list,
    such as the heights kept, is no single value: no equation's words have room for one.
    """
    fields = dict(zip(equation.parameters, arguments, strict=True))
    shown = {}
    for name, argument in fields.items():
        if argument not in values:
            continue
        text = show(argument, values[argument])
        shown[name] = f"({text})" if text.startswith("−") else text
    return template(equation, _parameters(fields, left_out)).format_map(shown)


def _parameters(fields: Mapping[str, str], left_out: frozenset[str]) -> frozenset[str]:
    return frozenset(name for name, argument in fields.items() if argument in left_out)
