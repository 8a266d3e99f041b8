"""Formulas: from text to a `Quantity`. The grammar is in formulas.lark.

A bare number is plain until it is added to a length (then it is in the design's unit) or to an
angle (then it is degrees). A name or a side of a part is looked up by whoever asks.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any, Protocol

from lark import Lark, Token, Tree, UnexpectedInput

from plans.misread import check_text, misread
from plans.quantities import FUNCTIONS, Quantity, Refusal, add, divide, multiply, negative, tame
from plans.suggest import did_you_mean
from plans.units import FOOT, INCH, read_number


class Names(Protocol):
    """Looks up what stands in a formula. Both raise `Refusal` (without an offset) for what is not there."""

    def value(self, name: str) -> Quantity:
        """The value of a name."""

    def reference(self, part: str, what: str) -> Quantity:
        """A property of a part, or the place of a side; `part` may begin with `all `."""


@cache
def _parser() -> Lark:
    return Lark(
        files("plans").joinpath("formulas.lark").read_text(encoding="utf-8"),
        parser="lalr",
        maybe_placeholders=False,
        propagate_positions=True,
    )


def evaluate(text: str, names: Names, unit: Fraction) -> Quantity:
    """What the formula `text` comes to, bare lengths in `unit` mm; `Refusal` with an offset where it cannot be."""
    return _Worker(names, unit).work(parsed(text))


def parsed(text: str) -> Tree[Token]:
    """The formula `text` as a tree by the rules of formulas.lark; `Refusal` where it is none."""
    check_text(text)
    try:
        return _parser().parse(text)
    except UnexpectedInput as error:
        raise misread(text, error) from None


def typed_numbers(text: str) -> tuple[tuple[int, int], ...]:
    """Where in a formula numbers stand that are its terms, each from its first character to behind its last.

    `seat.left + 1 1/2 in` has one; `width * 3 / 4` has none, since its numbers are factors. A formula that cannot be
    read has none.
    """
    try:
        tree = _parser().parse(text)
    except UnexpectedInput:
        return ()
    terms = [tree] if tree.data != "sum" else [term for term in tree.children if isinstance(term, Tree)]
    bare = [term.children[-1] if term.data == "negated" else term for term in terms]
    return tuple(_reach(term) for term in bare if isinstance(term, Tree) and term.data == "quantity")


def names_nothing(text: str) -> bool:
    """Whether a formula is made of numbers only; not so where it cannot be read."""
    try:
        tree = _parser().parse(text)
    except UnexpectedInput:
        return False
    return not any(True for _ in tree.find_pred(lambda branch: branch.data in ("name", "reference")))


def _reach(tree: Tree[Token]) -> tuple[int, int]:
    tokens = [token for token in tree.children if isinstance(token, Token)]
    return tokens[0].start_pos or 0, tokens[-1].end_pos or 0


_UNITS: dict[str, Callable[[Fraction], Quantity]] = {
    "INCH": lambda number: Quantity(number * INCH, 1),
    "FOOT": lambda number: Quantity(number * FOOT, 1),
    "MM": lambda number: Quantity(number, 1),
    "DEGREE": lambda number: Quantity(number, 0, 1),
}


@dataclass(frozen=True)
class _Worker:
    """Works out a parsed formula. The depth of the tree is bounded by the brackets of the text."""

    names: Names
    unit: Fraction

    def work(self, tree: Tree[Token]) -> Quantity:
        """What `tree` comes to."""
        return _RULES[tree.data](self, tree)

    def sum(self, tree: Tree[Token]) -> Quantity:
        """A product, then signs and products in turn."""
        total = self._branch(tree, 0)
        for number in range(1, len(tree.children), 2):
            sign, term = tree.children[number], self._branch(tree, number + 1)
            with_sign = 1 if sign == "+" else -1
            total = self._placed(sign, add, total, term, self.unit, with_sign)
        return total

    def product(self, tree: Tree[Token]) -> Quantity:
        """A factor, then `*` or `/` and factors in turn."""
        total = self._branch(tree, 0)
        for number in range(1, len(tree.children), 2):
            operator, factor = tree.children[number], self._branch(tree, number + 1)
            assert isinstance(operator, Token)
            if operator == "/":
                _check_divisor(tree.children[number + 1])
            work = divide if operator == "/" else multiply
            total = self._placed(operator, work, total, factor)
        return total

    def negated(self, tree: Tree[Token]) -> Quantity:
        """Minus signs, then a value."""
        value = self._branch(tree, -1)
        return negative(value) if len(tree.children) % 2 == 0 else value

    def brackets(self, tree: Tree[Token]) -> Quantity:
        """What stands in brackets."""
        return self._branch(tree, 0)

    def quantity(self, tree: Tree[Token]) -> Quantity:
        """A number, with a unit or without; feet may be followed by inches."""
        tokens = [token for token in tree.children if isinstance(token, Token)]
        first = self._number(tokens[0])
        if len(tokens) == 1:
            return Quantity(first)
        total = _UNITS[tokens[1].type](first)
        if len(tokens) == 4:
            total = add(total, _UNITS[tokens[3].type](self._number(tokens[2])), self.unit)
        return self._placed(tokens[0], tame, total)

    def name(self, tree: Tree[Token]) -> Quantity:
        """A named value."""
        token = tree.children[0]
        return self._placed(token, self.names.value, str(token))

    def reference(self, tree: Tree[Token]) -> Quantity:
        """A property or a side of a part."""
        token = tree.children[0]
        part, _, what = str(token).rpartition(".")
        return self._placed(token, self.names.reference, " ".join(part.split()), what.strip())

    def call(self, tree: Tree[Token]) -> Quantity:
        """A function and its values."""
        token = tree.children[0]
        name = str(token)
        if name not in FUNCTIONS:
            hint = did_you_mean(name, FUNCTIONS) or "there are min, max, sqrt, sin, cos and tan"
            raise Refusal("unknown-function", f"there is no function `{name}`", hint, _start(token))
        given = [self._branch(tree, number) for number in range(1, len(tree.children))]
        if any(quantity.terms for quantity in given):
            message = f"`{name}` needs a number, and the place of a side is found only when the piece is built"
            raise Refusal("not-measured-yet", message, "use stated lengths", _start(token))
        if FUNCTIONS[name].most == 1 and len(given) > 1:
            raise Refusal("formula-syntax", f"`{name}` takes one value", "take the others out", _start(token))
        return self._placed(token, FUNCTIONS[name].work, given, self.unit)

    def _branch(self, tree: Tree[Token], number: int) -> Quantity:
        branch = tree.children[number]
        assert isinstance(branch, Tree)
        return self.work(branch)

    def _number(self, token: Token) -> Fraction:
        try:
            return read_number(str(token))
        except ZeroDivisionError:
            raise Refusal("no-result", f"`{token}` divides by zero", "check the fraction", _start(token)) from None

    def _placed(self, token: Token | Tree[Token], work: Callable[..., Quantity], *given: Any) -> Quantity:
        """What `work` makes of `given`; a refusal is placed at `token`."""
        try:
            return work(*given)
        except Refusal as refusal:
            refusal.offset = refusal.offset or _start(token)
            raise


def _start(token: Token | Tree[Token]) -> int:
    return token.start_pos or 0 if isinstance(token, Token) else 0


def _check_divisor(branch: Token | Tree[Token]) -> None:
    """`a / 3/4` is refused: it could be a/(3/4) or (a/3)/4."""
    assert isinstance(branch, Tree)
    if branch.data not in ("quantity", "negated"):
        return
    numbers = [token for token in branch.scan_values(lambda value: isinstance(value, Token)) if token.type == "NUMBER"]
    if numbers and re.fullmatch(r"\d+[/⁄]\d+", str(numbers[0])):
        number = numbers[0]
        hint = f"write `/ ({number})`, or blanks on both sides of each `/`"
        raise Refusal("two-readings", f"dividing by `{number}` can be read in two ways", hint, _start(number))


_RULES: dict[str, Callable[[_Worker, Tree[Token]], Quantity]] = {
    "sum": _Worker.sum,
    "product": _Worker.product,
    "negated": _Worker.negated,
    "brackets": _Worker.brackets,
    "quantity": _Worker.quantity,
    "name": _Worker.name,
    "reference": _Worker.reference,
    "call": _Worker.call,
}
