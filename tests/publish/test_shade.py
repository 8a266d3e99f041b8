import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.meshes import mesh_of
from publish.drawing.box import Box
from publish.raster import Grid, nearest
from publish.shade import anchor, tint, visible_share

FRONT, ISO = ((0, -1, 0), (1, 0, 0)), ((1, -1, 1), (1, 1, 0))
OAK, ASH = (0.8, 0.7, 0.5), (0.9, 0.8, 0.6)


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)):
    return mesh_of(cq.Solid.makeBox(x, y, z, cq.Vector(*at)))


def test_front_of_a_box_fills_its_rectangle():
    picture = tint([box(30, 20, 10)], [OAK], *FRONT, 4.0, Box(-5, -5, 35, 15))
    assert picture.ids.shape == (80, 160)
    assert picture.count(0) == 30 * 10 * 16
    inside = picture.ids[20:60, 20:140]  # rows from the top: z 10 to 0; columns: x 0 to 30
    assert (inside == 0).all()
    assert (picture.rgb[picture.ids < 0] == 255).all()


def test_isometric_hexagon_has_the_right_area():
    # a cube's outline seen along its space diagonal is a hexagon of area sqrt(3) a^2
    picture = tint([box(50, 50, 50)], [OAK], *ISO, 8.0)
    assert picture.count(0) / 64 == pytest.approx(np.sqrt(3) * 2500, rel=2e-3)


def test_three_sides_differ_and_the_top_is_lightest():
    picture = tint([box(50, 50, 50)], [OAK], *ISO, 4.0)
    tones, counts = np.unique(picture.rgb[picture.ids == 0].astype(int).sum(axis=1), return_counts=True)
    assert len(tones) == 3
    assert np.diff(tones).min() > 20
    assert counts.min() > 0.3 * counts.max()
    top = picture.ids.shape[0] // 4, picture.ids.shape[1] // 2
    assert picture.rgb[top].astype(int).sum() == tones.max()


def test_nearer_part_wins_whatever_the_order():
    near, far = box(10, 10, 30, (10, 0, -10)), box(40, 10, 10, (0, 50, 0))
    area = Box(0, -10, 40, 20)
    one, two = tint([near, far], [OAK, ASH], *FRONT, 2.0, area), tint([far, near], [ASH, OAK], *FRONT, 2.0, area)
    assert (one.rgb == two.rgb).all()
    assert one.count(0) == two.count(1) == 10 * 30 * 4
    assert one.count(1) == two.count(0) == (40 - 10) * 10 * 4
    assert one.depth.max() == pytest.approx(0)  # the near face lies at y = 0
    assert one.depth[one.ids == 1].max() == pytest.approx(-50)


def test_visible_share():
    near, far = box(10, 10, 30, (10, 0, -10)), box(40, 10, 10, (0, 50, 0))
    area = Box(0, -10, 40, 20)
    picture = tint([near, far], [OAK, ASH], *FRONT, 2.0, area)
    assert visible_share(picture, 1, tint([far], [ASH], *FRONT, 2.0, area)) == pytest.approx(0.75)
    assert visible_share(picture, 0, 10 * 30 * 4) == 1.0
    assert visible_share(picture, 0, 0) == 0.0


def test_anchor_is_in_the_middle_of_what_is_seen():
    near, far = box(10, 10, 30, (10, 0, -10)), box(40, 10, 10, (0, 50, 0))
    picture = tint([near, far, box(1, 1, 1, (0, 90, 0))], [OAK, ASH, OAK], *FRONT, 4.0)
    assert anchor(picture, 0)[0] == pytest.approx(15, abs=0.3)
    # of the far one's two pieces (0 to 10 and 20 to 40) the larger holds the anchor, in the middle of its height
    x, y = anchor(picture, 1)
    assert 24.5 <= x <= 35.5
    assert y == pytest.approx(5, abs=0.3)
    assert anchor(picture, 2) is None


def test_supersampling_softens_only_the_border():
    rough, fine = (tint([box(50, 50, 50)], [OAK], *ISO, 2.0, supersample=n) for n in (1, 2))
    assert rough.ids.shape == fine.ids.shape
    assert fine.rgb.shape == rough.rgb.shape
    assert len(np.unique(rough.rgb.reshape(-1, 3), axis=0)) == 4
    differ = (rough.rgb != fine.rgb).any(axis=2).mean()
    assert 0 < differ < 0.1


def test_no_parts_give_a_white_sheet():
    assert (tint([], [], *FRONT, 2.0, Box(0, 0, 10, 10)).rgb == 255).all()


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(*[st.tuples(*[st.floats(-1, 21)] * 3)] * 3), min_size=1, max_size=6))
def test_nearest_is_what_a_plain_search_finds(triangles):
    """Against barycentric coordinates, pixel by pixel."""
    corners = np.array(triangles)
    area = np.abs(np.linalg.det(corners[:, 1:, :2] - corners[:, :1, :2]))
    corners = corners[area > 1]
    if not len(corners):
        return
    grid = Grid(Box(0, 0, 20, 16), 1.0)
    seen, depth = nearest(corners, grid)
    for row in range(16):
        for column in range(20):
            point = np.array([column + 0.5, 15.5 - row])
            best, doubt = -np.inf, False
            for a, b, c in corners:
                inverse = np.linalg.inv(np.stack([b[:2] - a[:2], c[:2] - a[:2]], axis=1))
                v, w = inverse @ (point - a[:2])
                low = min(v, w, 1 - v - w)
                doubt |= abs(low) < 1e-6
                if low > 0:
                    best = max(best, a[2] + v * (b[2] - a[2]) + w * (c[2] - a[2]))
            if not doubt:
                assert depth[row, column] == pytest.approx(best, abs=1e-5)
                assert (seen[row, column] >= 0) == np.isfinite(best)
