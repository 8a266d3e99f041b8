"""Natural sizes: what a number that was thought of in one unit system becomes in the other, by a rule for its kind.

A hard conversion chooses a new size, it does not print the old one in other units (NIST SP 811, B.7, rounds what is
kept; this chooses anew). Every rule is data below, with its source. Sizes are exact, in mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from plans.units import UNIT_MM, System, half_away, read_number

RuleName = Literal[
    "stock", "tool", "drill", "dowel", "radius", "screw", "nail", "bolt", "clearance", "free", "exact", "pair", "bought"
]

# how far a free length may go from what it was, for the sake of a tidy number: one part in forty. It lets 4 in be
# 100 mm and a foot 300 mm (1.6 %), as the trade does (common practice).
TOLERANCE = Fraction(1, 40)


@dataclass(frozen=True)
class Steps:
    """Steps to round a free length to, coarsest first, and the size (of its unit) up to which the finest is taken."""

    coarse: tuple[Fraction, ...]
    finest: Fraction
    small: Fraction = Fraction(0)  # below it the `finest` is taken, from it on the last of the `coarse` at least


def _sizes(text: str) -> tuple[Fraction, ...]:
    return tuple(read_number(one.strip()) for one in text.split(","))


STEPS: Mapping[System, Steps] = {
    "mm": Steps(_sizes("100, 50, 10, 5, 1"), Fraction(1, 2), Fraction(5)),
    "inch": Steps(_sizes("1, 1/2, 1/4, 1/8"), Fraction(1, 16), Fraction(5, 8)),
}

# Sizes that are sold, or that tools come in, in their own unit. Beyond the last, whole steps of `STEPS`.
SERIES: Mapping[RuleName, Mapping[System, tuple[Fraction, ...]]] = {
    # planed boards: the sizes a yard planes to and designs name (common practice)
    "stock": {
        "inch": _sizes(
            "1/8, 3/16, 1/4, 5/16, 3/8, 7/16, 1/2, 5/8, 3/4, 7/8, 1, 1 1/8, 1 1/4, 1 3/8, 1 1/2, 1 5/8, 1 3/4, 2, "
            "2 1/4, 2 1/2, 2 3/4, 3, 3 1/4, 3 1/2, 3 3/4"
        ),
        "mm": _sizes(
            "3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 44, 50, 55, 58, 60, 70, 75, 80, 90"
        ),
    },
    # mortise chisels, straight cutters and grooving blades as sold (common practice)
    "tool": {
        "inch": _sizes("1/16, 1/8, 3/16, 1/4, 5/16, 3/8, 7/16, 1/2, 9/16, 5/8, 3/4, 7/8, 1, 1 1/4, 1 1/2"),
        "mm": _sizes("1.5, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 30, 35, 40"),
    },
    # twist drills by 1/64 in and by 0.5 mm, larger bits by 1/8 in and as cup-hinge and plug bits are sold (ISO 235 and
    # ASME B94.11M hold finer series, from memory; common practice)
    "drill": {
        "inch": (*(Fraction(n, 64) for n in range(2, 33)), *(Fraction(n, 8) for n in range(5, 25))),
        "mm": (
            *(Fraction(n, 2) for n in range(2, 27)),
            *_sizes("14, 15, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75"),
        ),
    },
    # dowel rod, and pegs cut with its bits (common practice)
    "dowel": {
        "inch": _sizes("1/8, 3/16, 1/4, 5/16, 3/8, 7/16, 1/2, 5/8, 3/4, 7/8, 1"),
        "mm": _sizes("3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25"),
    },
    # rounding-over, cove and chamfer cutters by what they take off (common practice)
    "radius": {
        "inch": _sizes("1/32, 1/16, 1/8, 3/16, 1/4, 5/16, 3/8, 1/2, 5/8, 3/4, 7/8, 1, 1 1/4, 1 1/2"),
        "mm": _sizes("0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 18, 20, 25, 30, 35, 40"),
    },
    # lengths of wood screws (ASME B18.6.1 and DIN 97 list them, from memory)
    "screw": {
        "inch": _sizes("3/8, 1/2, 5/8, 3/4, 7/8, 1, 1 1/4, 1 1/2, 1 3/4, 2, 2 1/4, 2 1/2, 2 3/4, 3, 3 1/2, 4"),
        "mm": _sizes("10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100"),
    },
    # brads and finishing nails (common practice)
    "nail": {
        "inch": _sizes("1/2, 5/8, 3/4, 1, 1 1/4, 1 1/2, 1 3/4, 2, 2 1/2, 3"),
        "mm": _sizes("12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 75"),
    },
    # machine screws (ASME B18.2.1, ISO 4762 list them, from memory)
    "bolt": {
        "inch": _sizes("3/8, 1/2, 5/8, 3/4, 1, 1 1/4, 1 1/2, 1 3/4, 2, 2 1/4, 2 1/2, 2 3/4, 3, 3 1/2, 4"),
        "mm": _sizes("10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100"),
    },
}

# what is driven in may not come out on the far side: it may be no longer than this beyond what was written (mm)
DRIVEN = frozenset({"screw", "nail", "bolt"})
LONGER = Fraction(1)


def natural(mm: Fraction, rule: RuleName, system: System, at_most: Fraction | None = None) -> Fraction:
    """The natural size (mm) of a length above 0 in `system`, by `rule`; of a series, none above `at_most` (mm).

    What is bought is `at_most` thick, exact lengths stay, a clearance is rounded up, and nothing goes to nothing.
    """
    if rule == "bought":
        return mm if at_most is None else at_most
    if rule == "exact":
        return mm
    unit = UNIT_MM[system]
    value = mm / unit
    if rule == "clearance":
        return max(1, math.ceil(value / STEPS[system].finest)) * STEPS[system].finest * unit
    series = SERIES.get(rule, {}).get(system, ())
    if rule in DRIVEN:
        at_most = mm + LONGER
    if series and value <= series[-1]:
        return _nearest(value, series, at_most / unit if at_most is not None else None) * unit
    return _tidy(value, STEPS[system]) * unit


def _nearest(value: Fraction, series: Sequence[Fraction], at_most: Fraction | None) -> Fraction:
    """The nearest of the series, the smaller of two; at most so much, where one of them is not more."""
    allowed = [one for one in series if at_most is None or one <= at_most] or series[:1]
    return min(allowed, key=lambda one: (abs(one - value), one))


def _tidy(value: Fraction, steps: Steps) -> Fraction:
    """Rounded to the coarsest step that keeps within the tolerance, until that changes nothing more."""
    rounded = _once(value, steps)
    return rounded if rounded == value else _tidy(rounded, steps)


def _once(value: Fraction, steps: Steps) -> Fraction:
    for step in steps.coarse:
        rounded = half_away(value / step) * step
        if abs(rounded - value) <= TOLERANCE * value:
            return rounded
    step = steps.finest if value < steps.small else steps.coarse[-1]
    return max(1, half_away(value / step)) * step


def spelled(mm: Fraction, system: System) -> str:
    """A length as it is written in a design file: `440 mm`, `1 3/4 in`; in mm where it is no fraction of the inch that
    anybody marks."""
    value = mm / UNIT_MM[system]
    if system == "mm" or 64 % value.denominator:
        return f"{float(mm):.6f}".rstrip("0").rstrip(".") + " mm"
    whole, rest = divmod(value, 1)
    return " ".join(str(piece) for piece in (whole, rest) if piece or value == piece) + " in"
