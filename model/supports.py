"""Where a part is held up along its length, and how it bends between.

Straight beams with pinned ends, the textbook formulas (Wood Handbook, chapter 9); stiffness of the wood at 12 %
moisture. Every result is a rule-of-thumb estimate: joints give, wood varies by a fifth, and under a load that stays
wood creeps to about twice its first sag (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from model.grain import grain, thick_axis
from model.piece import Part, Piece
from plans.library import species
from plans.spec import Load

POUND_FORCE = 4.4482216152605  # N, exact to the digits given (NIST SP 811)
GRAVITY = 9.80665
PSF = POUND_FORCE / 304.8**2  # N/mm2
SAME = 20.0  # mm: supports nearer than this are one


@dataclass(frozen=True)
class Sag:
    """A loaded part: its longest span between supports, the sag there, and what is allowed (mm)."""

    load: Load
    part: Part
    span: float
    sag: float
    allowed: float


def uniform_sag(load: float, span: float, stiffness: float, inertia: float) -> float:
    """Sag (mm) under `load` N/mm all along a span (mm); stiffness in MPa, inertia in mm4: 5 w L^4 / 384 E I."""
    return 5.0 * load * span**4 / (384.0 * stiffness * inertia)


def middle_sag(force: float, span: float, stiffness: float, inertia: float) -> float:
    """Sag (mm) under `force` N in the middle: P L^3 / 48 E I."""
    return force * span**3 / (48.0 * stiffness * inertia)


def spans(piece: Piece, part: Part) -> list[float]:
    """Distances between neighbouring supports along the grain of a part (mm): its joints and its fixings."""
    run = grain(part)
    places = [float(np.array(j.point) @ run) for j in piece.joints if part.name in (j.a, j.b)]
    for fixing in piece.fixings:
        if part.name in (fixing.through, fixing.into):
            places.append(float(np.mean([np.array(point) @ run for point in fixing.points])))
            if len(fixing.points) > 1 and _alongside(piece, part, fixing.through, fixing.into):
                places += [float(np.array(point) @ run) for point in fixing.points]
    places.sort()
    apart = [b - a for a, b in pairwise(places) if b - a > SAME]
    return apart


def _alongside(piece: Piece, part: Part, *names: str) -> bool:
    other = next(piece.parts[name] for name in names if name != part.name)
    return abs(float(grain(other) @ grain(part))) > 0.9


def sags(piece: Piece, limit: float) -> list[Sag]:
    """Every stated load on every part that bears it, where the wood and two supports are known; allowed span/limit."""
    found = []
    for load in piece.design.spec.loads:
        bearers = [part for part in piece.parts.values() if part.kind == load.part]
        for part in bearers:
            wood, apart = species(part.spec.wood), spans(piece, part)
            if wood is None or not apart or abs(float(grain(part)[2])) > 0.7:
                continue
            span = max(apart)
            found.append(Sag(load, part, span, _sag(load, part, span, wood.stiffness, len(bearers)), span / limit))
    return found


def _sag(load: Load, part: Part, span: float, stiffness: float, sharers: int) -> float:
    deep, broad = _section(part)
    inertia = broad * deep**3 / 12.0
    if load.at == "middle":
        return middle_sag(weight(load, part, sharers), span, stiffness, inertia)
    length = part.length[1] - part.length[0]
    return uniform_sag(weight(load, part, sharers) / length, span, stiffness, inertia)


def _section(part: Part) -> tuple[float, float]:
    """Depth and breadth of the part as it lies (mm)."""
    upright = abs(float(thick_axis(part)[2])) > 0.7
    _, width, thickness = part.over_all
    return (thickness, width) if upright else (width, thickness)


def weight(load: Load, part: Part, sharers: int) -> float:
    """The part's share of a load (N)."""
    length = part.length[1] - part.length[0]
    area = length * _section(part)[1]
    if load.pounds is not None:
        return load.pounds * POUND_FORCE / sharers
    if load.kilograms is not None:
        return load.kilograms * GRAVITY / sharers
    if load.pounds_per_square_foot is not None:
        return load.pounds_per_square_foot * PSF * area
    return (load.kilograms_per_square_metre or 0.0) * GRAVITY / 1e6 * area
