"""Exact lengths and angles: reading numbers, rounding once, printing.

1 in = 25.4 mm exactly (international inch, 1959). Lengths that come from solids are floats; they are
first snapped to a grid of about a nanometre, which drops float noise and nothing a maker could
measure, and are exact `Fraction`s from there on. Rounding is done once, half away from zero.
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

System = Literal["inch", "mm"]

INCH = Fraction(254, 10)  # mm
FOOT = 12 * INCH
UNIT_MM: dict[System, Fraction] = {"inch": INCH, "mm": Fraction(1)}

FRACTION_SLASH = "\u2044"
VULGAR: dict[str, Fraction] = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}
# grid lines in a millimetre: half of 1/64 in is 127/640 mm, so that every tie lies on the grid
_GRID = 640 * 2000


def read_number(text: str) -> Fraction:
    """`1 3/4`, `3/4`, `1½`, `48`, `0.5` as an exact fraction.

    The text has already been seen to be a number (see formulas.lark). ZeroDivisionError for `1/0`.
    """
    if text[-1] in VULGAR:
        whole = text[:-1].strip()
        return (Fraction(whole) if whole else Fraction(0)) + VULGAR[text[-1]]
    return sum((Fraction(piece) for piece in text.replace(FRACTION_SLASH, "/").split()), Fraction(0))


def snapped(mm: float | Fraction) -> Fraction:
    """A float as the nearest exact fraction on the grid; a fraction as it is."""
    if isinstance(mm, Fraction):
        return mm
    return Fraction(round(mm * _GRID), _GRID)


def half_away(value: Fraction) -> int:
    """The nearest whole number; a half goes away from zero."""
    whole = math.floor(abs(value) + Fraction(1, 2))
    return whole if value >= 0 else -whole


def printed_value(mm: float | Fraction, step: Fraction) -> Fraction:
    """`mm` rounded to whole steps of `step` mm, exact."""
    return half_away(snapped(mm) / step) * step


def inches(mm: float | Fraction, step: Fraction) -> str:
    """Inches as a whole number and a reduced fraction, to `step` inches: `1 3⁄4`, `15⁄16`, `0`."""
    value = half_away(snapped(mm) / INCH / step) * step
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    if rest == 0:
        return f"{sign}{whole}"
    fraction = f"{rest.numerator}{FRACTION_SLASH}{rest.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def millimetres(mm: float | Fraction, step: Fraction) -> str:
    """Millimetres to `step` mm, without an empty decimal: `44.5`, `19`."""
    return _decimal(half_away(snapped(mm) / step) * step)


def round_degrees(angle: float, step: Fraction = Fraction(1, 10)) -> Fraction:
    """An angle to `step` of a degree, as it is printed."""
    return half_away(Fraction(round(angle * 10**9), 10**9) / step) * step


def degrees(angle: float, step: Fraction = Fraction(1, 10)) -> str:
    """Degrees to `step` of a degree: `8°`, `7.5°`."""
    return _decimal(round_degrees(angle, step)) + "°"


def _decimal(value: Fraction) -> str:
    """A fraction that has been rounded to a decimal step (0.001 or coarser), as text."""
    thousandths = half_away(value * 1000)
    whole, rest = divmod(abs(thousandths), 1000)
    decimals = f".{rest:03d}".rstrip("0") if rest else ""
    return f"{'-' if thousandths < 0 else ''}{whole}{decimals}"


def shown(mm: float, system: System) -> str:
    """A length with its unit, for messages: to 1/64 in or 0.01 mm."""
    if system == "inch":
        return f"{inches(mm, Fraction(1, 64))} in"
    return f"{millimetres(mm, Fraction(1, 100))} mm"


@dataclass(frozen=True)
class UnitSystem:
    """One of the two systems, and the finest `step` it is printed to (inches or mm)."""

    name: System
    step: Fraction

    @property
    def suffix(self) -> str:
        """What stands behind a number: `in` or `mm`."""
        return "in" if self.name == "inch" else "mm"

    @property
    def step_mm(self) -> Fraction:
        """The step in mm, exact."""
        return self.step * UNIT_MM[self.name]

    def length(self, mm: float | Fraction) -> str:
        """A length as printed, the number only."""
        return inches(mm, self.step) if self.name == "inch" else millimetres(mm, self.step)

    def round(self, mm: float | Fraction) -> float:
        """The printed number, as mm."""
        return float(printed_value(mm, self.step_mm))

    def floor(self, mm: float | Fraction) -> float:
        """The largest printable number that is not larger, as mm."""
        return float(math.floor(snapped(mm) / self.step_mm) * self.step_mm)

    def ceil(self, mm: float | Fraction) -> float:
        """The smallest printable number that is not smaller, as mm: for clearances."""
        return float(math.ceil(snapped(mm) / self.step_mm) * self.step_mm)
