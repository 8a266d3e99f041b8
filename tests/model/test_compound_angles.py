"""Splayed legs and what meets them, against published relations and plain vector algebra.

Published (chairmaking handbooks, from memory): a leg that leans by a seen from the front and by b seen
from the side leans by R in all, tan^2 R = tan^2 a + tan^2 b, along a sight line at atan(tan b / tan a).
Its foot, cut level, is set out by a on one face, and the saw tilts by T with sin T = tan b cos R.
The reference for rotations is scipy's; no turning of ours is used on that side.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from model.frames import lean_rotation, matrix_of
from model.slopes import slope_values

A, B = math.radians(6), math.radians(8)  # end splay, side splay of the porch bench
R = math.atan(math.hypot(math.tan(A), math.tan(B)))


def smallest_turn(a: float, b: float) -> np.ndarray:
    """The turn about the level line square to the sight line, by the resultant angle: foot to the left and the front."""
    up = np.array([math.tan(a), math.tan(b), 1.0])
    axis = np.cross([0, 0, 1], up)
    length = np.linalg.norm(axis)
    angle = math.atan(math.hypot(math.tan(a), math.tan(b)))
    return Rotation.from_rotvec(axis / length * angle if length else axis).as_matrix()


def said(part, what: str) -> dict[str, dict]:
    """Values of the callouts of a kind, by the side they are on."""
    return {str(c.values["side"]): c.values for feature in part.features for c in feature.callouts if c.what == what}


def angles(normal: np.ndarray, along: int, wide: int, thick: int) -> tuple[float, float]:
    """Mitre on the face and tilt of the blade of a cut, by the lines where its plane meets face and edge."""
    face, run = np.eye(3)[thick], np.eye(3)[along]
    line = np.cross(normal, face)  # the saw line on the face
    mitre = 90 - math.degrees(math.acos(abs(line @ run) / np.linalg.norm(line)))
    tilt = 90 - math.degrees(math.acos(abs(normal @ face)))  # off the square to the face
    return mitre, tilt


angle = st.integers(-300, 300).map(lambda n: n / 10)


@given(a=angle, b=angle)
def test_resultant_and_sight_line(a, b):
    turn = lean_rotation({"left": a, "front": b})
    a, b = math.radians(a), math.radians(b)
    foot = turn @ [0, 0, -1.0]
    assert math.tan(math.acos(np.clip(-foot[2], -1, 1))) ** 2 == pytest.approx(
        math.tan(a) ** 2 + math.tan(b) ** 2, abs=1e-6
    )
    # seen from the front and from the side the foot goes out by the angles stated
    assert foot[0] / foot[2] == pytest.approx(math.tan(a)) and foot[1] / foot[2] == pytest.approx(math.tan(b))
    assert turn == pytest.approx(smallest_turn(a, b), abs=1e-12)


def test_leg_of_the_bench(bench):
    turn = matrix_of(bench.parts["leg front left"].at)[:3, :3]
    assert turn == pytest.approx(smallest_turn(A, B), abs=1e-12)
    arris = turn @ [0, 0, -1]
    assert math.degrees(math.acos(-arris[2])) == pytest.approx(math.degrees(R))
    assert math.degrees(math.atan2(-arris[1], -arris[0])) == pytest.approx(
        math.degrees(math.atan(math.tan(B) / math.tan(A)))
    )


@pytest.mark.parametrize("side", ["top", "bottom"])
def test_foot_and_top_of_the_leg(bench, side):
    values = said(bench.parts["leg front left"], "sloped end")[side]
    assert values["mitre"] == pytest.approx(6)
    assert values["slope"] == pytest.approx(8)
    assert values["tilt"] == pytest.approx(math.degrees(math.asin(math.tan(B) * math.cos(R))))
    level = smallest_turn(A, B).T @ [0, 0, 1.0]
    assert (values["mitre"], values["tilt"]) == pytest.approx(angles(level, 2, 0, 1))


def test_both_ends_of_the_leg_are_level(bench):
    for name in ("leg front left", "leg back right"):
        part = bench.parts[name]
        faces = {round(f.Center().z, 6): f.normalAt().toTuple() for f in part.sharp.moved(part.at).Faces()}
        assert faces[0.0] == pytest.approx((0, 0, -1))
        assert faces[max(faces)] == pytest.approx((0, 0, 1))
        assert max(faces) == pytest.approx((17.25 - 0.75) * 25.4)  # under a seat of 3/4 in


def test_long_rail_between_two_leaning_legs(bench):
    """It leans with the leg's side splay only, and ends on the leg's inner face, which leans both ways."""
    own = Rotation.from_euler("x", -8, degrees=True).as_matrix()
    rail = bench.parts["long rail front"]
    assert matrix_of(rail.at)[:3, :3] == pytest.approx(own, abs=1e-12)
    inner = smallest_turn(A, B) @ [1.0, 0, 0]
    in_rail = own.T @ inner
    mitre, tilt = angles(in_rail, 0, 2, 1)
    values = said(rail, "sloped end")
    for side in ("left", "right"):
        assert (values[side]["mitre"], values[side]["tilt"]) == pytest.approx((mitre, tilt))
    # the leg's top and the rail's come together: both ends close in towards the top
    assert {values[side]["mitre towards"] for side in values} == {"top"}
    edge = said(rail, "sloped edge")["top"]
    assert edge["slope"] == pytest.approx(8)


def test_end_rail_between_two_leaning_legs(bench):
    # both sit below the seat: the left rail leans as the end splay does
    own = Rotation.from_euler("y", 6, degrees=True).as_matrix()
    rail = bench.parts["end rail left"]
    assert matrix_of(rail.at)[:3, :3] == pytest.approx(own, abs=1e-12)
    inner = own.T @ smallest_turn(A, B) @ [0, 1.0, 0]
    values = said(rail, "sloped end")["front"]
    assert (values["mitre"], values["tilt"]) == pytest.approx(angles(inner, 1, 2, 0))


@given(
    mitre=st.integers(-600, 600).map(lambda n: n / 10),
    slope=st.integers(-600, 600).map(lambda n: n / 10),
)
def test_slopes_of_any_end(mitre, slope):
    normal = np.array([1.0, math.tan(math.radians(mitre)), math.tan(math.radians(slope))])
    normal /= np.linalg.norm(normal)
    values = slope_values(normal, "right", "left-right", "up-down")
    if not values:
        assert max(abs(mitre), abs(slope)) < 0.05
        return
    assert (values["mitre"], values["slope"]) == pytest.approx((abs(mitre), abs(slope)), abs=1e-9)
    assert (values["mitre"], values["tilt"]) == pytest.approx(angles(normal, 0, 1, 2), abs=1e-5)
    if mitre:
        assert values["mitre towards"] == ("back" if mitre > 0 else "front")
    if slope:
        assert values["slope towards"] == ("top" if slope > 0 else "bottom")
