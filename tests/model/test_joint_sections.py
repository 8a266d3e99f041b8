"""Sections of joints: areas and sizes of a known frame by closed formula, and which plane is cut."""

import numpy as np
import pytest

from model.joint_samples import joint_sample
from model.joint_sections import joint_section
from model.joints_alike import joints_alike

FRAME = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, width: 44, thickness: 40, cut to: {top: 500, bottom: floor},
     where: {left: -300, centred: front-back, measured at: 340}, lean: {foot to: {left: LEAN}}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 80, thickness: 30,
     where: {top: TOP, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
joints:
  - SAID
"""
FIT, RELIEF = 0.1, 1.5


def section_of(built, said: str, lean: float = 0.0, top: float = 380.0):
    piece = built(FRAME.replace("SAID", said).replace("LEAN", str(lean)).replace("TOP", str(top)))
    section = joint_section(piece, joint_sample(piece, joints_alike(piece)[0]))
    assert section is not None
    return section


def sizes_of(section) -> set[float]:
    return {round(size.value, 2) for size in section.sizes}


TENON = "mortise and tenon: {of: rail, into: post, thick: 10, long: 25, shoulders: {top: 10, bottom: 10}"


def test_a_plain_tenon_is_cut_to_show_its_thickness(built):
    section = section_of(built, TENON + "}")
    assert abs(section.plane.towards) == pytest.approx([0, 0, 1])
    rail, post = section.cuts
    # the whole post is shown, end grain: 44 x 40 less its mortise
    assert post.section.area() == pytest.approx(44 * 40 - (10 + 2 * FIT) * (25 + RELIEF), rel=1e-6)
    assert post.stuff.on_end(section.plane) and not rail.stuff.on_end(section.plane)
    assert not any(flags.any() for flags in post.broken) and sum(flags.sum() for flags in rail.broken) > 5
    # length, thickness, a shoulder each of (30 - 10) / 2, depth of the mortise
    assert {25.0, 10.0, 26.5} <= sizes_of(section)


def test_a_haunch_is_shown_where_it_can_be_seen(built):
    section = section_of(built, TENON + ", haunch: {top: 8}}", top=500.0)
    assert abs(section.plane.towards) == pytest.approx([0, 1, 0])
    assert {25.0, 60.0, 8.0, 26.5} <= sizes_of(section)


@pytest.mark.parametrize("lean", [0.0, 6.0, 12.0])
def test_sizes_are_as_long_as_what_they_are_drawn_on(built, lean):
    section = section_of(built, TENON + "}", lean)
    assert section.sizes
    for size in section.sizes:
        assert abs(float(size.end[size.axis] - size.start[size.axis])) == pytest.approx(size.value, abs=0.15)
        corners = np.concatenate([ring for cut in section.cuts for ring in cut.rings])
        for end in (size.start, size.end):
            assert np.linalg.norm(corners - end, axis=1).min() < 1e-9


def test_a_dowel_lies_in_both_holes(built):
    section = section_of(built, "dowel: {of: rail, into: post, diameter: 10, long: 50, per place: 2}")
    assert [cut.name for cut in section.cuts[2:]] == ["dowel"]
    dowel = section.cuts[2]
    assert dowel.section.area() == pytest.approx(10 * 50, rel=0.02)  # facets
    for member in section.cuts[:2]:
        assert (member.section ^ dowel.section).area() < 1e-6
        assert member.adjoins(dowel)
    assert 26.5 in sizes_of(section)
