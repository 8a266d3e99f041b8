"""A frame on legs, or a case, must resist being pushed out of square, both ways."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, said
from model.grain import grain, thick_axis, wide_axis
from model.holding import moves
from model.piece import Part, Piece
from plans.fixings import MachineBolt, Nail, WoodScrew
from plans.joints import (
    BoxJoint,
    Bridle,
    CrossHalving,
    Dovetail,
    Dowel,
    GroovedPanel,
    LooseTenon,
    MortiseAndTenon,
)
from plans.problems import Problem
from plans.sides import Axis

LEGS = 3  # uprights that stand on the floor: fewer are no frame, unless they are broad as the sides of a case
DEEP = 38.0  # mm of shoulder that holds a frame square (common practice: 1 1/2 in and more)
BROAD = 150.0  # mm: an upright as broad as that does not rack in its own plane, and a panel as high is a brace
SHOULDERED = MortiseAndTenon | Bridle | CrossHalving | LooseTenon | Dowel
CORNERED = Dovetail | BoxJoint  # glued over the whole width of the corner
DRIVEN = WoodScrew | Nail | MachineBolt
WAYS: tuple[Axis, ...] = ("left-right", "front-back")
UP = np.array([0.0, 0.0, 1.0])


def check(piece: Piece) -> list[Problem]:
    """Ways in which nothing but a housing, a few screws or face glue keeps the uprights upright.

    In words: no force is worked out.
    """
    uprights = [part for part in piece.parts.values() if part.spec.runs == "up-down" and part.mesh.box[0][2] < 1.0]
    broad = [part for part in uprights if max(_reach(part, 0), _reach(part, 1)) >= BROAD]
    joined = piece.joints or piece.fixings  # nothing said yet is nothing to judge
    if not joined or len(uprights) < (2 if broad else LEGS) or piece.design.spec.stands == "on the wall":
        return []
    found = []
    for number, way in enumerate(WAYS):
        thin = [part for part in uprights if _reach(part, number) < BROAD]
        if len(thin) < 2 or _braced(piece, number):
            continue
        deepest = max(_shoulder(piece, upright, number) for upright in thin)
        if deepest >= DEEP:
            continue
        found.append(
            finding(
                "may-rack",
                "warning",
                f"little keeps the {'sides' if broad else 'legs'} from racking {way}: a rule-of-thumb judgement",
                piece.design.place("parts", thin[0].kind),
                "add a deeper rail tenoned into them, a brace, or a panel or back that is glued or screwed in",
                [part.name for part in thin],
                f"shoulders of {said(piece, deepest)} at most" if deepest else "no tenoned rail that way",
                f"a rail with a shoulder of {at_least(piece, DEEP)} or more",
            )
        )
    return found


def _reach(part: Part, number: int) -> float:
    return float(np.ptp(part.mesh.box[:, number]))


def _shoulder(piece: Piece, upright: Part, number: int) -> float:
    """The deepest part joined to an upright that runs one way (0: left-right, 1: front-back), mm."""
    deepest = 0.0
    for joint in piece.joints:
        entry = piece.design.spec.joints[joint.number]
        if upright.name not in (joint.a, joint.b) or not isinstance(entry, SHOULDERED | CORNERED):
            continue
        rail = piece.parts[joint.a if joint.b == upright.name else joint.b]
        if abs(float(grain(rail)[number])) > 0.7:
            on_edge = abs(float(wide_axis(rail) @ UP)) > 0.7
            deep = rail.over_all[1 if on_edge or isinstance(entry, CORNERED) else 2]
            deepest = max(deepest, deep)
    return deepest


def _braced(piece: Piece, number: int) -> bool:
    """Whether a panel stands in the plane of the racking, held all along: glued, screwed, or a sheet in grooves."""
    for part in piece.parts.values():
        flat = abs(float(thick_axis(part)[1 - number])) > 0.7
        if flat and _reach(part, number) >= BROAD and _reach(part, 2) >= BROAD and len(_held(piece, part)) > 1:
            return True
    return False


def _held(piece: Piece, panel: Part) -> set[str]:
    """The parts a panel is held to so that it cannot be pushed askew."""
    held: set[str] = set()
    for joint in piece.joints:
        grooved = isinstance(piece.design.spec.joints[joint.number], GroovedPanel) and not moves(panel)
        if panel.name == joint.a and (joint.glued or grooved):
            held.add(joint.b)
    for fixing in piece.fixings:
        if panel.name in (fixing.through, fixing.into) and isinstance(piece.design.spec.fixings[fixing.number], DRIVEN):
            held |= {fixing.through, fixing.into} - {panel.name}
    return held
