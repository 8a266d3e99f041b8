"""The order of assembly, replayed backwards with a boolean library: nothing may run into anything on its way out."""

from collections import Counter

import pytest

from model.sequence import assembly


def test_porch_bench_goes_together(bench, replay):
    stages = assembly(bench)
    replay(bench, stages)
    assert not any(len(move.parts) == len(bench.parts) for stage in stages for one in stage.every for move in one.moves)
    # the slats of the seat lie over everything else: they come last, and all in one stage
    assert {bench.parts[n].kind for move in stages[-1].moves for n in move.parts} == {"seat slat"}


def test_alike_groups_are_made_in_one_go(bench):
    stages = assembly(bench)
    (frames,) = [stage for stage in stages if stage.times == 2]
    kinds = [Counter(bench.parts[n].kind for n in stage.parts) for stage in frames.every]
    assert kinds[0] == kinds[1] == Counter({"leg": 2, "end rail": 1, "shelf bearer": 1})
    assert not set(frames.every[0].parts) & set(frames.every[1].parts)


POSTS = """  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 300, width: 60, thickness: 60,
     where: {bottom: floor, left: -300, FRONT}, mirror: MIRROR}
"""
RAIL = """  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 70, thickness: 24,
     where: {top: 240, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
"""


def test_one_rail_between_two_posts(built, replay):
    piece = built(
        "parts:\n"
        + POSTS.replace("FRONT", "centred: front-back").replace("MIRROR", "left-right")
        + RAIL
        + "joints: [mortise and tenon: {of: rail, into: post, thick: 8, long: 30, count: 2}]\n"
    )
    stages = assembly(piece)
    replay(piece, stages)
    assert len(stages) == 1 and stages[0].base == ("rail",)
    assert {move.parts[0]: move.path[0].direction for move in stages[0].moves} == {
        "post left": (-1, 0, 0),
        "post right": (1, 0, 0),
    }


TWO_FRAMES = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 300, width: 60, thickness: 60,
     where: {bottom: floor, left: -300, front: -200}, mirror: [left-right, front-back]}
  rail:
    {wood: white oak, runs: front-back, thick: left-right, width: 70, thickness: 24,
     where: {top: 240, centred: {left-right: post}}, cut to: {front: post, back: post}, mirror: left-right}
  cap:
    {wood: white oak, runs: up-down, thick: front-back, length: 20, width: 30, thickness: 30,
     where: {bottom: post.top, centred: {left-right: post, front-back: post}}, mirror: [left-right, front-back]}
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 800, width: 500, thickness: 30,
     where: {bottom: post.top, centred: [left-right, front-back]}}
joints:
  - mortise and tenon: {of: rail, into: post, thick: 8, long: 30, count: 4}
  - glued face: {of: cap, to: post, count: 4}
  - notch over: {of: top, over: cap, fit: 0.4, count: 4}
"""


def test_frames_that_only_the_top_holds_together(built, replay):
    # with the top off, two frames are left that do not hang together: each has to be made all the same
    piece = built(TWO_FRAMES)
    stages = assembly(piece)
    replay(piece, stages)
    assert {move.parts for move in stages[-1].moves} == {("top",)}


def test_locked_parts_go_in_all_at_once(built):
    # three blocks in a ring, glued left to right, front to back and bottom to top: none can go first
    piece = built(
        """parts:
  a: {wood: white oak, runs: front-back, thick: left-right, length: 80, width: 40, thickness: 40,
    where: {left: 0, front: -40, bottom: floor}}
  b: {wood: white oak, runs: up-down, thick: left-right, length: 80, width: 40, thickness: 40,
    where: {left: 40, front: 0, bottom: floor}}
  c: {wood: white oak, runs: left-right, thick: front-back, length: 80, width: 40, thickness: 40,
    where: {left: 0, front: -40, bottom: 40}}
joints:
  - glued face: {of: a, to: b, count: 1}
  - glued face: {of: b, to: c, count: 1}
  - glued face: {of: c, to: a, count: 1}
"""
    )
    (stage,) = assembly(piece)
    assert stage.base == () and sorted(stage.parts) == ["a", "b", "c"]
    assert all(move.path == () for move in stage.moves)


ON_A_PLINTH = """parts:
  plinth:
    {wood: white oak, runs: left-right, thick: front-back, length: 500, width: 80, thickness: 20,
     where: {bottom: floor, centred: left-right, front: -150}, mirror: front-back}
  plinth end:
    {wood: white oak, runs: front-back, thick: left-right, width: 80, thickness: 20,
     where: {bottom: floor, left: -250}, cut to: {front: plinth, back: plinth}, mirror: left-right}
  bottom:
    {wood: white oak, runs: left-right, thick: up-down, length: 600, width: 400, thickness: 20,
     where: {bottom: plinth.top, centred: [left-right, front-back]}}
  upright:
    {wood: white oak, runs: front-back, thick: left-right, length: 400, width: 300, thickness: 20,
     where: {bottom: bottom.top, left: bottom.left, centred: front-back}, mirror: left-right}
  shelf:
    {wood: white oak, runs: left-right, thick: up-down, width: 400, thickness: 20,
     where: {top: upright.top, centred: front-back}, cut to: {left: upright, right: upright}}
assemblies:
  base: {parts: [plinth, plinth end]}
joints:
  - glued face: {of: plinth end, to: plinth, count: 4}
  - glued face: {of: upright, to: bottom, count: 2}
  - glued face: {of: shelf, to: upright, count: 2}
fixings:
  - wood screw: {through: bottom, into: plinth, diameter: 4, long: 50, per place: 2, count: 4}
"""


def test_a_case_is_set_on_its_plinth(built, replay):
    """Common practice: nobody pulls the plinth under the case, though it would go that way as well."""
    piece = built(ON_A_PLINTH)
    stages = assembly(piece)
    replay(piece, stages)
    (last,) = [stage for stage in stages if len(stage.parts) == len(piece.parts)]
    (move,) = last.moves
    assert {piece.parts[name].kind for name in last.base} == {"plinth", "plinth end"}
    assert move.path[0].direction == pytest.approx((0, 0, 1))
