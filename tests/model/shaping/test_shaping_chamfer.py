"""Chamfers against half of a square an arris."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def decimals(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers with two decimals, as a maker writes them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


L, W, T = 300.0, 80.0, 20.0


def chamfered(shaped, arrises: str, size: float):
    return shaped(f"{{chamfer: {{arrises: {arrises}, size: {size!r}}}}}")


def test_long_arrises(shaped):
    part = chamfered(shaped, "long", 3.0)
    assert part.sharp.Volume() == pytest.approx(L * W * T)
    assert part.eased.Volume() == pytest.approx(L * W * T - 4 * 9 / 2 * L, rel=1e-9)


def test_ends_of_a_round_over_part(shaped):
    part = shaped("{round over: {arrises: [top front], radius: 4}}, {chamfer: {arrises: [bottom back], size: 4}}")
    assert part.eased.isValid()
    assert part.eased.Volume() == pytest.approx(L * W * T - (1 - 3.141592653589793 / 4) * 16 * L - 8 * L, rel=1e-9)


@settings(max_examples=12, deadline=None)
@given(size=decimals(0.3, 9.5), arrises=st.sampled_from(["long", "all", "[top left]", "[bottom front, top back]"]))
def test_any_chamfer(shaped, size, arrises):
    part = chamfered(shaped, arrises, size)
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    straight = {"long": 4 * L, "all": 4 * (L + W + T), "[top left]": W}.get(arrises, 2 * L)
    lost = L * W * T - part.eased.Volume()
    # at each of eight corners three prisms meet and take at most a cube of `size` twice too often
    shared = 16 * size**3 if arrises == "all" else 1e-6 * L * W * T
    assert size**2 / 2 * straight - shared <= lost <= size**2 / 2 * straight + 1e-3


def test_flat_stands_at_half_a_right_angle(shaped):
    part = chamfered(shaped, "[top front]", 5.0)
    normals = [face.normalAt().toTuple() for face in part.eased.Faces()]
    half = 0.5**0.5
    assert any(n == pytest.approx((0, -half, half)) for n in normals)
    assert part.eased.Faces()


def test_stopped_at_both_ends(shaped):
    part = shaped("{chamfer: {arrises: long, size: 5, stop: {left: 40, right: 60}}}")
    # the flat, and at each end a pyramid as long as the chamfer is wide
    lost = 4 * (5**2 / 2 * (L - 100) + 2 * 5**2 / 2 * 5 / 3)
    assert part.sharp.Volume() == pytest.approx(L * W * T)
    assert part.eased.Volume() == pytest.approx(L * W * T - lost, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{chamfer: {arrises: long, size: 5, stop: {left: 200, right: 100}}}", "stops before it begins"),
        ("{chamfer: {arrises: all, size: 5, stop: {left: 20}}}", "only an arris along the part"),
    ],
)
def test_stops_that_cannot_be(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line) == ("shaping-fails", 15)
    assert said in problem.message
