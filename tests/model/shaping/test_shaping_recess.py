"""Recesses against the volume of a slab."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def sizes(part, kind: str) -> list[tuple[str, str, float]]:
    """What its drawing says: name, side it is seen from, value."""
    (feature,) = [feature for feature in part.features if feature.kind == kind]
    return [(size.name, size.face, pytest.approx(size.value)) for size in feature.sizes]


def test_bed_of_a_hinge_leaf(shaped):
    part = shaped("{recess: {side: top, long: 60, wide: 25, deep: 2, at: {front: 0, left: 40}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 60 * 25 * 2, rel=1e-9)
    floor = [face for face in part.sharp.Faces() if face.Center().z == pytest.approx(T / 2 - 2)]
    box = floor[0].BoundingBox()
    assert (box.xmin, box.xmax) == pytest.approx((40 - L / 2, 100 - L / 2), abs=1e-4)
    assert (box.ymin, box.ymax) == pytest.approx((-W / 2, 25 - W / 2), abs=1e-4)


def test_routed_corners(shaped):
    part = shaped("{recess: {side: top, long: 60, wide: 25, deep: 5, corners: 6}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - (60 * 25 - (4 - math.pi) * 36) * 5, rel=1e-9)


def test_corners_only_where_there_are_walls(shaped):
    part = shaped("{recess: {side: top, long: 60, wide: 25, deep: 5, corners: 6, at: {front: 0}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - (60 * 25 - (4 - math.pi) * 36 / 2) * 5, rel=1e-9)


def test_round_recess_in_an_end(shaped):
    part = shaped("{recess: {side: left, diameter: 10, deep: 12, at: {front: 30}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * 25 * 12, rel=1e-9)
    assert sizes(part, "recess") == [("recess position", "left", 30), ("recess position", "left", 10)]


@settings(max_examples=10, deadline=None)
@given(
    long=decimals(1, 15), wide=decimals(1, 15), deep=decimals(0.5, 15), side=st.sampled_from(["top", "front", "right"])
)
def test_any_recess(shaped, long, wide, deep, side):
    part = shaped(f"{{recess: {{side: {side}, long: {long}, wide: {wide}, deep: {deep}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(L * W * T - long * wide * deep, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{recess: {side: top, long: 60, wide: 25, deep: 18.5}}", "leaves 1.5 mm of wood"),
        ("{recess: {side: top, long: 60, wide: 25, deep: 5, at: {left: 250}}}", "runs out of the part left-right"),
        ("{recess: {side: top, long: 60, wide: 25, deep: 5, corners: 13}}", "rounder than it is wide"),
        ("{recess: {side: left, diameter: 18, deep: 5}}", "leaves 1 mm of wood"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
