import cadquery as cq
import pytest

from model.overlap import common_volume
from model.store import NOTHING, Store


def box(x: float, y: float, z: float, at: tuple[float, float, float]) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


BLANK = box(100, 60, 40, (-50, -30, -20))  # the same in every mirror
NOTCH, SMALLER = box(20, 10, 40, (30, 20, -20)), box(20, 9.9999, 40, (30, 20, -20))
BORE = cq.Solid.makeCylinder(4, 50, cq.Vector(-20, 5, -25))
# of the same size about the same axis, its seam elsewhere
TURNED = BORE.rotate(cq.Vector(-20, 5, 0), cq.Vector(-20, 5, 1), 77)


def fail() -> cq.Solid:
    raise AssertionError("cut again")


def test_the_same_work_is_not_done_again():
    store, start = Store(), NOTHING.after("blank", [BLANK])
    made = store.given(start.after("cut", [NOTCH, BORE]), lambda: BLANK.cut(NOTCH, BORE).Solids()[0])
    assert store.given(start.after("cut", [TURNED, NOTCH]), fail) is made


@pytest.mark.parametrize(("axis", "plane"), [("left-right", "YZ"), ("front-back", "XZ"), ("up-down", "XY")])
def test_the_image_of_work_done_is_an_image_of_the_solid(axis, plane):
    store, start = Store(), NOTHING.after("blank", [BLANK])
    store.given(start.after("cut", [NOTCH, BORE]), lambda: BLANK.cut(NOTCH, BORE).Solids()[0])
    tools = [tool.mirror(plane) for tool in (NOTCH, BORE)]
    image = store.given(start.after("cut", tools), fail)
    wanted = BLANK.cut(*tools)
    assert image.isValid() and image.Volume() == pytest.approx(wanted.Volume(), rel=1e-9)
    # two solids are one where they share all they have
    assert common_volume(image, wanted) == pytest.approx(wanted.Volume(), rel=1e-9)


@pytest.mark.parametrize("other", [SMALLER, NOTCH.moved(cq.Location((0, 0, 1e-3))), BORE])
def test_other_work_is_told_apart(other):
    start = NOTHING.after("blank", [BLANK])
    assert not set(start.after("cut", [NOTCH]).keys.values()) & set(start.after("cut", [other]).keys.values())
    assert start.after("cut", [NOTCH]) != start.after("add", [NOTCH])


def test_a_square_hole_is_told_from_the_same_turned_on_its_corner():
    square = box(10, 10, 50, (-5, -5, -25))  # the second moments of both are the same
    turned = square.rotate(cq.Vector(), cq.Vector(0, 0, 1), 45)
    assert NOTHING.after("cut", [square]) != NOTHING.after("cut", [turned])
