"""The fit check on the kinds of joint, fixing and material: what has to be told of each, and what not.

Movements are worked out beside each figure with the Wood Handbook's coefficients (table 13-5: white oak tangential
0.00365, radial 0.00180) and equation 13-2, over the 6 to 11 % that are taken where nothing is said.
"""

import pytest

from model.checks import CHECKS, check_fit
from model.floating import floating
from model.mortises import mortises
from plans.problems import Problem

HEAD = "plan: Trial\nrevision: 1\ndate: 2026-11-20\nmaker: Saltmarsh Lane Joinery\nunits: mm\nstands: WALL\nparts:\n"

PANEL = """  panel: {wood: white oak, rings: flat, runs: left-right, thick: up-down, length: 600, width: WIDE,
    thickness: 24, where: {top: 500, centred: [left-right, front-back]}}
  end: {wood: white oak, rings: flat, runs: front-back, thick: up-down, length: WIDE, width: 70, thickness: 24,
    where: {top: 500, right: panel.left, centred: front-back}, mirror: left-right}
joints:
  - JOINT
"""
CASE = """  side: {wood: white oak, rings: flat, runs: up-down, thick: left-right, length: 700, width: 280,
    thickness: 20, where: {bottom: floor, left: -350, centred: front-back}, mirror: left-right}
  shelf: {wood: white oak, rings: flat, runs: left-right, thick: up-down, width: 280, thickness: 20,
    where: {bottom: 300, centred: front-back}, cut to: {left: side, right: side}}
BACKjoints:
  - housing: {of: shelf, into: side, deep: 6}
MORE"""
BACK = """  back: {sheet: birch plywood, stock: 6 mm, runs: up-down, thick: front-back, length: 700, width: 700,
    thickness: 6, where: {bottom: floor, front: side.back, centred: left-right}}
"""
DOOR = """  stile: {wood: white oak, runs: up-down, thick: front-back, length: 500, width: 50, thickness: 20,
    where: {bottom: floor, left: -200, centred: front-back}, mirror: left-right}
  rail: {wood: white oak, runs: left-right, thick: front-back, width: 50, thickness: 20,
    where: {top: stile.top, centred: front-back}, cut to: {left: stile, right: stile}, mirror: up-down}
  panel: {MADE, runs: up-down, thick: front-back, width: 300, thickness: 12,
    where: {bottom: 50, centred: [left-right, front-back]}, length: 400}
joints:
  - grooved panel: {of: panel, into: stile, thick: 6, deep: DEEP, room: ROOM}
"""


@pytest.fixture
def told(built):
    def of(text: str, wall: str = "on the wall") -> tuple[Problem, ...]:
        return check_fit(built(HEAD.replace("WALL", wall) + text), as_printed=False)

    return of


def codes(problems: tuple[Problem, ...]) -> set[str]:
    return {problem.code for problem in problems}


def panel(joint: str, wide: float = 300) -> str:
    return PANEL.replace("JOINT", joint).replace("WIDE", str(wide))


BREADBOARD = "breadboard end: {of: panel, into: end, thick: 8, long: 25, pegs: {diameter: 6, count: 3, set in: 10}MORE}"
HOUSED = "housing: {of: panel, into: end, deep: 8, thick: 8}"
DOWELS = "dowel: {of: panel, into: end, diameter: 8, long: 40, per place: COUNT}"
BISCUITS = "biscuit: {of: panel, into: end, size: 20, per place: COUNT}"
LOOSE = "loose tenon: {of: panel, into: end, thick: 8, wide: 40, long: 50, per place: COUNT}"


@pytest.mark.parametrize(
    ("joint", "wide", "fires"),
    [
        (BREADBOARD.replace("MORE", ""), 300, False),  # only the middle peg holds
        (HOUSED, 300, True),  # 300 x 0.00365 x 5 = 5.5 mm in a groove along the grain of the end
        (HOUSED, 70, False),  # 1.3 mm
        (DOWELS.replace("COUNT", "5"), 300, True),  # the outer ones stand 240 mm apart: 4.4 mm
        (DOWELS.replace("COUNT", "2"), 120, False),  # 60 mm apart: 1.1 mm
        (LOOSE.replace("COUNT", "3"), 300, True),  # 200 mm apart: 3.7 mm
        (LOOSE.replace("COUNT", "1"), 70, False),
        (BISCUITS.replace("COUNT", "3"), 300, True),  # 200 mm apart: 3.7 mm
        (BISCUITS.replace("COUNT", "1"), 120, False),
        ("tongue and groove: {of: panel, into: end, thick: 8, long: 8}", 300, True),
        ("tongue and groove: {of: panel, into: end, thick: 8, long: 8, glue: no}", 300, False),
    ],
)
def test_glue_across_the_grain(told, joint, wide, fires):
    found = codes(told(panel(joint, wide)))
    assert ("cross-grain-glue" in found) is fires
    assert not found & {"same-place", "glue-faces-apart", "part-not-held", "tenon-bottoms"}


def test_play_of_a_breadboard_end(told):
    # an edge 150 mm from the middle moves 150 x 0.00365 x 5 / 2 = 1.4 mm to either side
    assert "slot-too-short" in codes(told(panel(BREADBOARD.replace("MORE", ", play: 1.2"))))
    assert "slot-too-short" not in codes(told(panel(BREADBOARD.replace("MORE", ", play: 1.5"))))


def test_solid_side_glued_to_a_plywood_shelf(told):
    wood, sheet = (
        "shelf: {wood: white oak, rings: flat,",
        "shelf: {sheet: birch plywood, stock: 18 mm,",
    )
    solid = CASE.replace("BACK", "").replace("MORE", "")
    # both of solid wood, they move alike; plywood holds the side still: 280 x 0.00365 x 5 = 5.1 mm
    assert "cross-grain-glue" not in codes(told(solid))
    ply = solid.replace(wood, sheet).replace("width: 280, thickness: 20,\n    where: {bottom: 300", "SIZE")
    ply = ply.replace("SIZE", "width: 280, thickness: 18,\n    where: {bottom: 300")
    assert "cross-grain-glue" in codes(told(ply))


def test_a_case_racks_without_a_back(told):
    bare = CASE.replace("BACK", "").replace("MORE", "")
    (problem,) = [p for p in told(bare, "on the floor") if p.code == "may-rack"]
    assert "left-right" in problem.message and problem.parts == ("side left", "side right")
    backed = CASE.replace("BACK", BACK).replace(
        "MORE", "fixings:\n  - nail: {through: back, into: side, size: 1.2 mm, long: 25, per place: 6}\n"
    )
    assert "may-rack" not in codes(told(backed, "on the floor"))


def test_housing_in_end_grain_is_a_note(told):
    found = told(CASE.replace("BACK", "").replace("MORE", ""))
    assert {p.severity for p in found if p.code == "end-grain-glue"} == {"note"}


@pytest.mark.parametrize(
    ("made", "deep", "room", "wanted"),
    [
        # it shows 300 mm wide, and 2 (deep - room) more are in the grooves
        ("wood: white oak, rings: flat", 12, 1, {"panel-binds"}),  # 322 mm: 5.9 of 2 mm
        ("wood: white oak, rings: flat", 12, 4, {"panel-comes-out"}),  # 316 mm: 5.8 of 4 mm held when it lies over
        ("wood: white oak, rings: flat", 16, 4, set()),  # 324 mm: 5.9 of 8 both ways
        ("wood: white oak, rings: quarter", 12, 2, set()),  # 320 mm: 2.9 of 4, 8 held
        ("sheet: birch plywood, stock: 12 mm", 12, 0, set()),
    ],
)
def test_panel_in_its_grooves(told, built, made, deep, room, wanted):
    text = DOOR.replace("MADE", made).replace("DEEP", str(deep)).replace("ROOM", str(room))
    assert codes(told(text)) & {"panel-binds", "panel-comes-out"} == wanted
    assert "cross-grain-glue" not in codes(told(text))
    found = floating(built(HEAD.replace("WALL", "on the wall") + text))
    if made.startswith("wood"):
        (one,) = found
        share = 0.00365 if "flat" in made else 0.00180
        assert one.moves == pytest.approx((300 + 2 * (deep - room)) * share * 5)
        assert (one.room, one.held) == (pytest.approx(2 * room), pytest.approx(deep - 2 * room))
    else:
        assert not found


BOARDS = """  board: {wood: white oak, rings: flat, runs: left-right, thick: up-down, length: 400, width: 90,
    thickness: 16, where: {bottom: floor, centred: [left-right, front-back]},
    repeat: {along: front-back, count: 3, gap: GAP}}
joints:
  - tongue and groove: {of: board, into: board, edge: back, thick: 5, long: LONG, glue: no}
"""


@pytest.mark.parametrize(
    ("gap", "long", "wanted"),
    # two halves of 90 mm move 90 x 0.00365 x 5 = 1.64 mm
    [(2, 8, set()), (1, 8, {"panel-binds"}), (2, 3.5, {"panel-comes-out"})],
)
def test_tongued_boards(told, gap, long, wanted):
    text = BOARDS.replace("GAP", str(gap)).replace("LONG", str(long))
    assert codes(told(text)) & {"panel-binds", "panel-comes-out", "gap-closes"} == wanted


TOP = """  top: {wood: white oak, rings: flat, runs: left-right, thick: up-down, length: 700, width: 400, thickness: 30,
    where: {top: 500, centred: [left-right, front-back]}}
  batten: {wood: white oak, runs: front-back, thick: left-right, length: 380, width: 40, thickness: 30,
    where: {top: top.bottom, centred: [left-right, front-back]}}
fixings:
  - FIXING
"""
SCREW = "wood screw: {through: batten, into: top, diameter: 4, long: 65, per place: 2MORE}"


@pytest.mark.parametrize(
    ("more", "wanted"),
    # two screws 190 mm apart: 190 x 0.00365 x 5 = 3.5 mm; slotted, 95 mm from the middle: 0.9 mm to either side
    [
        ("", {"cross-grain-screws"}),
        (", slotted: front-back, play: 1", set()),
        (", slotted: front-back, play: 0.5", {"slot-too-short"}),
        (", slotted: left-right, play: 3", {"slot-too-short"}),
    ],
)
def test_screws_that_let_a_top_move(told, more, wanted):
    text = TOP.replace("FIXING", SCREW.replace("MORE", more))
    assert codes(told(text)) - {"needs-glue-up"} == wanted


def test_fasteners_let_a_top_move_and_nails_do_not(told):
    fastener = "top fastener: {of: batten, to: top, form: z clip, per place: 3}"
    assert "cross-grain-screws" not in codes(told(TOP.replace("FIXING", fastener)))
    nail = "nail: {through: batten, into: top, size: 2 mm, long: 60, per place: 2}"
    assert "cross-grain-screws" in codes(told(TOP.replace("FIXING", nail)))


def test_plywood_top_does_not_move(told):
    text = TOP.replace("wood: white oak, rings: flat,", "sheet: birch plywood, stock: 18 mm,", 1)
    text = text.replace("thickness: 30,\n    where: {top: 500", "thickness: 18,\n    where: {top: 500")
    text = text.replace("FIXING", SCREW.replace("MORE", "").replace("long: 65", "long: 55"))
    assert not codes(told(text)) & {"cross-grain-screws", "needs-glue-up", "short-grain", "screw-in-end-grain"}


FRAME = """  post: {wood: white oak, runs: up-down, thick: front-back, length: 400, width: 60, thickness: 60,
    where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  rail: {wood: white oak, runs: left-right, thick: front-back, width: 100, thickness: 30,
    where: {top: 300, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - mortise and tenon: {of: rail, into: post, shoulders: {top: 12, bottom: 12}, MORE, count: 2}
"""


@pytest.mark.parametrize(
    ("more", "count", "wanted"),
    [
        ("thick: 10, through: yes", 2, set()),
        ("thick: 10, through: yes, proud: 5, wedges: {flare: 2}", 2, set()),
        ("thick: 6, twin: 8, long: 30", 4, set()),
        ("thick: 10, split: 15, long: 30, haunch: {top: 8}", 4, set()),
        ("thick: 10, long: 40, pegs: {diameter: 6, count: 1, set in: 12}", 2, set()),
        ("thick: 10, long: 10", 2, {"tenon-short"}),
        ("thick: 6, twin: 14, long: 30", 4, {"narrow-shoulder"}),
        ("thick: 5, long: 30", 2, {"thin-tenon"}),
    ],
)
def test_every_form_of_tenon(told, built, more, count, wanted):
    text = FRAME.replace("MORE", more)
    assert codes(told(text)) & set(CHECKS) - {"little-glue", "cross-grain-glue"} == wanted
    found = mortises(built(HEAD.replace("WALL", "on the wall") + text))
    assert len(found) == count
    for mortise in found:
        assert mortise.through is ("through" in more)
        assert mortise.long == pytest.approx(60 if mortise.through else float(more.split("long: ")[1].split(",")[0]))


CORNER = """  side: {wood: white oak, runs: front-back, thick: left-right, length: 300, width: 100, thickness: 15,
    where: {bottom: floor, left: -150, centred: front-back}, mirror: left-right}
  front: {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 100, thickness: 15,
    where: {bottom: floor, front: side.front, centred: left-right}, mirror: front-back}
joints:
  - JOINT
"""


@pytest.mark.parametrize(
    ("joint", "wanted"),
    [
        ("dovetail: {of: side, into: front, tails: 3, pin: 6}", set()),
        ("box joint: {of: side, into: front, fingers: 7}", set()),
        ("box joint: {of: side, into: front, fingers: 7, fit: 0.4}", {"loose-joint"}),
        ("mitre: {of: side, into: front}", {"end-grain-glue"}),
        ("mitre: {of: side, into: front, spline: {thick: 3, wide: 8}}", set()),
        ("mitre: {of: side, into: front, keys: {number: 2, thick: 3, deep: 15}}", set()),
    ],
)
def test_corners_of_a_box(told, joint, wanted):
    assert {p.code for p in told(CORNER.replace("JOINT", joint)) if p.severity != "note"} == wanted


def test_stock_of_what_is_glued_up_and_of_sheets(told):
    board = "  board: {MADE, runs: left-right, thick: up-down, length: LONG, width: WIDE, thickness: THICK,\n"
    board += "    where: {bottom: floor, centred: [left-right, front-back]}}\n"

    def of(made: str, long: float, wide: float, thick: float) -> set[str]:
        sizes = {"MADE": made, "LONG": long, "WIDE": wide, "THICK": thick}
        text = board
        for word, value in sizes.items():
            text = text.replace(word, str(value))
        return codes(told(text)) & {"needs-glue-up", "stock-too-thin", "board-too-long", "small-part"}

    assert of("wood: white oak, stock: 4/4", 900, 450, 20) == {"needs-glue-up"}
    edges = "wood: white oak, stock: 4/4, glued up: {joined: edge to edge, boards: 4}"
    assert of(edges, 900, 450, 20) == set()
    assert of("wood: white oak, stock: 4/4", 900, 90, 60) == {"stock-too-thin"}
    faces = "wood: white oak, stock: 4/4, glued up: {joined: face to face, boards: 3}"
    assert of(faces, 900, 90, 60) == set()
    assert of("sheet: hardboard, stock: 3 mm", 900, 900, 3) == set()
    assert of("sheet: birch plywood, stock: 18 mm", 2600, 900, 18) == {"board-too-long"}
    assert of("material: granite, supplied: yes", 900, 600, 4) == set()
