"""Where a part is cut across: areas and depths of a known post by closed formula."""

import numpy as np
import pytest

from model.part_sections import part_sections

POST = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, width: 44, thickness: 40, cut to: {top: 500, bottom: floor},
     where: {left: 0, front: 0}}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, length: 300, width: 80, thickness: 30,
     where: {bottom: RAIL, left: 44, front: 0}}
  end:
    {wood: white oak, runs: front-back, thick: left-right, length: 300, width: 80, thickness: 30,
     where: {bottom: END, left: 0, front: 40}}
joints:
  - mortise and tenon: {of: rail, into: post, thick: 8, long: 15, shoulders: {top: 10, bottom: 10}, ends: [left]}
  - mortise and tenon: {of: end, into: post, thick: 8, long: 12, shoulders: {top: 10, bottom: 10}, ends: [front]}
"""
FIT, RELIEF = 0.1, 1.5
RIGHT, UP = np.array([0.0, 0.0, -1.0]), np.array([1.0, 0.0, 0.0])


def sections(built, rail: float, end: float):
    piece = built(POST.replace("RAIL", str(rail)).replace("END", str(end)))
    return [list(part_sections(piece.parts[name], RIGHT, UP)) for name in ("post", "rail")]


def test_mortises_side_by_side_are_cut_through_together(built):
    post, rail = sections(built, 300.0, 320.0)
    assert not rail
    whole, wide = 44 * 40, 8 + 2 * FIT
    for section in post:
        # the mortises run from 310 to 370 and from 330 to 390: both are there from 330 to 370
        assert 330 < float(section.plane.point[2]) < 370
        assert section.cut.section.area() == pytest.approx(whole - wide * (15 + 12 + 2 * RELIEF), rel=1e-6)
        assert sorted(size.value for size in section.sizes) == pytest.approx([12 + RELIEF, 15 + RELIEF])
        assert section.cut.stuff.on_end(section.plane)


def test_mortises_one_over_the_other_are_not(built):
    post, _ = sections(built, 300.0, 100.0)
    assert not post
