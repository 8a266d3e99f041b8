"""Settings of saws, cutters and stops, taken off the work on each part, so that one setting can serve all that need it.

A setting has a first value, by which the machine is set, and others that are set after it (a stop, a depth).
Lengths in mm, angles in degrees; None where a hole or a slot goes right through.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from model.cut_list import CutRow, cut_list
from model.piece import Feature, Item, Part, Piece, Value
from plans.library import dressed
from plans.sides import OPPOSITE, SIDE_AXIS

SQUARE = 0.05  # degrees: less cannot be set


@dataclass(frozen=True)
class Setting:
    """What is set for one thing done: its kind, the first value, those after it; `places` of it in one part."""

    kind: str
    first: Value
    then: tuple[Value, ...] = ()
    places: int = 1


@dataclass(frozen=True)
class SetUp:
    """A setting and a line of the cut list that needs it; `mark` is that of the part, or of the board of a part."""

    setting: Setting
    item: Item
    mark: str

    @property
    def cuts(self) -> int:
        """How often the setting is used, in all parts alike."""
        return self.setting.places * self.item.quantity


Take = Callable[[Part, Feature], list[Setting]]


def set_ups(piece: Piece) -> tuple[SetUp, ...]:
    """Every setting each part needs: planing and cutting to size first, then its work as it is listed on the part."""
    rows = cut_list(piece)
    found = [SetUp(setting, row.item, row.mark) for row in rows for setting in _sizing(piece, row)]
    for row in rows:
        if row.board is not None:
            continue
        part = piece.parts[row.item.shown]
        for feature in part.features:
            if feature.operation is not None:
                take = SETTINGS[feature.operation.name]
                found += [SetUp(setting, row.item, row.mark) for setting in (take(part, feature) if take else [])]
    return tuple(found)


def _sizing(piece: Piece, row: CutRow) -> list[Setting]:
    """Thickness, width and length; an angled end is cut with the angles, to its long point."""
    if row.board is not None:
        return [Setting("plane", row.thickness), Setting("rip", row.width)]
    if row.on_edge:  # it lies on what the design calls its edge
        return [Setting("plane", row.width), Setting("rip", row.thickness), *_crosscut(piece, row)]
    planed = dressed(row.stock) if row.solid else None
    found = []
    if row.solid and row.sawn and not (planed and math.isclose(planed.thickness, row.thickness, abs_tol=0.01)):
        found.append(Setting("plane", row.thickness))
    if not (planed and math.isclose(planed.width, row.width, abs_tol=0.01)):
        found.append(Setting("rip", row.first_width))
    return [*found, *_crosscut(piece, row)]


def _crosscut(piece: Piece, row: CutRow) -> list[Setting]:
    return [] if _angled(piece.parts[row.item.shown]) else [Setting("crosscut", row.first_length)]


def _angled(part: Part) -> bool:
    return any(f.operation is not None and f.operation.name == "sloped end" for f in part.features)


def _number(values: dict[str, Value], key: str) -> float:
    value = values[key]
    assert isinstance(value, int | float)
    return float(value)


def _values(feature: Feature) -> dict[str, Value]:
    assert feature.operation is not None
    return feature.operation.settings


def _picked(kind: str, first: str, *then: str, places: str = "") -> Take:
    """The values of those names; `places` names the one that counts them."""

    def take(part: Part, feature: Feature) -> list[Setting]:
        values = _values(feature)
        many = int(_number(values, places)) if places else 1
        return [Setting(kind, values[first], tuple(values.get(name) for name in then), many)]

    return take


def _end(part: Part, feature: Feature) -> list[Setting]:
    """The blade first, then the mitre gauge, then the length of the part to its long point."""
    values = _values(feature)
    tilt, mitre = _number(values, "tilt"), _number(values, "mitre")
    return [Setting("tilt", tilt if tilt >= SQUARE else 0.0, (mitre if mitre >= SQUARE else 0.0, part.over_all[0]))]


def _edge(part: Part, feature: Feature) -> list[Setting]:
    return [Setting("tilt", _number(_values(feature), "slope"), ("edge", None))]


def _taper(part: Part, feature: Feature) -> list[Setting]:
    """A side each: how much comes off at the far end, over what length; tapered both ways, half on either side."""
    values = _values(feature)
    length, width, thickness = part.over_all
    run = length - _number(values, "after")
    sides = str(values["sides"]).split(", ")
    found = []
    for side in sides:
        whole = (thickness if SIDE_AXIS[side] == part.spec.thick else width) - _number(values, "to")  # type: ignore[index]
        falls = whole / 2 if OPPOSITE[side] in sides else whole  # type: ignore[index]
        found.append(Setting("taper", falls, (run, values["after"], values["from"])))
    return found


def _screw_hole(part: Part, feature: Feature) -> list[Setting]:
    """The clear hole, and the wider one above it for a plug or a sunk head, or the countersink."""
    values = _values(feature)
    many = int(_number(values, "count"))
    found = [Setting("bore", values["diameter"], (None,), many)]
    wide = next((name for name in ("plugged", "sunk") if values.get(name) is not None), None)
    if wide is not None:
        return [Setting("bore", values["plug"], (values[wide],), many), *found]
    return found if values.get("slotted") is not None else [*found, Setting("countersink", values["head"], (), many)]


def _hole(part: Part, feature: Feature) -> list[Setting]:
    values = _values(feature)
    many = int(_number(values, "count"))
    found = [Setting("bore", values["diameter"], (values.get("deep"),), many)]
    if values.get("step") is not None:
        found.insert(0, Setting("bore", values["step"], (values["step deep"],), many))
    if values.get("countersunk") is not None:
        found.append(Setting("countersink", values["countersunk"], (), many))
    return found


def _fitting_hole(part: Part, feature: Feature) -> list[Setting]:
    values = _values(feature)
    many = int(_number(values, "count"))
    found = [Setting("bore", values["diameter"], (values.get("deep"),), many)]
    return [Setting("bore", values["wide"], (values["sunk"],), many), *found] if "sunk" in values else found


def _recess(part: Part, feature: Feature) -> list[Setting]:
    """A round one is bored, any other is routed or chopped to its depth."""
    values = _values(feature)
    if "diameter" in values:
        return [Setting("bore", values["diameter"], (values["deep"],))]
    return [Setting("recess", values["deep"], (values["wide"], values["long"]))]


_bored = _picked("bore", "diameter", "deep", places="count")

# every operation; None where nothing is set: it is marked out and worked to the line
SETTINGS: dict[str, Take | None] = {
    "sloped end": _end,
    "sloped edge": _edge,
    "taper": _taper,
    "mortise": _picked("mortise", "thick", "deep"),
    "tenon": _picked("tenon", "thick", "long"),
    "tongue": _picked("tenon", "thick", "long"),
    "bridle slot": _picked("trench", "deep", "long"),
    "bridle cheek": _picked("trench", "deep", "long"),
    "halving": _picked("trench", "deep", "long"),
    "notch": _picked("trench", "deep", "long"),
    "groove": _picked("groove", "wide", "deep"),
    "housing": _picked("groove", "wide", "deep"),
    "rabbet": _picked("groove", "wide", "deep"),
    "end groove": _picked("groove", "thick", "deep"),
    "spline slot": _picked("groove", "thick", "deep"),
    "edge tongue": _picked("tongue", "thick", "long"),
    "housed tongue": _picked("tongue", "thick", "long"),
    "housed end": _picked("tongue", "thick", "long"),
    "panel edge": _picked("tongue", "thick", "long"),
    "dovetail housing": _picked("dovetail", "slope", "deep"),
    "dovetail tongue": _picked("dovetail", "slope", "long"),
    "tails": _picked("dovetail", "slope", "long"),
    "pins": _picked("dovetail", "slope", "deep"),
    "fingers": _picked("fingers", "wide", "long"),
    "biscuit slot": _picked("biscuit", "size", "deep", places="count"),
    "screw hole": _screw_hole,
    "hole": _hole,
    "peg hole": _bored,
    "dowel hole": _bored,
    "pilot hole": _bored,
    "fitting hole": _fitting_hole,
    "recess": _recess,
    "fitting recess": _recess,
    "slot": _picked("slot", "wide", "long"),
    "hand hold": _picked("slot", "wide", "long"),
    "arc": _picked("arc", "radius"),
    "round over": _picked("round over", "size"),
    "chamfer": _picked("chamfer", "size"),
    "cove": _picked("cove", "radius"),
    "thumbnail": _picked("thumbnail", "radius", "step"),
    "curve": None,
    "relief": None,
    "turned": None,
    "scribe": None,
    "saw cut": None,
    "gluing up": None,
}
