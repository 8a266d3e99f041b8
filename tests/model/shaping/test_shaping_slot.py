"""Slots against a bar and two half cylinders."""

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


def area(long: float, wide: float) -> float:
    """Of a bar with half-round ends."""
    return (long - wide) * wide + math.pi * wide**2 / 4


def test_slot_right_through(shaped):
    part = shaped("{slot: {side: top, long: 60, wide: 10, at: {left: 50}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - area(60, 10) * T, rel=1e-9)
    assert sizes(part, "slot") == [
        ("slot length", "top", 60),
        ("slot width", "top", 10),
        ("slot position", "top", 50),
        ("slot position", "top", 40),
    ]
    # it reaches from 20 to 80 from the left
    walls = [face.BoundingBox() for face in part.sharp.Faces() if face.geomType() == "CYLINDER"]
    assert min(box.xmin for box in walls) == pytest.approx(20 - L / 2, abs=1e-3)
    assert max(box.xmax for box in walls) == pytest.approx(80 - L / 2, abs=1e-3)


def test_slot_across_and_blind(shaped):
    part = shaped("{slot: {side: top, along: front-back, long: 40, wide: 10, deep: 6}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - area(40, 10) * 6, rel=1e-9)
    walls = [face.BoundingBox() for face in part.sharp.Faces() if face.geomType() == "CYLINDER"]
    assert max(box.ymax for box in walls) == pytest.approx(20, abs=1e-3)


def test_slot_as_long_as_wide_is_a_hole(shaped):
    part = shaped("{slot: {side: top, long: 10, wide: 10}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * 25 * T, rel=1e-9)


@settings(max_examples=10, deadline=None)
@given(wide=decimals(1, 15), more=decimals(0.5, 50), side=st.sampled_from(["top", "bottom", "front", "back"]))
def test_any_slot(shaped, wide, more, side):
    part = shaped(f"{{slot: {{side: {side}, long: {wide + more:.2f}, wide: {wide}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    through = T if side in ("top", "bottom") else W
    assert part.sharp.Volume() == pytest.approx(L * W * T - area(wide + more, wide) * through, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{slot: {side: top, long: 60, wide: 10, deep: 19}}", "leaves 1 mm of wood"),
        ("{slot: {side: top, long: 60, wide: 10, at: {left: 31}}}", "leaves 1 mm of wood; at least 2 mm is wanted"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
