"""Parts placed as one: where they stand, that copies are congruent, what is found on each, and how they go in."""

import numpy as np
import pytest

from model.alike import match
from model.copies import finished, mirror_images, wholes
from model.sequence import assembly

CASE = """parts:
  side:
    {wood: white oak, runs: up-down, thick: left-right, length: 250, width: 220, thickness: 20,
     where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  divider:
    {wood: white oak, runs: up-down, thick: left-right, length: 250, width: 220, thickness: 20,
     where: {bottom: floor, centred: [left-right, front-back]}}
  deck:
    {wood: white oak, runs: left-right, thick: up-down, length: 600, width: 220, thickness: 20,
     where: {bottom: side.top, centred: [left-right, front-back]}}
"""
TRAY = """  base:
    {wood: white oak, runs: front-back, thick: up-down, length: 180, width: 200, thickness: 10,
     where: {bottom: floor, centred: [left-right, front-back]}}
  cheek:
    {wood: white oak, runs: front-back, thick: left-right, length: 180, width: 60, thickness: 12,
     where: {bottom: base.top, left: base.left, front: base.front}, mirror: left-right,
     shaping: [hole: {side: left, diameter: 6, deep: 5, at: {top: 15, front: 40}}]}
  lip:
    {wood: white oak, runs: left-right, thick: front-back, width: 40, thickness: 12,
     where: {bottom: base.top, back: base.back, centred: left-right}, cut to: {left: cheek, right: cheek}}
"""
HELD = """joints:
  - glued face: {of: deck, to: side, count: 2}
  - glued face: {of: deck, to: divider, count: 1}
  - glued face: {of: cheek, to: base, count: CHEEKS}
  - glued face: {of: lip, to: cheek, count: CHEEKS}
"""


def trays(how: str, cheeks: int) -> str:
    made = f"assemblies: {{tray: {{parts: [base, cheek, lip], {how}}}}}\n"
    return CASE + TRAY + made + HELD.replace("CHEEKS", str(cheeks))


def corners(part) -> np.ndarray:
    return np.array([v.toTuple() for v in part.sharp.moved(part.at).Vertices()])


def box(piece, names) -> np.ndarray:
    points = np.vstack([corners(piece.parts[name]) for name in names])
    return np.array([points.min(axis=0), points.max(axis=0)])


def test_the_whole_is_set_by_its_outermost_sides(built):
    piece = built(trays("where: {bottom: deck.top + 5, right: side.right - 30}", 2))
    (tray,) = piece.assemblies
    assert tray.name == "tray" and len(tray.parts) == 4
    # side.right means the first of the sides, the left one: -280
    reach = box(piece, tray.parts)
    assert (reach[0][2], reach[1][0]) == pytest.approx((275, -310))
    # what it says nothing of stays: the base was centred front to back
    assert (reach[0][1], reach[1][1]) == pytest.approx((-90, 90))
    # the parts keep their places in it: mirrored in the middle of the base, wherever that goes
    base, left, right = (box(piece, [name]) for name in ("base", "cheek left", "cheek right"))
    assert left[0][0] - base[0][0] == pytest.approx(0) == pytest.approx(base[1][0] - right[1][0])


def test_centred_on_a_part(built):
    piece = built(trays("where: {bottom: deck.top, centred: {left-right: divider}, front: deck.front}", 2))
    reach = box(piece, piece.assemblies[0].parts)
    assert reach == pytest.approx(np.array([[-100, -110, 270], [100, 70, 340]]))


def test_copies_of_a_row_are_congruent_and_marked_alike(built):
    row = "repeat: {along: up-down, count: 2, between: {bottom: 0, top: deck.bottom}}"
    piece = built(trays(f"where: {{left: side.right + 20}}, {row}", 4))
    one, two = piece.assemblies
    assert (one.name, two.name) == ("tray 1", "tray 2") and "cheek left of tray 2" in two.parts
    # 250 of room, two of 70: three gaps of 110 / 3
    assert [box(piece, t.parts)[0][2] for t in (one, two)] == pytest.approx([110 / 3, 70 + 220 / 3])
    for a, b in zip(one.parts, two.parts, strict=True):
        assert corners(piece.parts[b]) - corners(piece.parts[a]) == pytest.approx(
            np.tile([0, 0, 70 + 110 / 3], (len(corners(piece.parts[a])), 1))
        )
    items = {item.name: item for item in piece.items}
    assert (items["cheek"].quantity, len(items["cheek"].mirrored)) == (4, 2)
    assert items["lip"].quantity == items["base"].quantity == 2


def test_a_mirrored_copy_has_mirrored_parts(built):
    how = "where: {left: side.right + 20, bottom: 50}, mirror: left-right"
    piece = built(trays(how, 4))
    left, right = piece.assemblies
    assert (left.name, right.name) == ("tray left", "tray right")
    assert (left.mirrored, right.mirrored) == ((), ("left-right",))
    # what stands on the left of the one stands on the right of its image, and is called so
    swapped = {"base": "base", "cheek left": "cheek right", "cheek right": "cheek left", "lip": "lip"}
    for own, image in swapped.items():
        a, b = piece.parts[f"{own} of tray left"], piece.parts[f"{image} of tray right"]
        wanted = corners(a) * [-1, 1, 1]
        assert sorted((wanted.round(6) + 0.0).tolist()) == sorted((corners(b).round(6) + 0.0).tolist())
        assert match(a.sharp, b.sharp).mirrored is not None
        assert b.sharp.isValid() and b.sharp.Volume() == pytest.approx(a.sharp.Volume())


def test_an_assembly_is_made_apart_and_goes_in_last(built):
    piece = built(trays("where: {left: side.right + 20, bottom: 50}, mirror: left-right", 4))
    stages = assembly(piece)
    last = stages[-1]
    assert sorted(m.parts for m in last.moves) == sorted(made.parts for made in piece.assemblies)
    assert {move.path[0].direction[2] for move in last.moves} == {0.0}
    assert len(wholes(piece, last)) == 2
    made = [stage for stage in stages if finished(piece, stage)]
    # the tray has a plane of symmetry, so that its mirror image is one more like it
    assert [stage.times for stage in made] == [2] and mirror_images(piece, made[0]) == 0
    before = [stage for stage in stages[: stages.index(made[0])] if set(stage.parts) & set(made[0].parts)]
    assert all(set(stage.parts) < set(made[0].parts) for stage in before)


def test_a_copy_of_the_other_hand_is_told_apart(built):
    text = trays("where: {left: side.right + 20, bottom: 50}, mirror: left-right", 4)
    piece = built(
        text.replace(
            "thickness: 10,", "thickness: 10, shaping: [hole: {side: top, diameter: 9, at: {left: 40, front: 50}}],"
        )
    )
    (made,) = [stage for stage in assembly(piece) if finished(piece, stage)]
    assert mirror_images(piece, made) == 1


def test_an_assembly_that_is_locked_in_goes_together_part_by_part(built):
    # a tray whose lip passes through both posts: it cannot go in as one, and is still put together somehow
    piece = built(
        """parts:
  post:
    {wood: white oak, runs: up-down, thick: left-right, length: 200, width: 60, thickness: 20,
     where: {bottom: floor, left: -150, centred: front-back}, mirror: left-right}
  bar:
    {wood: white oak, runs: left-right, thick: up-down, width: 30, thickness: 20,
     where: {bottom: 90, centred: front-back}, cut to: {left: post, right: post}}
  head:
    {wood: white oak, runs: up-down, thick: left-right, length: 40, width: 40, thickness: 20,
     where: {bottom: 80, right: post.left, centred: front-back}, mirror: left-right}
assemblies: {yoke: {parts: [bar, head]}}
joints: [glued face: {of: bar, to: post, count: 2}, glued face: {of: head, to: post, count: 2}]
"""
    )
    stages = assembly(piece)
    assert sorted(stages[-1].parts) == sorted(piece.parts)
    assert not any(wholes(piece, stage) for stage in stages)


def test_nothing_changes_for_a_piece_with_a_name_for_the_whole(built):
    named = "assemblies: {case: {parts: [side, divider, deck]}}\n"
    text = CASE + named + "joints: [glued face: {of: deck, to: side}, glued face: {of: deck, to: divider}]\n"
    stages = assembly(built(text))
    assert stages == assembly(built(text.replace(named, "")))
