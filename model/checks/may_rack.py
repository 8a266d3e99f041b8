"""A frame on legs must resist being pushed out of square, both ways."""

from __future__ import annotations

import numpy as np

from model.checks.finding import finding, said
from model.grain import grain, wide_axis
from model.piece import Part, Piece
from plans.joints import Bridle, CrossHalving, MortiseAndTenon
from plans.problems import Problem
from plans.sides import Axis

LEGS = 3  # uprights that stand on the floor: fewer is no frame
DEEP = 38.0  # mm of shoulder that holds a frame square (common practice: 1 1/2 in and more)
WAYS: tuple[Axis, ...] = ("left-right", "front-back")


def check(piece: Piece) -> list[Problem]:
    """Ways in which nothing but screws or face glue keeps the legs upright. In words: no force is worked out."""
    legs = [part for part in piece.parts.values() if part.spec.runs == "up-down" and part.mesh.box[0][2] < 1.0]
    if len(legs) < LEGS or piece.design.spec.stands == "on the wall":
        return []
    found = []
    for number, way in enumerate(WAYS):
        deepest = max((_shoulder(piece, leg, number) for leg in legs), default=0.0)
        if deepest >= DEEP:
            continue
        found.append(
            finding(
                "may-rack",
                "warning",
                f"little keeps the legs from racking {way}: a rule-of-thumb judgement",
                piece.design.place("parts", legs[0].kind),
                "add a deeper rail tenoned into the legs, a brace, or a panel that is glued or screwed in",
                [leg.name for leg in legs],
                f"shoulders of {said(piece, deepest)} at most" if deepest else "no tenoned rail that way",
                f"a rail with a shoulder of {said(piece, DEEP)} or more",
            )
        )
    return found


def _shoulder(piece: Piece, leg: Part, number: int) -> float:
    """The deepest part joined to a leg that runs one way (0: left-right, 1: front-back), mm."""
    deepest = 0.0
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if leg.name not in (joint.a, joint.b) or not isinstance(entry, MortiseAndTenon | Bridle | CrossHalving):
            continue
        rail = piece.parts[joint.a if joint.b == leg.name else joint.b]
        if abs(float(grain(rail)[number])) > 0.7:
            upright = abs(float(wide_axis(rail) @ np.array([0.0, 0.0, 1.0]))) > 0.7
            deepest = max(deepest, rail.spec.width if upright else rail.spec.thickness)
    return deepest
