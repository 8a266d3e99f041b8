"""Rabbets against the volume of a bar."""

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


def test_rabbet_along_the_back(shaped):
    part = shaped("{rabbet: {side: bottom, edge: back, wide: 10, deep: 6}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 10 * 6 * L, rel=1e-9)
    # set out from the edge it lies along, and seen on the end
    assert sizes(part, "rabbet") == [("rabbet size", "right", 10), ("rabbet depth", "right", 6)]


def test_rabbet_across_an_end(shaped):
    part = shaped("{rabbet: {side: bottom, edge: left, wide: 10, deep: 6}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 10 * 6 * W, rel=1e-9)
    assert {face for _, face, _ in sizes(part, "rabbet")} == {"front"}


def test_stopped_rabbet(shaped):
    part = shaped("{rabbet: {side: bottom, edge: back, wide: 10, deep: 6, stop: {right: 25}}}")
    assert part.sharp.Volume() == pytest.approx(L * W * T - 10 * 6 * (L - 25), rel=1e-9)
    step = [v.X for v in part.sharp.Vertices() if v.Y > W / 2 - 11 and abs(v.Z - (6 - T / 2)) < 1e-6]
    assert max(step) == pytest.approx(L / 2 - 25)


@settings(max_examples=10, deadline=None)
@given(
    wide=decimals(0.5, 17),
    deep=decimals(0.5, 17),
    side=st.sampled_from(["top", "bottom"]),
    edge=st.sampled_from(["front", "back", "left", "right"]),
)
def test_any_rabbet(shaped, wide, deep, side, edge):
    part = shaped(f"{{rabbet: {{side: {side}, edge: {edge}, wide: {wide}, deep: {deep}}}}}")
    assert part.sharp.isValid() and len(part.sharp.Solids()) == 1
    run = L if edge in ("front", "back") else W
    assert part.sharp.Volume() == pytest.approx(L * W * T - wide * deep * run, rel=1e-9)


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{rabbet: {side: top, edge: front, wide: 6, deep: 19}}", "leaves 1 mm of wood"),
        ("{rabbet: {side: top, edge: front, wide: 80, deep: 5}}", "leaves 0 mm of wood"),
    ],
)
def test_outside_its_limits(misshaped, entry, said):
    (problem,) = misshaped(entry)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message
