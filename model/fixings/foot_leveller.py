"""Foot levellers: a blind hole for an insert in the middle of each lowest face, a disc on a stem below it."""

from __future__ import annotations

import cadquery as cq
import numpy as np

from model import kernel
from model.body import Body
from model.fixings.fitting import SLACK, Bore, bore_holes
from model.fixings.seating import frame
from model.frames import location, round_point
from model.kernel import KernelFault, Plane
from model.piece import FixingMade
from plans.fixings.foot_leveller import FootLeveller
from plans.library import bought

NEAR = 0.01  # mm
LEVEL = 0.999  # cosine of the angle a foot may be out of level


def fix(bodies: dict[str, list[Body]], entry: FootLeveller, number: int) -> list[FixingMade]:
    """One under every face that the parts of the kind stand on: a foot hollowed below stands on two."""
    size = bought("foot_levellers", entry.size)
    assert size is not None
    stem = cq.Solid.makeCylinder(size["thread"] / 2, size["deep"] - SLACK)
    foot = cq.Solid.makeCylinder(size["foot"] / 2, size["foot_high"], cq.Vector(0, 0, -size["foot_high"]))
    solid = kernel.fuse(stem, foot, "the foot leveller")
    made = []
    for body in bodies[entry.on]:
        for face in _lowest(body):
            bore_holes(body, [face.point], -face.normal, Bore("foot leveller", size["bore"], size["deep"]))
            place = frame(face.point, -face.normal, np.array([1.0, 0.0, 0.0]))
            made.append(
                FixingMade(
                    "foot leveller",
                    number,
                    body.name,
                    body.name,
                    (round_point(face.point),),
                    round_point(-face.normal),
                    {"inch": size.inch, "mm": size.mm},
                    solid,
                    (location(place),),
                    last=True,
                )
            )
    return made


def _lowest(body: Body) -> list[Plane]:
    """The level faces it stands on, by their middles (piece frame)."""
    faces = [plane for _, plane in kernel.flat_faces(body.world(body.sharp)) if plane.normal[2] < -LEVEL]
    if not faces:
        raise KernelFault(f"{body.name} has no level face to stand on")
    ground = min(float(plane.point[2]) for plane in faces)
    return [plane for plane in faces if plane.point[2] < ground + NEAR]
