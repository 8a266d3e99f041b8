"""Easing and moulding on curved edges, against Pappus: an area turned about an axis sweeps area times its path.

The corner between a square and its quarter circle, (1 - pi/4) r^2, has its middle 0.2234 r from the corner: from
the middles of the square (r/2) and of the quarter circle (4 r / 3 pi from its own centre), any book of mensuration.
"""

import math

import pytest

from model.kernel import KernelFault
from model.shaping import easing

L = 300.0
CORNER = 1 - math.pi / 4  # of r^2
# middle of that area, from the sharp corner, in r: the square's less the quarter circle's
MIDDLE = (1 * 0.5 - math.pi / 4 * (1 - 4 / (3 * math.pi))) / CORNER
KERNEL_OR_CUTTERS = pytest.mark.parametrize("how", ["kernel", "cutters"])
HOLLOW = "{arc: {edge: front, bend: hollow, rise: 20}}"
SPLINE = "{curve: {edge: front, from: left, through: [{along: 0, in: 0}, {along: 150, in: 12}, {along: 300, in: 30}]}}"


@pytest.fixture
def eased(shaped, monkeypatch, how):
    """The volume that easing takes off a part, by the kernel's fillet or by cutters alone."""
    if how == "cutters":
        monkeypatch.setattr(easing, "_by_kernel", lambda *_: None)

    def lost(shaping: str, **more) -> float:
        part = shaped(shaping, **more)
        assert part.eased.isValid() and len(part.eased.Solids()) == 1
        return part.sharp.Volume() - part.eased.Volume()

    return lost


def arc_of(chord: float, rise: float) -> tuple[float, float]:
    """Radius and angle of a circle's part over a chord."""
    radius = (chord**2 / 4 + rise**2) / (2 * rise)
    return radius, 2 * math.asin(chord / (2 * radius))


@KERNEL_OR_CUTTERS
def test_round_over_along_a_hollow_edge_is_part_of_a_torus(eased):
    radius, angle = arc_of(L - 60, 20)
    r = 4.0
    whole = eased(
        "{arc: {edge: front, bend: hollow, rise: 20, flat: 30}}, {round over: {arrises: [top front], radius: 4}}"
    )
    # the wood lies outside the circle: the middle of what goes is farther out than the arris
    wanted = CORNER * r * r * ((radius + MIDDLE * r) * angle + 60)
    # at both kinks the two lines of the middle are cut short by the mitre between them
    wanted -= 2 * CORNER * r * r * 2 * MIDDLE * r * math.tan(angle / 4)
    assert whole == pytest.approx(wanted, rel=1e-4)


@KERNEL_OR_CUTTERS
def test_chamfer_on_the_end_of_a_turned_part_is_a_ring(eased):
    size, radius = 3.0, 12.0
    lost = eased("{turned: {diameter: 24}}, {chamfer: {arrises: ends, size: 3}}", size=(100.0, 30.0, 30.0))
    # a triangle, its middle a third of the size in from the edge, turned about the axis; at both ends
    assert lost == pytest.approx(2 * size**2 / 2 * 2 * math.pi * (radius - size / 3), rel=1e-6)


@KERNEL_OR_CUTTERS
def test_round_over_on_the_end_of_a_turned_part_is_a_ring(eased):
    r, radius = 3.0, 12.0
    lost = eased("{turned: {diameter: 24}}, {round over: {arrises: all, radius: 3}}", size=(100.0, 30.0, 30.0))
    assert lost == pytest.approx(2 * CORNER * r * r * 2 * math.pi * (radius - MIDDLE * r), rel=1e-6)


@KERNEL_OR_CUTTERS
@pytest.mark.parametrize(
    "entry",
    [
        "round over: {arrises: [top front, bottom front], radius: 3}",
        "chamfer: {arrises: [top front, bottom front], size: 3}",
    ],
)
def test_easing_along_a_free_curve(eased, shaped, how, entry):
    lost = eased(f"{SPLINE}, {{{entry}}}")
    above, below = (e.Length() for e in shaped(SPLINE).sharp.Edges() if e.geomType() == "BSPLINE")
    area = (CORNER if "round" in entry else 0.5) * 9
    # Pappus along a line that bends little: area times length
    assert lost == pytest.approx(area * (above + below), rel=5e-3)


@KERNEL_OR_CUTTERS
def test_cranked_ends_are_eased_into_the_inner_corner(eased):
    lost = eased(
        "{relieved ends: {edge: bottom, rise: 15, long: 60, level: 30}}, "
        "{round over: {arrises: [bottom front], radius: 3}}",
        thick="front-back",
    )
    line = (L - 120) + 2 * 30 + 2 * math.hypot(30, 15)
    assert lost == pytest.approx(CORNER * 9 * line, rel=5e-3)


@pytest.mark.parametrize(
    "shape",
    [
        HOLLOW,
        SPLINE,
        "{arc: {edge: left, bend: crown, rise: 40}}",
        "{relieved ends: {edge: front, rise: 15, long: 60}}",
    ],
)
def test_eased_twice_over(shaped, shape):
    entries = (
        "{round over: {arrises: [top front], radius: 2}}, {chamfer: {arrises: [bottom front, bottom left], size: 2}}"
    )
    part = shaped(f"{shape}, {entries}")
    assert part.eased.isValid() and len(part.eased.Solids()) == 1
    assert part.eased.Volume() < part.sharp.Volume()


def test_cove_along_a_hollow_edge(shaped):
    plain, moulded = shaped(HOLLOW), shaped(f"{HOLLOW}, {{cove: {{arrises: [top front], radius: 5}}}}")
    radius, angle = arc_of(L, 20)
    # a quarter circle round the arris; its middle 4 r / 3 pi into the wood; the ends of the arc lean
    wanted = math.pi / 4 * 25 * (radius + 4 * 5 / (3 * math.pi)) * angle
    assert plain.sharp.Volume() - moulded.sharp.Volume() == pytest.approx(wanted, rel=0.01)


@pytest.mark.parametrize(
    ("shaping", "said"),
    [
        (f"{HOLLOW}, {{chamfer: {{arrises: [top front], size: 3, stop: {{left: 20}}}}}}", "only a straight arris"),
        ("{turned: {diameter: 20}}, {round over: {arrises: long, radius: 2}}", "no arris of board is called long"),
    ],
)
def test_what_cannot_be_eased_is_said(misshaped, shaping, said):
    (problem,) = misshaped(shaping)
    assert (problem.code, problem.place.line, problem.parts) == ("shaping-fails", 15, ("board",))
    assert said in problem.message


def test_a_cutter_that_fails_is_said(misshaped, monkeypatch):
    def fails(*_):
        raise KernelFault("no cutter can be run along the curved arris")

    monkeypatch.setattr(easing, "_by_kernel", lambda *_: None)
    monkeypatch.setattr(easing, "cutter", fails)
    (problem,) = misshaped(f"{HOLLOW}, {{round over: {{arrises: [top front], radius: 3}}}}")
    assert problem.code == "shaping-fails" and problem.place.line == 15
