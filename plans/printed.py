"""A design as its drawings say it: every length and angle rounded to the step it is printed to."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from plans.design import Design
from plans.readers import CutTarget, Position
from plans.shaping.turned import Diameter, Turned
from plans.spec import DesignSpec
from plans.units import System, UnitSystem, round_degrees

# not lengths, or bought and bored by a size of their own, or left to the hand of the maker
AS_THEY_ARE = frozenset(
    {"fit", "relief", "diameter", "gauge", "waste", "share", "moisture", "climate", "loads"}
    | {"lengths", "angles", "counts", "prices", "house", "measured"}
)
LATHE = (Turned, Diameter)  # their diameters are set with a calliper, not with a drill
ANGLES = frozenset({"angle", "slopes", "foot_to"})
# a screw is bought by a length that its name says exactly
BOUGHT = frozenset({"gauge", "long"})
# nobody planes a sheet: its thickness is what it is sold in
SOLD = frozenset({"thickness"})


def printed_design(design: Design, system: System) -> Design:
    """The same design with its lengths and angles as they are printed in one of the two systems."""
    units = design.units(system)
    spec = _rounded(design.spec, units)
    assert isinstance(spec, DesignSpec)
    return replace(design, spec=spec)


def _rounded(value: Any, units: UnitSystem) -> Any:
    """A value of the schema with every length in it rounded; everything else is as it was."""
    if isinstance(value, BaseModel):
        fields = {name: getattr(value, name) for name in type(value).model_fields}
        kept = BOUGHT if "through" in fields else SOLD if fields.get("sheet") else frozenset()
        changed = {
            name: _turned(field) if name in ANGLES else _rounded(field, units)
            for name, field in fields.items()
            if (name not in AS_THEY_ARE or isinstance(value, LATHE)) and name not in kept
        }
        return value.model_copy(update=changed)
    if isinstance(value, Position):
        return Position(value.terms, _step(value.offset, units))
    if isinstance(value, CutTarget):
        return CutTarget(value.part, None if value.level is None else _rounded(value.level, units))
    if isinstance(value, dict):
        return {key: _rounded(item, units) for key, item in value.items()}
    if isinstance(value, tuple):
        return tuple(_rounded(item, units) for item in value)
    return _step(value, units) if isinstance(value, float) else value


def _turned(value: Any) -> Any:
    """An angle, or angles by side, as printed."""
    if isinstance(value, dict):
        return {key: _turned(item) for key, item in value.items()}
    return float(round_degrees(value)) if isinstance(value, float) else value


def _step(mm: float, units: UnitSystem) -> float:
    """Rounded to the step, but never to nothing."""
    rounded = units.round(mm)
    return mm if rounded == 0.0 or abs(rounded - mm) < 1e-6 else rounded
