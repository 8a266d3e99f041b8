"""Numbers that know what they measure: plain, a length, an area, an angle, or a place.

Values are exact `Fraction`s in mm, mm² and degrees as long as they can be; only roots and
trigonometry make floats. A place is a length that also counts sides of parts (`terms`).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

Number = Fraction | float
Reference = tuple[str, str, bool]  # part, side, every one of its kind

LARGEST = 10**12  # mm, mm², degrees or plain: beyond it nothing is furniture
FINEST_BITS = 256  # of a denominator kept exact


class Refusal(Exception):
    """A formula that cannot be worked out. Caught by whoever reads a field; never leaves the room.

    `offset` counts characters into the formula; `chain` the formulas that led here. With `told`
    the reason is (or will be) reported where it stands, and need not be reported again. `member` is the
    half of a pair it stands in; with `at_key` it is the key that is wrong and not the value.
    """

    member: str = ""

    def __init__(
        self,
        code: str,
        message: str,
        hint: str = "",
        offset: int = 0,
        chain: tuple[str, ...] = (),
        told: bool = False,
        at_key: bool = False,
    ) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.hint = hint
        self.offset = offset
        self.chain = chain
        self.told = told
        self.at_key = at_key


@dataclass(frozen=True)
class Quantity:
    """`value` in mm^`length` · degree^`angle`, plus `terms`: factors of the places of sides, in mm."""

    value: Number
    length: int = 0
    angle: int = 0
    terms: dict[Reference, Number] = field(default_factory=dict)

    @property
    def dimension(self) -> tuple[int, int]:
        """The powers of length and of angle."""
        return self.length, self.angle

    @property
    def is_plain(self) -> bool:
        """A number that measures nothing yet."""
        return self.dimension == (0, 0)

    @property
    def kind(self) -> str:
        """What it is, in words."""
        if self.terms:
            return "the place of a side"
        return _KINDS.get(self.dimension, "a product of lengths and angles")


_KINDS = {(0, 0): "a plain number", (1, 0): "a length", (2, 0): "an area", (3, 0): "a volume", (0, 1): "an angle"}


def tame(quantity: Quantity) -> Quantity:
    """The same, made float where its fraction has grown too fine; refused where it is out of all reason."""
    value = quantity.value
    if not abs(float(value)) <= LARGEST:
        raise Refusal("number-too-large", "this comes to a number out of all reason", "check the formula")
    if isinstance(value, Fraction) and value.denominator.bit_length() > FINEST_BITS:
        return Quantity(float(value), quantity.length, quantity.angle, quantity.terms)
    return quantity


def as_length(quantity: Quantity, unit: Fraction) -> Quantity:
    """A plain number as a length of that many `unit` (mm); anything else as it is."""
    return Quantity(quantity.value * unit, 1) if quantity.is_plain else quantity


def as_angle(quantity: Quantity) -> Quantity:
    """A plain number as degrees; anything else as it is."""
    return Quantity(quantity.value, 0, 1) if quantity.is_plain else quantity


def alike(a: Quantity, b: Quantity, unit: Fraction) -> tuple[Quantity, Quantity]:
    """Both as the same kind: beside a length a plain number is a length, beside an angle it is degrees."""
    if a.dimension == b.dimension:
        return a, b
    for one, other in ((a, b), (b, a)):
        if one.is_plain and other.dimension in ((1, 0), (0, 1)):
            lift = as_length(one, unit) if other.length else as_angle(one)
            return (lift, other) if one is a else (other, lift)
    raise Refusal(
        "wrong-unit", f"{a.kind} and {b.kind} cannot be added or compared", "both must be lengths, or both angles"
    )


def add(a: Quantity, b: Quantity, unit: Fraction, sign: int = 1) -> Quantity:
    """a + sign·b, where a bare number beside a length means that many `unit` (mm)."""
    a, b = alike(a, b, unit)
    terms = dict(a.terms)
    for reference, factor in b.terms.items():
        terms[reference] = terms.get(reference, Fraction(0)) + sign * factor
    kept = {reference: factor for reference, factor in terms.items() if factor != 0}
    return tame(Quantity(a.value + sign * b.value, a.length, a.angle, kept))


def negative(a: Quantity) -> Quantity:
    """-a."""
    return Quantity(-a.value, a.length, a.angle, {reference: -factor for reference, factor in a.terms.items()})


def multiply(a: Quantity, b: Quantity) -> Quantity:
    """a · b."""
    for one, other in ((a, b), (b, a)):
        if one.terms:
            if not other.is_plain:
                raise Refusal(
                    "wrong-unit", f"the place of a side cannot be multiplied by {other.kind}", "only by a plain number"
                )
            terms = {reference: factor * other.value for reference, factor in one.terms.items()}
            return tame(Quantity(one.value * other.value, one.length, one.angle, terms))
    return tame(Quantity(a.value * b.value, a.length + b.length, a.angle + b.angle))


def divide(a: Quantity, b: Quantity) -> Quantity:
    """a / b."""
    if b.terms:
        raise Refusal("wrong-unit", "nothing can be divided by the place of a side", "divide by a length or a number")
    if b.value == 0:
        raise Refusal("no-result", "this divides by zero", "check the values that come to 0")
    terms = {reference: factor / b.value for reference, factor in a.terms.items()}
    if terms and not b.is_plain:
        raise Refusal("wrong-unit", f"the place of a side cannot be divided by {b.kind}", "only by a plain number")
    return tame(Quantity(a.value / b.value, a.length - b.length, a.angle - b.angle, terms))


def _outermost(pick: Callable[[Number, Number], Number]) -> Callable[[list[Quantity], Fraction], Quantity]:
    def chosen(given: list[Quantity], unit: Fraction) -> Quantity:
        result = given[0]
        for other in given[1:]:
            result, other = alike(result, other, unit)
            result = Quantity(pick(result.value, other.value), result.length, result.angle)
        return result

    return chosen


def _root(given: list[Quantity], unit: Fraction) -> Quantity:
    (a,) = given
    if a.length % 2 or a.angle:
        raise Refusal(
            "wrong-unit", f"the root of {a.kind} has no meaning", "take the root of an area or a plain number"
        )
    if a.value < 0:
        raise Refusal("no-result", "this is the root of a number below zero", "check the values under the root")
    return Quantity(exact_root(a.value), a.length // 2)


def exact_root(value: Number) -> Number:
    """The square root, exact where it is a fraction itself."""
    if isinstance(value, Fraction):
        top, bottom = math.isqrt(value.numerator), math.isqrt(value.denominator)
        if top * top == value.numerator and bottom * bottom == value.denominator:
            return Fraction(top, bottom)
    return math.sqrt(value)


def _of_angle(function: Callable[[float], float]) -> Callable[[list[Quantity], Fraction], Quantity]:
    def turned(given: list[Quantity], unit: Fraction) -> Quantity:
        (a,) = given
        if as_angle(a).dimension != (0, 1):
            raise Refusal("wrong-unit", f"an angle is needed here, and this is {a.kind}", "give degrees")
        return tame(Quantity(function(math.radians(a.value))))

    return turned


@dataclass(frozen=True)
class Function:
    """A function of formulas: how many values it takes (`most` None: any number), and what it makes of them."""

    work: Callable[[list[Quantity], Fraction], Quantity]
    most: int | None = 1


FUNCTIONS: dict[str, Function] = {
    "min": Function(_outermost(min), None),
    "max": Function(_outermost(max), None),
    "sqrt": Function(_root),
    "sin": Function(_of_angle(math.sin)),
    "cos": Function(_of_angle(math.cos)),
    "tan": Function(_of_angle(math.tan)),
}
