"""Which faces a feature made: their areas by closed formulas."""

from math import pi

import numpy as np
import pytest

from model.cut_faces import faces_eased, faces_made
from model.meshes import Mesh
from model.piece import Part

BOARD = """parts:
  board:
    {wood: white oak, runs: left-right, thick: front-back, length: 600, width: 120, thickness: 30,
     where: {bottom: floor, centred: [left-right, front-back]}, shaping: [SHAPING]}
"""
FACETS = 0.01  # share by which facets fall short of a round face


def area(mesh: Mesh, faces: frozenset[int]) -> float:
    a, b, c = np.moveaxis(mesh.corners[np.isin(mesh.face, list(faces))], 1, 0)
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)


def made_by(part: Part, kind: str) -> frozenset[int]:
    return frozenset().union(*(own for f, own in zip(part.features, faces_made(part), strict=True) if f.kind == kind))


# mm2: what the walls and the floor of each come to
CUT = {
    "rabbet: {side: front, edge: top, wide: 12, deep: 8}": 600 * (12 + 8),
    "groove: {side: front, at: {top: 40}, wide: 6, deep: 9}": 600 * (6 + 2 * 9),
    "hole: {side: front, diameter: 20, deep: 15, at: {left: 100}}": pi * 20 * 15 + pi * 10**2,
    "hole: {side: front, diameter: 10, at: {top: 60}, count: 3, spacing: 150}": 3 * pi * 10 * 30,
    "slot: {side: front, long: 80, wide: 20, along: left-right, at: {left: 200}}": (2 * 60 + pi * 20) * 30,
    "notch: {side: top, from: left, at: 200, long: 50, deep: 25}": (50 + 2 * 25) * 30,
}


@pytest.mark.parametrize("shaping", CUT)
def test_the_faces_of_a_cut(built, shaping: str) -> None:
    (part,) = built(BOARD.replace("SHAPING", shaping)).parts.values()
    kind = shaping.split(":")[0]
    assert area(part.own_mesh, made_by(part, kind)) == pytest.approx(CUT[shaping], rel=FACETS)


def test_two_cuts_that_lie_apart_are_told_apart(built) -> None:
    (first, one), (second, two) = list(CUT.items())[1:3]
    (part,) = built(BOARD.replace("SHAPING", f"{first}, {second}")).parts.values()
    assert area(part.own_mesh, made_by(part, "groove")) == pytest.approx(one, rel=FACETS)
    assert area(part.own_mesh, made_by(part, "hole")) == pytest.approx(two, rel=FACETS)


@pytest.mark.parametrize(
    ("easing", "wide"),
    [
        ("round over: {arrises: long, radius: 6}", pi / 2 * 6),
        ("chamfer: {arrises: long, size: 5}", 5 * 2**0.5),
    ],
)
def test_the_faces_of_eased_arrises(built, easing: str, wide: float) -> None:
    """Four arrises of 600; a hole beside them is no easing, though it is round."""
    hole = "hole: {side: front, diameter: 20, at: {left: 100}}"
    (part,) = built(BOARD.replace("SHAPING", f"{hole}, {easing}")).parts.values()
    assert area(part.own_eased_mesh, faces_eased(part)) == pytest.approx(4 * 600 * wide, rel=FACETS)
    assert not made_by(part, easing.split(":")[0])


def test_nothing_is_eased_where_nothing_is_said(built) -> None:
    (part,) = built(BOARD.replace("SHAPING", "")).parts.values()
    assert not faces_eased(part) and not any(faces_made(part))
