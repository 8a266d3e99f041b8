"""Where one part is cut across on its sheet: where recesses sunk from two sides lie side by side.

How near they come to each other shows in no view but in hidden lines, and how deep they are is told by callouts alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from model.cuts import stuff_of
from model.frames import Vector, apply, axis_vector, matrix_of, turn
from model.joint_sections import JointCut, JointPlane, SizeShown, sizes_shown
from model.piece import Callout, Feature, Part
from plans.sides import AXIS_NUMBER, SIDE_AXIS

SUNK = {"mortise", "groove", "housing", "end groove"}
LEAST = 3.0  # mm that two recesses share of the length
SHARES = (0.5, 0.35, 0.65, 0.2)  # of what they share, where a plane is tried


@dataclass(frozen=True)
class _Recess:
    """What is sunk from a side, and from where to where along the part (standing frame, mm)."""

    feature: Feature
    callout: Callout
    low: float
    high: float


@dataclass(frozen=True)
class PartSection:
    """A part cut across: how far along it (standing frame, mm), its cut, and the depths that are seen true in it."""

    at: float
    plane: JointPlane
    cut: JointCut
    sizes: tuple[SizeShown, ...]


def part_sections(part: Part, right: Vector, up: Vector) -> Iterator[PartSection]:
    """The places where a part may be cut across to tell the same, the best first; none where nothing wants it.

    `right` and `up`: the page's right and top on the view of its face (standing frame); the section is seen from the
    right.
    """
    pair = _side_by_side(part)
    if pair is None:
        return
    low, high = max(one.low for one in pair), min(one.high for one in pair)
    features = [one.feature for one in pair]
    for share in SHARES:
        yield _cut_across(part, low + (high - low) * share, right, up, features)


def _side_by_side(part: Part) -> tuple[_Recess, _Recess] | None:
    """The two recesses from different sides that share most of the length."""
    found = list(_recesses(part))
    pairs = [(a, b) for a, b in combinations(found, 2) if SIDE_AXIS[a.callout.face] != SIDE_AXIS[b.callout.face]]

    def shared(pair: tuple[_Recess, _Recess]) -> float:
        return min(one.high for one in pair) - max(one.low for one in pair)

    best = max(pairs, key=shared, default=None)
    return best if best is not None and shared(best) > LEAST else None


def _recesses(part: Part) -> Iterator[_Recess]:
    number = AXIS_NUMBER[part.spec.runs]
    for feature in part.features:
        for callout in feature.callouts:
            across = SIDE_AXIS[callout.face] != part.spec.runs
            if callout.what in SUNK and callout.fills and across and callout.values.get("deep") is not None:
                low, high = sorted(corner[number] for corner in callout.fills)
                yield _Recess(feature, callout, low, high)


def _cut_across(part: Part, at: float, right: Vector, up: Vector, features: list[Feature]) -> PartSection:
    matrix = matrix_of(part.at)
    point = apply(matrix, axis_vector(part.spec.runs) * at)
    plane = JointPlane(point, turn(matrix, right), turn(matrix, np.cross(up, right)), turn(matrix, up))
    section = part.mesh.moved(plane.frame).manifold.slice(0.0)
    cut = JointCut(section, part.name, stuff_of(part), section)
    shown = sizes_shown(plane, [cut], [part], [features])
    return PartSection(at, plane, cut, tuple(size for size in shown if size.says_how_deep))
