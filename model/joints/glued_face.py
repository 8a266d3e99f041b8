"""Flat faces glued together: nothing is cut; the faces have to touch."""

from __future__ import annotations

from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.joints.joining import Habits
from model.overlap import Patch, contact_patches
from model.piece import Callout, Feature, JointMade, Value
from plans.joints.glued_face import GluedFace
from plans.sides import AXES, SIDE_AXIS

MOST = 0.5  # of a side: what is glued over more than that is glued all over, as a maker would say


def join(bodies: dict[str, list[Body]], joint: GluedFace, number: int, habits: Habits) -> list[JointMade]:
    """Every pair whose flat faces lie on each other, by their largest shared area."""
    made = []
    for of in bodies[joint.of]:
        for to in bodies[joint.to]:
            patches = [] if of is to else contact_patches(of.mesh(), to.mesh())
            if not patches:
                continue
            patch = patches[0]
            direction = round_point(patch.normal)
            where = round_point(patch.centroid)
            made.append(
                JointMade(
                    "glued face", number, of.name, to.name, where, direction, 0.0, glued=True, adhesive=joint.adhesive
                )
            )
            for body, other, sign in ((of, to, 1.0), (to, of, -1.0)):
                _note(body, other, patch, patch.normal * sign)
    return made


def _note(body: Body, other: Body, patch: Patch, out: Vector) -> None:
    local = apply(body.back, patch.centroid)
    side = nearest_side(turn(body.back, out))
    across = [body.blank.size(axis) for axis in AXES if axis != SIDE_AXIS[side]]
    whole = patch.area > MOST * across[0] * across[1]
    values: dict[str, Value] = {"for": other.kind, "side": side, "whole": whole}
    body.features.append(
        Feature(
            "glued face", "joint", callouts=(Callout("glued face", values, round_point(local), side),), other=other.name
        )
    )
