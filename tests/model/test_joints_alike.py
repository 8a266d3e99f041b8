"""Joints made alike are told by their sizes; what is broken off of them for a picture is the part itself.

Overlap and free travel are manifold3d's, counts those of the design.
"""

from dataclasses import replace

import manifold3d
import numpy as np
import pytest

from model.frames import location, placing
from model.joint_samples import JointSample, joint_sample
from model.joints_alike import UNCUT, joints_alike
from model.meshes import mesh_of
from model.piece import Piece

SHARED = 1.0  # mm3: facets of bored holes
FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 600, width: 60, thickness: 60,
     where: {bottom: floor, left: -400, centred: front-back}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 70, thickness: 24,
     where: {top: 500, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
  low rail:
    {wood: white oak, runs: left-right, thick: front-back, width: WIDTH, thickness: 28,
     where: {top: 200, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - mortise and tenon: {of: rail, into: post, thick: 8, long: 30, count: 2}
  - mortise and tenon: {of: low rail, into: post, thick: 8, long: LONG, count: 2}
glue: wood glue
stands: on the wall
"""


@pytest.fixture
def framed(built):
    return lambda width=70, long=30: built(FRAME.replace("WIDTH", str(width)).replace("LONG", str(long)))


def test_alike_joints_are_one_whichever_parts_they_join(framed) -> None:
    (one,) = joints_alike(framed())
    assert len(one.joints) == 4
    assert one.pairs == (("B", "A"), ("C", "A"))


@pytest.mark.parametrize("changed", [{"width": 60}, {"long": 25}], ids=["wider", "longer"])
def test_a_size_that_differs_makes_another_joint(framed, changed: dict[str, int]) -> None:
    assert [len(alike.joints) for alike in joints_alike(framed(**changed))] == [2, 2]


def test_every_joint_that_is_cut_is_counted_once(bench_piece: Piece, rail_piece: Piece) -> None:
    for piece in (bench_piece, rail_piece):
        counted = [id(joint) for alike in joints_alike(piece) for joint in alike.joints]
        assert sorted(counted) == sorted(id(joint) for joint in piece.joints if joint.kind not in UNCUT)


@pytest.fixture(scope="module")
def samples(bench_piece: Piece) -> list[JointSample]:
    return [joint_sample(bench_piece, alike) for alike in joints_alike(bench_piece)]


def test_what_is_kept_of_a_member_is_the_part_itself(bench_piece: Piece, samples: list[JointSample]) -> None:
    """Nothing of it lies outside the part, and near the joint nothing of the part is missing."""
    for sample in samples:
        joint = sample.alike.shown
        seat = manifold3d.Manifold.hull_points(sample.seat)
        for name, shape in ((joint.a, sample.of), (joint.b, sample.into)):
            part, kept = bench_piece.parts[name].mesh.manifold, mesh_of(shape).manifold
            assert (kept - part).volume() == pytest.approx(0.0, abs=SHARED), (name, joint)
            assert ((part ^ seat) - kept).volume() == pytest.approx(0.0, abs=SHARED), (name, joint)


def test_the_members_come_apart_the_way_they_are_drawn(samples: list[JointSample]) -> None:
    for sample in samples:
        of, into = mesh_of(sample.of).manifold, mesh_of(sample.into).manifold
        for share in np.linspace(0.0, 1.0, 12):
            assert (of.translate((sample.away * share).tolist()) ^ into).volume() < SHARED, sample.alike.shown
        assert (of.translate(sample.away.tolist())).min_gap(into, 500.0) > 1.0, "it is still in the joint"


def test_members_that_stand_apart_are_drawn_all_the_same(bench_piece: Piece) -> None:
    """As of a joint with more play than the members are pushed together: the second one is set far aside."""
    alike = joints_alike(bench_piece)[0]
    joint = alike.shown
    into = bench_piece.parts[joint.b]
    way = np.array(joint.direction)
    far = location(placing(np.eye(3), way * (joint.travel + 60.0)))
    parts = {**bench_piece.parts, joint.b: replace(into, at=far * into.at)}
    moved = replace(alike, joints=(replace(joint, point=tuple(np.array(joint.point) + way * 30.0)),))
    sample = joint_sample(replace(bench_piece, parts=parts), moved)
    assert np.ptp(sample.seat, axis=0) == pytest.approx([min(p.over_all[2] for p in (into, parts[joint.a]))] * 3)
    assert sample.of.isValid() and sample.into.isValid()
