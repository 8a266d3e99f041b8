import cadquery as cq
import numpy as np
import pytest

from model.meshes import mesh_of
from plans.spec import PartSpec
from publish import cover
from publish.cover import cover_picture
from publish.daylight import Surfaces, daylight
from publish.drawing.box import Box
from publish.drawing.view import axes_of
from publish.looks import look_of, plain, plywood, stone, tint_of, wood
from publish.shade import tint
from publish.woodgrain import grain

VIEW = (0.55, -1.5, 0.75), (1.0, 0.3, 0.0)
ASH = (0.88, 0.78, 0.61)
AS_IT_IS = np.eye(4)


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)):
    return mesh_of(cq.Solid.makeBox(x, y, z, cq.Vector(*at)))


def light_at(meshes, places, normal=(0.0, 0.0, 1.0)) -> np.ndarray:
    places = np.array(places, dtype=float)
    return daylight(meshes, Surfaces(places, np.tile(normal, (len(places), 1))), axes_of(*VIEW))


def test_open_floor_has_all_the_light_there_is():
    assert light_at([box(10, 10, 10)], [(5000, -5000, 0), (-5000, -5000, 0)]) == pytest.approx([1, 1])


def test_top_of_a_lone_box_is_in_the_open():
    assert light_at([box(400, 300, 20)], [(200, 150, 20), (10, 10, 20)]) == pytest.approx([1, 1])


def test_inside_of_a_closed_box_is_dark():
    shell = cq.Solid.makeBox(400, 400, 400).cut(cq.Solid.makeBox(360, 360, 360, cq.Vector(20, 20, 20)))
    assert light_at([mesh_of(shell)], [(200, 200, 20)])[0] == pytest.approx(0)


def test_under_a_slab_it_is_darker_the_nearer_its_middle():
    slab = box(1000, 400, 30, (-500, -200, 300))
    middle, edge, out = light_at([slab], [(0, 0, 0), (0, -190, 0), (0, -1500, 0)])
    assert middle < edge < out


def test_sun_stands_to_the_left_so_the_shadow_falls_right():
    post = box(60, 60, 500, (-30, -30, 0))
    axes = axes_of(*VIEW)
    right, back = np.array(axes.right), -np.array([axes.towards[0], axes.towards[1], 0.0])
    aside = right * 150 + back / np.linalg.norm(back) * 150
    light = light_at([post], [aside, -aside])
    assert light[0] < light[1] - 0.1


def test_cover_is_the_same_each_time_and_shows_what_the_tint_shows():
    meshes = [box(400, 200, 30, (-200, -100, 250)), box(40, 40, 250, (-180, -80, 0)), box(40, 40, 250, (140, -80, 0))]
    area = Box(-260, -120, 320, 340)
    one, two = (cover_picture(meshes, [ASH] * 3, [AS_IT_IS] * 3, [wood] * 3, *VIEW, 0.5, area, 2) for _ in range(2))
    assert (one.rgb == two.rgb).all()
    flat = tint(meshes, [ASH] * 3, *VIEW, 0.5, one.box)
    height, width = (min(a, b) for a, b in zip(one.ids.shape, flat.ids.shape, strict=True))
    assert (one.ids[:height, :width] != flat.ids[:height, :width]).mean() < 0.02
    # the page's white all round the rim
    for rim in (one.rgb[0], one.rgb[-1], one.rgb[:, 0], one.rgb[:, -1]):
        assert (rim == 255).all()
    # the top is lighter than the front of the leg
    assert one.rgb[one.ids == 0].mean() > one.rgb[one.ids == 1].mean()
    # there is a shadow on the floor
    assert one.rgb[one.ids < 0].min() < 215


def test_grain_runs_along_the_board():
    steps = np.linspace(0, 100, 400)
    along = np.column_stack([steps, np.full(400, 7.0), np.full(400, 3.0)])
    across = np.column_stack([np.full(400, 7.0), steps, np.full(400, 3.0)])
    up = np.tile([0.0, 0.0, 1.0], (400, 1))
    for seed in range(5):
        change = [np.abs(np.diff(grain(places, up, seed, 0.3))).mean() for places in (along, across)]
        assert change[1] > 4 * change[0]


def test_grain_is_its_boards_own_and_never_wild():
    draw = np.random.default_rng(1)
    places, up = draw.uniform(-500, 500, (2000, 3)), np.tile([0.0, 0.0, 1.0], (2000, 1))
    one, again, other = grain(places, up, 1, 0.5), grain(places, up, 1, 0.5), grain(places, up, 2, 0.5)
    assert (one == again).all()
    assert np.abs(one - other).mean() > 0.01
    assert 0.6 < one.min() < one.max() < 1.2
    # ends are darker; rings finer than a pixel fade
    ends = np.tile([1.0, 0.0, 0.0], (2000, 1))
    assert grain(places, ends, 1, 0.5).mean() < one.mean() - 0.05
    assert grain(places, up, 1, 6.0).std() < one.std()


def test_the_cover_is_the_same_in_bands_of_any_height(monkeypatch):
    meshes = [box(400, 200, 30, (-200, -100, 250)), box(40, 40, 250, (-180, -80, 0)), box(40, 40, 250, (140, -80, 0))]
    made = [meshes, [ASH] * 3, [AS_IT_IS] * 3, [wood, stone, plywood], *VIEW, 0.5]
    found = []
    for rows in (7, 40, 10_000):
        monkeypatch.setattr(cover, "BAND", rows)
        found.append(cover_picture(*made))
    for one in found[1:]:
        assert (one.rgb == found[0].rgb).all() and (one.ids == found[0].ids).all()
        assert (one.depth == found[0].depth).all()


def spec(**made) -> PartSpec:
    return PartSpec.model_construct(**{"wood": "", "sheet": None, "material": None, **made})


def test_material_decides_the_look():
    assert look_of(spec(wood="white oak")) is wood and look_of(spec(sheet="birch plywood")) is plywood
    assert look_of(spec(material="granite")) is stone
    for other in (spec(material="glass"), spec(material="steel"), spec(sheet="MDF"), spec(material="felt")):
        assert look_of(other) is plain
    assert tint_of(spec(material="Glass"))[2] > tint_of(spec(material="Glass"))[0]  # a greenish pale
    assert tint_of(spec(material="felt")) != tint_of(spec(wood="some wood"))


def test_stone_has_specks_and_no_direction():
    steps = np.linspace(0, 400, 1600)
    still = np.full(1600, 3.0)
    up = np.tile([0.0, 0.0, 1.0], (1600, 1))
    change = [
        np.abs(np.diff(stone(np.column_stack(places), up, 4, 0.3)[:, 0])).mean()
        for places in ((steps, still, still), (still, steps, still))
    ]
    assert change[0] == pytest.approx(change[1], rel=0.2) and change[0] > 0
    places = np.column_stack([steps, still, still])
    assert (stone(places, up, 4, 0.3) == stone(places, up, 4, 0.3)).all()
    assert (stone(places, up, 4, 0.3) != stone(places, up, 5, 0.3)).any()
    assert stone(places, up, 4, 9.0).std() < stone(places, up, 4, 0.3).std()
    assert (plain(places, up, 4, 0.3) == 1).all()


def test_plywood_shows_its_layers_on_the_edges_only():
    through = np.linspace(0, 18, 900)
    places = np.column_stack([np.full(900, 50.0), np.full(900, 20.0), through])
    edge, face = np.tile([0.0, 1.0, 0.0], (900, 1)), np.tile([0.0, 0.0, 1.0], (900, 1))
    # 18 mm birch plywood has 13 layers of 1.4 mm (common practice): a change at every glue line
    assert (np.abs(np.diff(plywood(places, edge, 1, 0.3)[:, 0])) > 0.05).sum() == 12
    assert np.abs(np.diff(plywood(places, face, 1, 0.3)[:, 0])).max() < 0.05
