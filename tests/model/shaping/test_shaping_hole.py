"""Bored holes against the volume of a cylinder."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def bored(shaped, entry: str, **more):
    return shaped(f"{{hole: {{{entry}}}}}", **more)


def centres(part) -> list[tuple[float, float, float]]:
    """Middles of the bored walls, in order along the part."""
    walls = [face for face in part.sharp.Faces() if face.geomType() == "CYLINDER"]
    return sorted(tuple(round(c, 6) for c in face.Center().toTuple()) for face in walls)


def test_through_hole(shaped):
    part = bored(shaped, "side: top, diameter: 10")
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * 25 * T, rel=1e-9)
    assert part.eased.Volume() == pytest.approx(part.sharp.Volume(), rel=1e-12)


def test_blind_hole_in_the_end(shaped):
    part = bored(shaped, "side: left, diameter: 10, deep: 40")
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * 25 * 40, rel=1e-9)


def test_row_in_the_middle(shaped):
    part = bored(shaped, "side: top, diameter: 6, at: {front: 15}, count: 4, spacing: 50")
    found = centres(part)
    assert [c[0] for c in found] == pytest.approx([-75, -25, 25, 75])
    assert {c[1] for c in found} == {-W / 2 + 15}


def test_row_from_the_right_end(shaped):
    part = bored(shaped, "side: front, diameter: 6, at: {right: 20, bottom: 8}, count: 3, spacing: 50, deep: 12")
    found = centres(part)
    assert [c[0] for c in found] == pytest.approx([30, 80, 130])
    assert {c[2] for c in found} == {-T / 2 + 8}
    assert part.sharp.Volume() == pytest.approx(L * W * T - 3 * math.pi * 9 * 12, rel=1e-9)


def test_places_said_are_those_of_the_solid(shaped):
    part = bored(shaped, "side: top, diameter: 6, at: {right: 20, front: 15}, count: 3, spacing: 50")
    (feature,) = [feature for feature in part.features if feature.kind == "hole"]
    said = [(size.name, size.along, size.value) for size in feature.sizes]
    assert said == [
        ("hole position", "left-right", pytest.approx(L - 120)),
        ("hole spacing", "left-right", pytest.approx(50)),
        ("hole spacing", "left-right", pytest.approx(50)),
        ("hole position", "front-back", pytest.approx(15)),
    ]


@settings(max_examples=10, deadline=None)
@given(
    diameter=decimals(1, 15),
    share=st.one_of(st.none(), decimals(0.05, 0.95)),
    side=st.sampled_from(["left", "right", "front", "back", "bottom", "top"]),
)
def test_any_hole(shaped, diameter, share, side):
    through = {"left": L, "right": L, "front": W, "back": W}.get(side, T)
    deep = "" if share is None else f", deep: {round(share * through, 4)!r}"
    part = bored(shaped, f"side: {side}, diameter: {diameter!r}{deep}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    lost = math.pi * diameter**2 / 4 * through * (share or 1.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T - lost, rel=1e-9)


@pytest.mark.parametrize(
    "entry",
    [
        "side: top, diameter: 6, deep: 20",  # as deep as the part
        "side: top, diameter: 6, count: 8, spacing: 50",  # the row is longer than the part
        "side: top, diameter: 6, at: {front: 90}",  # beside it
        "side: top, diameter: 6, at: {front: -10}",
        "side: top, diameter: 6, at: {front: 2}",  # breaks out of the edge
        "side: top, diameter: 6, at: {left: 297.5}",
        "side: left, diameter: 25, deep: 10",  # wider than the part is thick
    ],
)
def test_hole_outside_the_part(misshaped, entry):
    (problem,) = misshaped(f"{{hole: {{{entry}}}}}")
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))


def test_two_rows_of_shelf_pins(shaped):
    part = bored(shaped, "side: top, diameter: 5, at: {front: 20}, and at: {back: 15}, count: 4, spacing: 32, deep: 10")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 8 * math.pi * 6.25 * 10, rel=1e-9)
    found = centres(part)
    assert {c[1] for c in found} == {20 - W / 2, W / 2 - 15}
    (feature,) = [feature for feature in part.features if feature.kind == "hole"]
    assert feature.callouts[0].values["count"] == 8
    across = [size.value for size in feature.sizes if size.along == "front-back"]
    assert across == pytest.approx([20, W - 35])
    # every pitch is measured along one row
    assert all(size.start[1] == size.end[1] for size in feature.sizes if size.along == "left-right")


def test_stepped_hole(shaped):
    part = bored(shaped, "side: top, diameter: 5, stepped: {diameter: 12, deep: 8}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - math.pi * (6.25 * (T - 8) + 36 * 8), rel=1e-9)


def test_countersunk_hole(shaped):
    part = bored(shaped, "side: top, diameter: 5, countersunk: 10")
    # at 90 degrees the cone is half as deep as it is wider than the hole
    cone = math.pi * 2.5 / 12 * (100 + 50 + 25)
    assert part.sharp.Volume() == pytest.approx(L * W * T - cone - math.pi * 6.25 * (T - 2.5), rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("side: top, diameter: 5, deep: 8, stepped: {diameter: 12, deep: 8}", "as deep as the hole"),
        ("side: top, diameter: 5, deep: 4, countersunk: 14", "as deep as the hole"),
        ("side: front, diameter: 5, stepped: {diameter: 21, deep: 8}", "breaks out of the part"),
    ],
)
def test_mouths_there_is_no_wood_for(misshaped, entry, said):
    (problem,) = misshaped(f"{{hole: {{{entry}}}}}")
    assert problem.code == "shaping-fails" and said in problem.message
