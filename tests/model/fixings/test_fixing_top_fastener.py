"""Top fasteners: what is cut from the rail, against boxes and circular segments; nothing in the way of anything."""

import math

import pytest

from model.checks import check_fit
from model.takeoff import hardware

# a rail 22 mm thick under a top whose middle lies behind it
TABLE = """parts:
  rail:
    {wood: red maple, runs: left-right, thick: front-back, length: 600, width: 80, thickness: THICK,
     where: {bottom: floor, left: 0, front: -200}}
  top:
    {wood: red maple, runs: left-right, thick: up-down, length: 700, width: 500, thickness: 25,
     where: {bottom: rail.top, left: -50, centred: front-back}}
fixings:
  - top fastener: {of: rail, to: top, form: FORM, per place: 3, count: 3}
"""
INCH = 25.4


def table(text: str = TABLE, form: str = "button", thick: float = 22):
    return text.replace("FORM", form).replace("THICK", str(thick))


# slot: tongue and 1.5 mm play deep; 1.5 mm play at both ends; 0.4 mm higher than the tongue
SLOTS = {
    "button": (3 / 8 * INCH + 1.5) * (INCH + 3) * (3 / 8 * INCH + 0.4),
    "z clip": (3 / 8 * INCH + 1.5) * (5 / 8 * INCH + 3) * (5 / 64 * INCH + 0.4),
}


@pytest.mark.parametrize("form", SLOTS)
def test_slots_for_tongues(built, form):
    piece = built(table(form=form))
    assert 600 * 80 * 22 - piece.parts["rail"].sharp.Volume() == pytest.approx(3 * SLOTS[form], rel=1e-9)
    assert piece.parts["top"].sharp.Volume() == pytest.approx(700 * 500 * 25)
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}


def test_figure_eight_lies_flush_and_open_to_the_inside(built):
    piece = built(table(form="figure eight"))
    radius, thick = 3 / 8 * INCH + 0.05, 3 / 32 * INCH
    inset = (1.25 - 0.75) / 2 * INCH  # half of what the middles are apart: the neck lies over the inner face
    # a circle less the segment beyond the inner face (closed formula)
    angle = 2 * math.acos(inset / radius)
    area = math.pi * radius**2 - radius**2 / 2 * (angle - math.sin(angle))
    assert 600 * 80 * 22 - piece.parts["rail"].sharp.Volume() == pytest.approx(3 * area * thick, rel=1e-6)
    # the trial piece stands on the floor by itself, and falls over
    assert {p.code for p in check_fit(piece, as_printed=False) if p.severity == "error"} <= {"tips-over"}


@pytest.mark.parametrize("form", ["button", "z clip", "figure eight"])
def test_they_stand_inside_under_the_top(built, form):
    piece = built(table(form=form))
    for solid in piece.fixings[0].solids():
        assert solid.isValid() and len(solid.Solids()) == 1
        reach = solid.BoundingBox()
        # the rail's inner face lies at -178, the top's lower face at 80
        assert reach.ymin > -200 and reach.ymax > -178 + 10 and reach.zmax <= 80 + 0.01
    assert [row.count for row in hardware(piece)] == [3]


def test_rail_too_thin(outcome):
    for form in ("button", "figure eight"):
        piece, problems = outcome(table(form=form, thick=12))
        assert piece is None
        assert [(p.code, p.place.line) for p in problems] == [("fixing-fails", 14)]
        assert "mm" in problems[0].message
