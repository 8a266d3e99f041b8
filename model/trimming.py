"""Cutting a blank to what it meets: the floor, a level, or a face of another part."""

from __future__ import annotations

import cadquery as cq
import numpy as np
from OCP.BRepTopAdaptor import BRepTopAdaptor_FClass2d
from OCP.GeomAPI import GeomAPI_ProjectPointOnSurf
from OCP.gp import gp_Pnt, gp_Pnt2d
from OCP.TopAbs import TopAbs_State

from model import kernel
from model.body import Body, Extents, extents_of
from model.frames import Vector, side_vector
from model.kernel import KernelFault, Plane, spell
from model.piece import Callout, Feature, Operation
from model.placing import Stand, Standing
from model.slopes import slope_values
from model.store import NOTHING, Store
from plans.fields import CutTarget
from plans.sides import AXES, AXIS_NUMBER, SIDE_AXIS, Side
from plans.spec import PartSpec

NEAR = 1e-6  # mm
SHORT = 1e-3  # mm


def trimmed(name: str, kind: str, spec: PartSpec, stand: Stand, standing: Standing, store: Store) -> Body:
    """The blank of a part, cut to all it is `cut to`; not yet shaped."""
    box = kernel.box(-stand.half, stand.half)
    past = NOTHING.after("blank", [box])
    blank = store.given(past, lambda: box)
    body = Body(name, kind, spec, blank, stand.at, Extents(-stand.half, stand.half), store=store, past=past)
    planes = {
        side: _short_of(_target_plane(body, side, target, standing), spec.gap.get(side, 0.0))
        for side, target in spec.cut_to.items()
    }
    for side, plane in planes.items():
        local = body.local_plane(plane)
        _must_reach(body, side, local)
        body.cut([kernel.beyond(local)], f"cutting the {side} of {name}", must_change=False)
    body.blank = extents_of(body.sharp)
    _no_loose_end(body)
    for side, plane in planes.items():
        body.features.extend(_cut_feature(body, side, body.local_plane(plane)))
    return body


def _short_of(plane: Plane, gap: float) -> Plane:
    """A plane parallel to the one that a part is cut to, `gap` mm before it."""
    return Plane(plane.point - plane.normal * gap, plane.normal)


def _must_reach(body: Body, side: Side, plane: Plane) -> None:
    """A blank that stops before what it is cut to would stay as long, or as wide, as it was."""
    short = -max(plane.height(corner) for corner in kernel.vertices(body.sharp))
    if short > SHORT:
        raise KernelFault(f"the {side} of {body.name} stops {spell(short)} short of what it is cut to")


def _target_plane(body: Body, side: Side, target: CutTarget, standing: Standing) -> Plane:
    if target.level is not None:
        point = np.zeros(3)
        point[AXIS_NUMBER[SIDE_AXIS[side]]] = standing.value(target.level)
        return Plane(point, side_vector(side))
    assert target.part is not None
    return _face_met(body, side, standing.bodies[target.part])


def _face_met(body: Body, side: Side, others: list[Body]) -> Plane:
    """The face of one of `others` that the middle of the part runs into first."""
    start = body.at[:3, 3]
    direction = body.outward(side)
    best: tuple[float, Plane] | None = None
    for other in others:
        solid = other.world(other.sharp)
        for face, plane in kernel.flat_faces(solid):
            against = float(np.dot(plane.normal, direction))
            if against > -0.2:
                continue
            distance = -plane.height(start) / against
            if distance < NEAR or (best is not None and distance >= best[0]):
                continue
            if _within(face, start + direction * distance):
                best = (distance, Plane(plane.point, -plane.normal))
    if best is None:
        raise KernelFault(f"{body.name} runs past every {others[0].kind} on its {side}: there is no face to cut it to")
    return best[1]


def _within(face: cq.Face, point: Vector) -> bool:
    surface = GeomAPI_ProjectPointOnSurf(gp_Pnt(*(float(c) for c in point)), face._geomAdaptor())
    state = BRepTopAdaptor_FClass2d(face.wrapped, NEAR).Perform(gp_Pnt2d(*surface.LowerDistanceParameters()))
    return bool(state in (TopAbs_State.TopAbs_IN, TopAbs_State.TopAbs_ON))


def _no_loose_end(body: Body) -> None:
    for axis in AXES:
        reach = body.blank.of(axis)
        if body.spec.size(axis) is None and max(abs(reach[0]), abs(reach[1])) > kernel.REACH / 2 - 1.0:
            called = {body.runs: "length", body.thick: "thickness"}.get(axis, "width")
            raise KernelFault(f"{body.name} is not cut on both sides {axis}, and no {called} is stated")


def _cut_feature(body: Body, side: Side, plane: Plane) -> list[Feature]:
    """What the drawing says of a cut end or edge; nothing where it is square."""
    values = slope_values(plane.normal, side, body.runs, body.thick)
    if not values:
        return []
    centre = body.blank.middle()
    centre[AXIS_NUMBER[SIDE_AXIS[side]]] = body.blank.at(side)
    on_end = SIDE_AXIS[side] == body.runs
    what = "sloped end" if on_end else "sloped edge"
    face = _seen_from(body, side)
    point = _on_plane(plane, centre, side)
    callout = Callout(what, {"side": side, **values}, point, face)
    return [Feature("cut to", "cut", callouts=(callout,), operation=Operation(what, {"side": side, **values}))]


def _seen_from(body: Body, side: Side) -> Side:
    """A long side from which the slope of an end or edge is seen."""
    axis = body.thick if SIDE_AXIS[side] == body.runs else body.runs
    if SIDE_AXIS[side] != body.runs:
        return body.ends[1]
    return body.datum_side(axis)


def _on_plane(plane: Plane, point: Vector, side: Side) -> tuple[float, float, float]:
    direction = side_vector(side)
    moved = point - direction * (plane.height(point) / float(np.dot(plane.normal, direction)))
    return (float(moved[0]), float(moved[1]), float(moved[2]))
