"""The views a part is drawn in: its face, one edge and, where it tells something more, one end."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

from model.frames import axis_vector, side_vector
from model.piece import Part, Size
from plans.sides import OPPOSITE, SIDE_AXIS, Axis, Side, sides_of, third_axis
from publish.drawing.arrange import PartViews
from publish.drawing.view import View
from publish.pictures import Pictorial, alone
from publish.project import view

# what is cut into a side and should be seen from it
SUNK = {
    *("mortise", "screw hole", "hole", "notch", "halving", "bridle slot", "peg hole", "dowel hole", "end groove"),
    *("housing", "rabbet", "groove", "dovetail housing", "tails", "pins", "slot", "recess"),
    *("fitting hole", "fitting recess", "biscuit slot"),
}
HIDDEN_HELPS = {
    *("mortise", "tenon", "hole", "bridle slot", "screw hole", "notch", "pilot hole", "peg hole", "dowel hole"),
    *("tongue", "end groove", "housing", "rabbet", "groove", "edge tongue", "housed tongue", "dovetail housing"),
    *("pins", "spline slot", "key slot", "slot", "recess", "hand hold", "fitting hole"),
    "biscuit slot",
}
# seen true only from an end
END_TELLS = {
    *("tenon", "tongue", "bridle slot"),
    *("edge tongue", "housed tongue", "panel edge", "pins", "dovetail tongue"),
}


@dataclass(frozen=True)
class DrawnPart:
    """A part's views, the sides they are seen from, and a small picture of it."""

    views: PartViews
    face: Side
    edge: Side
    end: Side | None
    picture: Pictorial

    def view_of(self, key: str) -> View:
        """One of the views by its key on the sheet."""
        found = {"face": self.views.face, "edge": self.views.edge, "end": self.views.end}[key]
        assert found is not None
        return found

    def key_for(self, size: Size, runs: Axis, thick: Axis) -> str:
        """The view in which a size is seen true, the one it names where that can be."""
        wide = third_axis(runs, thick)
        blind = {"face": thick, "edge": wide, "end": runs}
        wanted = {thick: "face", wide: "edge", runs: "end"}[SIDE_AXIS[size.face]]
        order = [wanted, "face", "edge", "end"]
        return next(key for key in order if blind[key] != size.along and (key != "end" or self.end is not None))


def draw(part: Part) -> DrawnPart:
    """Project a part's sharp body (standing frame)."""
    shape = part.sharp
    runs, thick = part.spec.runs, part.spec.thick
    wide = third_axis(runs, thick)
    face = _busiest(part, thick)
    edge = _busiest(part, wide)
    towards, right, up = _page(runs, wide, face)
    hidden = any(callout.what in HIDDEN_HELPS for feature in part.features for callout in feature.callouts)
    edge_from = "above" if float(side_vector(edge) @ up) > 0 else "below"
    end = _end(part, runs, right)
    views = PartViews(
        face=view([shape], towards, right, hidden=hidden),
        edge=view([shape], side_vector(edge), right, hidden=hidden),
        end=None if end is None else view([shape], side_vector(end), np.cross(up, side_vector(end))),
        edge_from=edge_from,  # type: ignore[arg-type]
        end_from="right" if end is not None and float(side_vector(end) @ right) > 0 else "left",
    )
    seen = side_vector(edge) * 0.55
    out = towards * 1.0 + seen + right * 0.45
    return DrawnPart(views, face, edge, end, alone(part, out, right))


def _busiest(part: Part, axis: Axis) -> Side:
    """The side, of two, that shows; else the one that has more cut into it; else the true one."""
    counted: Counter[Side] = Counter()
    for feature in part.features:
        for callout in feature.callouts:
            if callout.what in SUNK:
                many = callout.values.get("count")
                counted[callout.face] += many if isinstance(many, int) else 1
    low, high = sides_of(axis)
    if part.spec.show_face is not None and SIDE_AXIS[part.spec.show_face] == axis:
        return part.spec.show_face
    if axis == "up-down":
        low, high = high, low  # looked down on, unless there is more to see from below
    return high if counted[high] > counted[low] else low


def _page(runs: Axis, wide: Axis, face: Side) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Towards the viewer, the page's right (along the part) and its top; a level part stands the right way up."""
    towards = side_vector(face)
    if runs == "up-down":
        right = side_vector("bottom")
        return towards, right, np.cross(towards, right)
    up = axis_vector("up-down") if wide == "up-down" else axis_vector(wide)
    right = np.cross(up, towards)
    if wide != "up-down" and float(right @ axis_vector(runs)) < 0:
        right, up = -right, -up
    return towards, right, up


def _end(part: Part, runs: Axis, right: np.ndarray) -> Side | None:
    """The end that shows what the other views do not: a tenon, what is sunk into it, a bevel, or a taper on two faces.

    The right one, if it can be.
    """
    sunk = {str(c.face) for f in part.features for c in f.callouts if c.what in SUNK and SIDE_AXIS[c.face] == runs}
    tells = (
        bool(sunk)
        or any(feature.kind in END_TELLS for feature in part.features)
        or any(callout.what == "sloped edge" for feature in part.features for callout in feature.callouts)
        or any(
            feature.kind == "taper" and len({size.along for size in feature.sizes if size.role == "size"}) > 1
            for feature in part.features
        )
        or any(SIDE_AXIS[size.face] == runs for feature in part.features for size in feature.sizes)
    )
    if not tells:
        return None
    low, high = sides_of(runs)
    at_right = high if float(side_vector(high) @ right) > 0 else low
    with_tenon = {str(c.values.get("end")) for f in part.features if f.kind in ("tenon", "tongue") for c in f.callouts}
    telling = with_tenon | sunk
    if telling and at_right not in telling:
        return OPPOSITE[at_right]
    return at_right
