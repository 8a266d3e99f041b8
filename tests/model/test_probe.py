import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.probe import probe

BLOCK = cq.Solid.makeBox(100, 50, 20).cut(cq.Solid.makeCylinder(4, 40, cq.Vector(50, 25, -10))).Solids()[0]


@pytest.mark.parametrize("aside", [0.0, 1.0, 3.0])
@pytest.mark.parametrize("height", [10.0, 20.0])  # through the middle, and along the upper face
def test_wood_before_and_behind_a_bore(aside, height):
    half = (16 - aside**2) ** 0.5  # half the chord of a circle of radius 4 (closed formula)
    found = probe(BLOCK).wood(np.array([-10.0, 25 + aside, height]), np.array([1.0, 0, 0]))
    assert np.allclose(found, [(10, 60 - half), (60 + half, 110)], atol=1e-6)


def test_a_point_in_the_wood_and_one_beside_it():
    assert probe(BLOCK).holds(np.array([1.0, 1, 1])) and not probe(BLOCK).holds(np.array([50.0, 25, 10]))
    assert probe(BLOCK).wood(np.array([10.0, 5, 5]), np.array([1.0, 0, 0])) == [pytest.approx((0, 90))]
    assert probe(BLOCK).wood(np.array([10.0, 60, 5]), np.array([1.0, 0, 0])) == []


@settings(max_examples=25, deadline=None, derandomize=True)
@given(*(st.floats(-20, 120) for _ in range(2)), st.floats(0.2, 3), st.floats(-1, 1))
def test_any_line_agrees_with_the_boolean_of_the_kernel(y, z, turn, tilt):
    start, way = np.array([-20.0, y, z]), np.array([1.0, np.cos(turn) / 2, tilt / 4])
    way = way / np.linalg.norm(way)
    line = cq.Edge.makeLine(cq.Vector(*start), cq.Vector(*(start + way * 1000)))
    wanted = sum(edge.Length() for edge in BLOCK.intersect(line).Edges())
    assert sum(end - begin for begin, end in probe(BLOCK).wood(start, way)) == pytest.approx(wanted, abs=1e-5)
