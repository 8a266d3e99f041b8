"""Flat faces glued together: nothing is cut; the faces have to touch."""

from __future__ import annotations

from model.body import Body
from model.frames import Vector, apply, nearest_side, round_point, turn
from model.joints.joining import Habits
from model.overlap import contact_patches
from model.piece import Callout, Feature, JointMade
from plans.joints.glued_face import GluedFace


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
                _note(body, other, patch.centroid, patch.normal * sign)
    return made


def _note(body: Body, other: Body, centre: Vector, out: Vector) -> None:
    local = apply(body.back, centre)
    side = nearest_side(turn(body.back, out))
    callout = Callout("glued face", {"for": other.kind, "side": side}, round_point(local), side)
    body.features.append(Feature("glued face", "joint", callouts=(callout,), other=other.name))
