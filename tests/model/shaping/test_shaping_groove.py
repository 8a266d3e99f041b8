"""Grooves against the volume of a bar."""

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


def test_groove_in_the_middle_of_a_face(shaped):
    part = shaped("{groove: {side: top, wide: 6, deep: 8}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 6 * 8 * L, rel=1e-9)
    assert sizes(part, "groove") == [
        ("groove position", "right", 37),
        ("groove size", "right", 6),
        ("groove depth", "right", 8),
    ]
    # it runs out at both ends, and lies in the middle
    floor = [face for face in part.sharp.Faces() if face.Center().z == pytest.approx(T / 2 - 8)]
    assert len(floor) == 1 and floor[0].Center().toTuple() == pytest.approx((0, 0, T / 2 - 8))


def test_stopped_groove_in_an_edge(shaped):
    part = shaped("{groove: {side: front, at: {top: 4}, wide: 6, deep: 8, stop: {left: 30, right: 50}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 6 * 8 * (L - 80), rel=1e-9)
    assert ("groove size", "front", 220) in sizes(part, "groove")
    assert ("groove position", "right", 10) in sizes(part, "groove")
    (feature,) = [feature for feature in part.features if feature.kind == "groove"]
    assert feature.operation.settings["stop 1"] == 30 and feature.operation.settings["stop 1 from"] == "left"


@settings(max_examples=10, deadline=None)
@given(wide=decimals(0.5, 9), deep=decimals(0.5, 17), at=decimals(0, 10), side=st.sampled_from(["top", "bottom"]))
def test_any_groove(shaped, wide, deep, at, side):
    part = shaped(f"{{groove: {{side: {side}, at: {{back: {at}}}, wide: {wide}, deep: {deep}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    assert part.sharp.Volume() == pytest.approx(L * W * T - wide * deep * L, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{groove: {side: top, wide: 6, deep: 19}}", "leaves 1 mm of wood; at least 2 mm"),
        ("{groove: {side: top, at: {front: 76}, wide: 6, deep: 5}}", "runs out of the part"),
        ("{groove: {side: top, wide: 6, deep: 5, stop: {left: 200, right: 100}}}", "leave nothing between them"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
