"""The literal lengths of a formula: where each stands in the text, and how long it is.

`leg.left + 1/4` holds one, `2 * (a + 1/4)` one too: the 2 counts, and measures nothing. What a bare number measures is
worked out as `plans/quantities.py` does it: beside a length it is a length in the design's unit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce

from lark import Token, Tree

from plans.formulas import parsed
from plans.quantities import Refusal
from plans.units import UNIT_MM, System, read_number

Dimension = tuple[int, int]  # powers of length and of angle
DimensionOf = Callable[[str], Dimension]  # of a name
PLAIN: Dimension = (0, 0)
LENGTH: Dimension = (1, 0)
_UNITS: dict[str, tuple[System, int]] = {"INCH": ("inch", 1), "FOOT": ("inch", 12), "MM": ("mm", 1)}


@dataclass(frozen=True)
class Literal:
    """The characters from `start` to `end` are a length of `mm`, written in `system`.

    Where `start` is `end`, no literal makes a length of the plain number that ends there: it counts so many of the
    design's unit, which are `mm` each.
    """

    start: int
    end: int
    mm: Fraction
    system: System
    bare: bool = True  # its unit is not written, but that of the design

    @property
    def is_unit(self) -> bool:
        """Whether it is the unit that a plain number counts, and stands nowhere in the text."""
        return self.start == self.end


def literals(text: str, dimension_of: DimensionOf, units: System) -> list[Literal]:
    """The literal lengths of a formula that is to come to a length, as written. `Refusal` where it cannot be read."""
    return list(_Finder(dimension_of, units).lengths(parsed(text), lifted=True))


@dataclass(frozen=True)
class _Finder:
    dimension_of: DimensionOf
    units: System

    def lengths(self, tree: Tree[Token], lifted: bool) -> Iterator[Literal]:
        """The literal lengths below `tree`; `lifted`: if it comes to a plain number, that is made a length."""
        if lifted and self.dimension(tree) == PLAIN:
            yield from self._lifted(tree)
        elif tree.data == "quantity":
            yield from self._with_a_unit(tree)
        elif tree.data == "sum" or _call(tree) in ("min", "max"):
            branches = _branches(tree)
            beside = any(self.dimension(branch) == LENGTH for branch in branches)
            for branch in branches:
                yield from self.lengths(branch, beside)
        else:
            for branch in _branches(tree):
                yield from self.lengths(branch, False)

    def _lifted(self, tree: Tree[Token]) -> Iterator[Literal]:
        """Of what comes to a plain number and is made a length: each number that then is one."""
        if _is_number(tree):
            yield Literal(*_span(tree), _value(tree) * UNIT_MM[self.units], self.units)
        elif tree.data in ("sum", "brackets", "negated") or _call(tree) in ("min", "max"):
            for branch in _branches(tree):
                yield from self._lifted(branch)
        elif (factor := _factor(tree)) is not None:
            for branch in _branches(tree):
                yield from self._lifted(branch) if branch is factor else self.lengths(branch, False)
        else:
            for branch in _branches(tree):
                yield from self.lengths(branch, False)
            end = _span(tree)[1]
            yield Literal(end, end, UNIT_MM[self.units], self.units)

    def _with_a_unit(self, tree: Tree[Token]) -> Iterator[Literal]:
        tokens = _tokens(tree)
        units = [_UNITS[token.type] for token in tokens[1::2] if token.type in _UNITS]
        if units:
            pairs = zip(tokens[::2], units, strict=True)
            mm = sum((read_number(str(number)) * UNIT_MM[unit] * many for number, (unit, many) in pairs), Fraction(0))
            yield Literal(*_span(tree), mm, units[0][0], bare=False)

    def dimension(self, tree: Tree[Token]) -> Dimension:
        """What a branch comes to, where it comes to anything."""
        if tree.data == "quantity":
            units = {token.type for token in _tokens(tree)}
            return (0, 1) if "DEGREE" in units else LENGTH if units & _UNITS.keys() else PLAIN
        if tree.data == "name":
            return self.dimension_of(str(tree.children[0]))
        if tree.data == "reference":
            return LENGTH
        each = [self.dimension(branch) for branch in _branches(tree)]
        if tree.data == "product":
            signs = [-1 if str(token) == "/" else 1 for token in _tokens(tree)]
            return reduce(_times, zip(each[1:], signs, strict=True), each[0])
        called = _call(tree)
        if called == "sqrt":
            return each[0][0] // 2, each[0][1] // 2
        return PLAIN if called in ("sin", "cos", "tan") else max(each)


def _times(one: Dimension, factor: tuple[Dimension, int]) -> Dimension:
    (length, angle), sign = factor
    return one[0] + sign * length, one[1] + sign * angle


def _branches(tree: Tree[Token]) -> list[Tree[Token]]:
    return [child for child in tree.children if isinstance(child, Tree)]


def _tokens(tree: Tree[Token]) -> list[Token]:
    return [child for child in tree.children if isinstance(child, Token)]


def _call(tree: Tree[Token]) -> str:
    """The function that is called; nothing where none is."""
    return str(tree.children[0]) if tree.data == "call" else ""


def _is_number(tree: Tree[Token]) -> bool:
    return tree.data == "quantity" and len(tree.children) == 1


def _value(tree: Tree[Token]) -> Fraction:
    try:
        return read_number(str(tree.children[0]))
    except ZeroDivisionError:
        raise Refusal("no-result", "this divides by zero") from None


def _factor(tree: Tree[Token]) -> Tree[Token] | None:
    """The last number among the factors of a product: the length that the others count."""
    if tree.data != "product":
        return None
    signs = ["*", *(str(token) for token in _tokens(tree))]
    factors = [branch for branch, sign in zip(_branches(tree), signs, strict=True) if sign != "/"]
    return next((branch for branch in reversed(factors) if _is_number(branch)), None)


def _span(tree: Tree[Token]) -> tuple[int, int]:
    """Its first and last character, brackets and all."""
    return tree.meta.start_pos, tree.meta.end_pos
