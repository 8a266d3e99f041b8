"""What holds on to what, panels that keep their middle, and how a piece stands with its drawer out."""

import numpy as np
import pytest
import trimesh

from model.checks import part_not_held
from model.floating import floating
from model.opening import opened
from model.piece import Piece
from model.stability import FILL, centre_of_mass, stand_open

HEAD = "plan: Trial\nrevision: 1\ndate: 2026-11-20\nmaker: Saltmarsh Lane Joinery\nunits: mm\nwood: white oak\n"
FRAME = f"""{HEAD}parts:
  stile: {{runs: up-down, thick: front-back, length: 500, width: 50, thickness: 20,
    where: {{bottom: floor, left: -200, centred: front-back}}, mirror: left-right}}
  rail: {{runs: left-right, thick: front-back, width: 50, thickness: 20, where: {{bottom: floor, centred: front-back}},
    cut to: {{left: stile, right: stile}}}}
  panel: {{rings: flat, runs: up-down, thick: front-back, length: 450, thickness: 8,
    where: {{bottom: rail.top, centred: front-back}}, cut to: {{left: stile, right: stile}}}}
joints:
  - mortise and tenon: {{of: rail, into: stile, thick: 8, long: 30}}
  - grooved panel: {{of: panel, into: [stile, rail], deep: 10, room: 3}}
"""
BOX = f"""{HEAD}parts:
  case: {{runs: up-down, thick: front-back, length: 300, width: 200, thickness: 150,
    where: {{bottom: floor, centred: [left-right, front-back]}}}}
  box: {{runs: front-back, thick: up-down, length: 140, width: 120, thickness: 60,
    where: {{bottom: case.top, centred: [left-right, front-back]}}}}
assemblies:
  drawer: {{parts: box, opens: {{front: 90}}}}
"""


def test_a_pinned_panel_keeps_its_middle(built) -> None:
    """By arithmetic: loose it may lie 3 mm over to one side and draw back all it shrinks; pinned, half."""
    (loose,), (pinned,) = floating(built(FRAME)), floating(built(FRAME.replace("room: 3", "room: 3, pinned: yes")))
    assert (loose.room, loose.held) == pytest.approx((6, 4))
    assert (pinned.room, pinned.held) == pytest.approx((6, 7))
    assert loose.leaves == pytest.approx(loose.moves) and pinned.leaves == pytest.approx(pinned.moves / 2)
    # 314 mm of flat-sawn white oak from 6 to 11 %: 0.00365 for 1 % (Wood Handbook, table 13-5)
    assert pinned.moves == pytest.approx(314 * 0.00365 * 5, rel=1e-6)


def test_with_its_drawer_out(built) -> None:
    piece: Piece = built(BOX)
    standing = stand_open(piece, tuple(opened(piece).values()))
    assert standing is not None
    case = trimesh.creation.box((200, 150, 300))
    box = trimesh.creation.box((120, 140, 60))
    kilograms = centre_of_mass(piece)[0] / (case.volume + box.volume)  # of a mm3
    full = box.volume * (kilograms + FILL / 1e9)
    centre = (case.volume * kilograms * np.array([0, 0, 150]) + full * np.array([0, -90, 330])) / (
        case.volume * kilograms + full
    )
    assert standing.centre == pytest.approx(centre, abs=1e-6)
    assert standing.mass == pytest.approx(case.volume * kilograms + full)
    # from the front edge of the feet, 75 mm in front of the middle
    assert standing.least == pytest.approx(75 + centre[1], abs=1e-6)


def test_what_stands_loose_is_an_assembly(built) -> None:
    """A panel and a shelf beside a joined frame: held by nothing; as an assembly it stands there by itself."""
    shelf = "  shelf: {runs: left-right, thick: up-down, length: 300, width: 90, thickness: 10, where: {bottom: 600}}\n"
    apart = FRAME.replace("joints:", f"{shelf}joints:")
    assert [problem.parts for problem in part_not_held.check(built(apart))] == [("shelf",)]
    lip = shelf.replace("shelf:", "lip:").replace("bottom: 600", "top: shelf.bottom")
    pair = FRAME.replace("joints:", f"{shelf}{lip}joints:\n  - glued face: {{of: lip, to: shelf}}")
    assert len(part_not_held.check(built(pair))) == 2
    whole = pair.replace("joints:", "assemblies:\n  loose shelf: {parts: [shelf, lip]}\njoints:")
    assert not part_not_held.check(built(whole))
