"""Parts short of what they are cut to, and rows between two places: distances taken from the solids.

Gaps are measured with the geometry kernel's own least distance between two solids (BRepExtrema), which knows nothing
of how the parts were placed.
"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from OCP.BRepExtrema import BRepExtrema_DistShapeShape

from model.checks import gap_not_kept

CASE = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 300, width: 200, thickness: 20,
     where: {bottom: floor, left: -200, centred: front-back}, mirror: left-right}
  bottom:
    {wood: white oak, runs: left-right, thick: up-down, width: 200, thickness: 20,
     where: {bottom: floor, centred: front-back}, cut to: {left: side, right: side}}
  rail:
    {wood: white oak, runs: left-right, thick: up-down, width: 50, thickness: 20,
     where: {top: side.top, front: side.front}, cut to: {left: side, right: side}}
"""


def apart(piece, a: str, b: str) -> float:
    """Least distance between two parts (mm)."""
    one, other = (piece.parts[name].sharp.moved(piece.parts[name].at).wrapped for name in (a, b))
    return float(BRepExtrema_DistShapeShape(one, other).Value())


def box(part) -> np.ndarray:
    """Lowest and highest corner in the piece."""
    points = np.array([v.toTuple() for v in part.sharp.moved(part.at).Vertices()])
    return np.array([points.min(axis=0), points.max(axis=0)])


def size(reach: tuple[float, float]) -> float:
    return reach[1] - reach[0]


@settings(max_examples=8, deadline=None)
@given(left=st.integers(0, 9), right=st.integers(1, 9), bottom=st.integers(1, 9), top=st.integers(1, 9))
def test_a_front_in_its_opening_has_no_size_of_its_own(built, left, right, bottom, top):
    piece = built(
        CASE
        + f"""  front:
    {{wood: white oak, runs: left-right, thick: front-back, thickness: 18, where: {{front: side.front}},
     cut to: {{left: side, right: side, bottom: bottom, top: rail}},
     gap: {{left: {left}, right: {right}, bottom: {bottom}, top: {top}}}}}
"""
    )
    found = [apart(piece, "front", other) for other in ("side left", "side right", "bottom", "rail")]
    assert found == pytest.approx([left, right, bottom, top], abs=1e-6)
    front = piece.parts["front"]
    # the opening is 360 wide and 260 high
    assert (size(front.length), size(front.width)) == pytest.approx((360 - left - right, 260 - bottom - top))


def test_one_gap_stands_for_every_cut_and_levels_are_cut_to_alike(built):
    piece = built(
        CASE
        + """  shelf:
    {wood: white oak, runs: left-right, thick: up-down, thickness: 18, where: {bottom: 100},
     cut to: {left: side, right: side, front: side.front, back: 60}, gap: 3}
"""
    )
    assert box(piece.parts["shelf"])[:, :2] == pytest.approx(np.array([[-177, -97], [177, 57]]))


def test_a_gap_may_have_a_size_of_its_own_in_each_system(built):
    piece = built(
        CASE
        + """  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 100, thickness: 18, where: {bottom: 100, front: 0},
     cut to: {left: side, right: side}, gap: {inch: 1/16, mm: 2}}
"""
    )
    assert box(piece.parts["shelf"])[:, 0] == pytest.approx([-178, 178])


def test_a_block_follows_in_all_three_directions(built):
    piece = built(
        CASE
        + """  block:
    {wood: white oak, runs: left-right, thick: front-back, where: {},
     cut to: {left: side, right: side, bottom: bottom, top: rail, front: side.front, back: 0}, gap: {left: 2, top: 5}}
"""
    )
    assert box(piece.parts["block"]) == pytest.approx(np.array([[-178, -100, 20], [180, 0, 275]]))
    block = piece.parts["block"]
    assert [size(block.length), size(block.width), size(block.thickness)] == pytest.approx([358, 255, 100])


LEANING = """parts:
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 800, width: 400, thickness: 20,
     where: {top: 500, centred: [left-right, front-back]}}
  leg:
    {wood: white oak, runs: up-down, thick: front-back, width: 50, thickness: 40,
     where: {left: top.left + 60, front: top.front + 30, measured at: top.bottom},
     lean: {foot to: {left: LEFT, front: FRONT}}, cut to: {top: top.bottom, bottom: floor},
     mirror: [left-right, front-back]}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 60, thickness: 20, follows: leg,
     where: {top: 300, front: leg.front + 5}, cut to: {left: leg, right: leg}, gap: GAP}
"""


@settings(max_examples=6, deadline=None)
@given(left=st.integers(1, 12), front=st.integers(0, 12), gap=st.sampled_from([1, 4.5, 20]))
def test_a_gap_is_square_to_a_leaning_face(built, left, front, gap):
    text = LEANING.replace("LEFT", str(left)).replace("FRONT", str(front)).replace("GAP", str(gap))
    piece = built(text)
    for leg in ("leg front left", "leg front right"):
        assert apart(piece, "rail", leg) == pytest.approx(gap, abs=1e-6)
    closed = built(text.replace(f", gap: {gap}", ""))
    # along the rail the gap is wider: its ends draw back by gap / cos of the angle between end and run
    shorter = size(closed.parts["rail"].length) - size(piece.parts["rail"].length)
    normals = [
        face.normalAt().toTuple()
        for face in closed.parts["leg front left"].sharp.moved(closed.parts["leg front left"].at).Faces()
    ]
    towards = max(normal[0] for normal in normals)
    assert shorter == pytest.approx(2 * gap / towards)


def test_of_several_openings_the_narrowest_and_then_the_first(built):
    text = """parts:
  upright:
    {wood: white oak, runs: up-down, thick: left-right, length: 300, width: 200, thickness: 20,
     where: {bottom: floor, centred: [left-right, front-back]}, repeat: {along: left-right, count: 4, gap: 100}}
  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 200, thickness: 18,
     where: {bottom: 100, centred: front-back}, cut to: {left: upright, right: upright}}
"""
    # four of 20 with 100 between them reach from -190 to 190
    assert box(built(text).parts["shelf"])[:, 0] == pytest.approx([-170, -70])


@settings(max_examples=8, deadline=None)
@given(count=st.integers(1, 5), thick=st.sampled_from([9, 18, 22.5]))
def test_a_row_between_two_faces_leaves_equal_gaps(built, count, thick):
    piece = built(
        CASE
        + f"""  shelf:
    {{wood: white oak, runs: left-right, thick: up-down, width: 100, thickness: {thick}, where: {{back: side.back}},
     cut to: {{left: side, right: side}},
     repeat: {{along: up-down, count: {count}, between: {{bottom: bottom.top, top: rail.bottom}}}}}}
"""
    )
    shelves = sorted((box(p) for n, p in piece.parts.items() if n.startswith("shelf")), key=lambda b: b[0][2])
    edges = [20.0, *(float(z) for shelf in shelves for z in shelf[:, 2]), 280.0]
    gaps = np.diff(edges)[::2]
    # 260 of room, less what the shelves take, shared by one gap more than there are shelves
    assert gaps == pytest.approx([(260 - count * thick) / (count + 1)] * (count + 1))


@pytest.mark.parametrize(("side", "starts"), [("front", [50, 125, 200]), ("back", [50, -25, -100])])
def test_a_row_runs_on_from_the_side_it_begins_on(built, side, starts):
    piece = built(
        f"""parts:
  slat:
    {{wood: white oak, runs: left-right, thick: up-down, length: 300, width: 60, thickness: 18,
     where: {{bottom: floor, centred: left-right, front: 50}},
     repeat: {{along: front-back, count: 3, gap: 15, from: {side}}}}}
"""
    )
    assert [float(box(piece.parts[f"slat {n}"])[0][1]) for n in (1, 2, 3)] == pytest.approx(starts)


SHELF = """  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 150, thickness: 20, gap: {left: 6, right: 2},
     where: {bottom: 150, centred: front-back}, cut to: {left: side, right: side}}
"""
STRIP = """  strip:
    {wood: white oak, runs: up-down, thick: left-right, length: 300, width: 40, thickness: 2.5,
     where: {bottom: floor, left: side left.right, centred: front-back}}
"""


def test_a_stated_gap_is_measured(built):
    """What stands in it makes it narrower: found as the kernel measures them."""
    assert not gap_not_kept.check(built(CASE + SHELF))
    piece = built(CASE + STRIP.replace("side left.right", "-180") + SHELF)
    (narrow,) = gap_not_kept.check(piece)
    assert set(narrow.parts) == {"shelf", "strip"}
    assert float(narrow.found.split()[0]) == pytest.approx(apart(piece, "shelf", "strip"), abs=0.05)
    # what the part is cut to is followed, so a gap that is too wide takes a solid that is not what was said
    piece = built(CASE + SHELF)
    shelf = piece.parts["shelf"]
    said = shelf.spec.model_copy(update={"gap": {"left": 5.0, "right": 2.0}})
    (wide,) = gap_not_kept.check(replace(piece, parts={**piece.parts, "shelf": replace(shelf, spec=said)}))
    assert set(wide.parts) == {"shelf", "side left"}
    assert float(wide.found.split()[0]) == pytest.approx(apart(piece, "shelf", "side left"), abs=0.05)
