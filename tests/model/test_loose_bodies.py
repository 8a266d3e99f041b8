"""Loose pieces as bodies: their volumes by closed formulas, and that each lies in what was cut for it."""

import math

import pytest

from model.loose_bodies import loose_solids

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, width: 60, thickness: 40, cut to: {top: 500, bottom: floor},
     where: {left: -300, centred: front-back, measured at: 340}, lean: {foot to: {left: LEAN}}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 80, thickness: 30,
     where: {top: 380, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - SAID
"""
CORNER = """parts:
  side:
    {wood: white oak, runs: left-right, thick: THICK, length: 300, width: 60, thickness: 20,
     where: {left: 0, front: 0, bottom: floor}}
  end:
    {wood: white oak, runs: front-back, thick: OTHER, length: 200, width: 60, thickness: 20,
     where: {left: 0, front: 0, bottom: floor}}
joints:
  - mitre: {of: side, into: end, SAID}
"""
# a size 20 biscuit is 56 x 23 x 4 mm: two segments of a circle
HALF, RISE = 28.0, 11.5
RADIUS = (HALF**2 + RISE**2) / (2 * RISE)
SEGMENT = RADIUS**2 * math.asin(HALF / RADIUS) - HALF * (RADIUS - RISE)


@pytest.mark.parametrize("lean", [0, 8])
@pytest.mark.parametrize(
    ("said", "count", "volume"),
    [
        ("loose tenon: {of: rail, into: post, thick: 10, wide: 40, long: 70, deep: 30}", 1, 10 * 40 * 70),
        ("dowel: {of: rail, into: post, diameter: 10, long: 50, per place: 2}", 2, math.pi * 25 * 50),
        ("biscuit: {of: rail, into: post, size: '20', per place: 1}", 1, 2 * SEGMENT * 4),
    ],
)
def test_what_is_let_into_both_parts_fills_what_was_cut(built, said, count, volume, lean):
    piece = built(FRAME.replace("SAID", said).replace("LEAN", str(lean)))
    joint = piece.joints[0]
    solids = loose_solids(joint)
    assert len(solids) == count == joint.loose[0].count
    for one in solids:
        assert one.solid.Volume() == pytest.approx(volume, rel=1e-6)
        middle = one.mesh.box.mean(axis=0)
        for name in (joint.a, joint.b):
            part = piece.parts[name]
            assert (part.mesh.manifold ^ one.mesh.manifold).volume() < 0.01 * volume  # facets of a round hole
            # without the joint it would lie in the wood of both
            assert (part.mesh.manifold.hull() ^ one.mesh.manifold).volume() > 0.2 * volume
        assert abs(middle - joint.point).max() < 60


@pytest.mark.parametrize("thick", [("front-back", "left-right"), ("up-down", "up-down")])
def test_a_spline_fills_its_slots(built, thick):
    text = CORNER.replace("THICK", thick[0]).replace("OTHER", thick[1]).replace("SAID", "spline: {thick: 4, wide: 12}")
    if thick[0] == "up-down":
        text = text.replace("where: {left: 0, front: 0, bottom: floor}", "where: {left: 0, front: 0, bottom: 100}")
    piece = built(text)
    (one,) = loose_solids(piece.joints[0])
    parts = [piece.parts[name].mesh.manifold for name in ("side", "end")]
    assert (parts[0] ^ one.mesh.manifold).volume() + (parts[1] ^ one.mesh.manifold).volume() < 0.01
    # through the width of a box; along the mitre of a frame, whose ends are cut flush with both edges
    long = 60.0 if thick[0] == "front-back" else math.hypot(60, 60)
    assert one.solid.Volume() == pytest.approx(4 * 12 * long, rel=1e-6)


def test_keys_fill_their_slots_and_stay_inside_the_corner(built):
    text = CORNER.replace("THICK", "front-back").replace("OTHER", "left-right")
    piece = built(text.replace("SAID", "keys: {number: 2, thick: 4, deep: 12}"))
    solids = loose_solids(piece.joints[0])
    assert len(solids) == 2
    for one in solids:
        # as deep as half of its base in a square corner of equal boards
        assert one.solid.Volume() == pytest.approx(12 * 12 * 4, rel=1e-6)
        assert one.mesh.box[0][:2] == pytest.approx([0, 0], abs=1e-6)
        shared = [(piece.parts[name].mesh.manifold ^ one.mesh.manifold).volume() for name in ("side", "end")]
        assert sum(shared) < 0.01
