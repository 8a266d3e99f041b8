import math
from types import SimpleNamespace

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.alike import group_alike, mark, match
from model.eased import Mark, ready
from model.frames import matrix_of


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def solid(shape: cq.Shape) -> cq.Solid:
    (found,) = shape.Solids()
    return found


def leg(hand: int = 1) -> cq.Solid:
    """Square leg with a mortise on each of two neighbouring sides, at different heights: it has a hand."""
    blank = box(40, 40, 400, (-20, -20, 0))
    blank = blank.cut(box(8, 20, 50, (-4, 0, 330)), box(20 * 1.0, 8, 40, (0 if hand > 0 else -20, -4, 250)))
    return solid(blank)


MARKS = (Mark(np.zeros(3), "round over 2", 1.0),)


def part(shape: cq.Solid, kind="rail", wood="ash", runs="left-right", sharp=None, stock=None):
    spec = SimpleNamespace(made_of=wood, runs=runs, stock=stock)
    return SimpleNamespace(
        name=kind,
        kind=kind,
        spec=spec,
        sharp=sharp or shape,
        eased=shape,
        easing=None if sharp is None else ready(shape, MARKS),
    )


def carried(a: cq.Solid, matrix: np.ndarray) -> cq.Shape:
    rows = [list(row) for row in matrix[:3]]
    return a.transformGeometry(cq.Matrix(rows))


def assert_carries(a: cq.Solid, b: cq.Solid, matrix: np.ndarray) -> None:
    """Checked by the kernel's own boolean: nothing of b is left over when the carried a is taken away."""
    left = b.cut(carried(a, matrix)).Volume()
    assert left == pytest.approx(0, abs=1e-3 * b.Volume())


@settings(max_examples=15, deadline=None)
@given(
    axis=st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: math.hypot(*v) > 0.1),
    angle=st.floats(0, 360),
    shift=st.tuples(*[st.floats(-500, 500)] * 3),
)
def test_a_moved_solid_is_found(axis, angle, shift):
    location = cq.Location(cq.Vector(*shift), cq.Vector(*axis), angle)
    found = match(leg(), leg().moved(location))
    # a handed part has exactly one motion: the one it was moved by
    assert np.allclose(found.same, matrix_of(location), atol=1e-5)
    assert found.mirrored is None


def test_mirror_image_is_found_and_told_apart():
    found = match(leg(1), leg(-1))
    assert found.same is None
    assert np.linalg.det(found.mirrored[:3, :3]) == pytest.approx(-1)
    assert np.allclose(found.mirrored, np.diag([-1, 1, 1, 1]), atol=1e-6)


def test_symmetric_part_is_both():
    found = match(box(300, 40, 20), box(20, 300, 40, (5, 6, 7)))
    assert np.linalg.det(found.same[:3, :3]) == pytest.approx(1)
    assert np.linalg.det(found.mirrored[:3, :3]) == pytest.approx(-1)
    assert_carries(box(300, 40, 20), box(20, 300, 40, (5, 6, 7)), found.same)


def test_least_turn_is_chosen():
    assert np.allclose(match(box(30, 20, 10), box(30, 20, 10, (100, 0, 0))).same[:3, :3], np.eye(3))


@pytest.mark.parametrize("size", [(300, 40, 20.2), (300.1, 40, 20), (300, 41, 20)])
def test_a_little_difference_is_a_difference(size):
    assert match(box(300, 40, 20), box(*size)) == match(box(*size), box(300, 40, 20))
    assert match(box(300, 40, 20), box(*size)).same is None


def test_small_scar_is_seen():
    scarred = solid(leg().cut(box(0.5, 0.5, 0.5, (-20, -20, 100))))
    assert match(leg(), scarred).same is None


def test_same_numbers_in_another_place_are_not_alike():
    # one hole each, same distances from the ends, but not the same way round for a handed part
    a = solid(box(200, 40, 20).cut(cq.Solid.makeCylinder(3, 30, cq.Vector(30, 10, -5))))
    b = solid(box(200, 40, 20).cut(cq.Solid.makeCylinder(3, 30, cq.Vector(30, 30, -5))))
    both = match(a, b)
    assert both.same is not None  # turned over
    c = solid(box(200, 40, 20).cut(cq.Solid.makeCylinder(3, 10, cq.Vector(30, 10, 15))))
    d = solid(box(200, 40, 20).cut(cq.Solid.makeCylinder(3, 10, cq.Vector(30, 30, 15))))
    one = match(c, d)
    assert one.same is None
    assert one.mirrored is not None


def test_round_parts():
    assert (
        match(cq.Solid.makeCylinder(4, 30), cq.Solid.makeCylinder(4, 30, cq.Vector(9, 9, 9), cq.Vector(1, 1, 0))).same
        is not None
    )
    assert match(cq.Solid.makeCylinder(4, 30), cq.Solid.makeCylinder(4.1, 30)).same is None


def test_where_a_seam_lies_does_not_matter():
    drill = cq.Solid.makeCylinder(3, 40, cq.Vector(30, 10, -10))
    turned = drill.rotate(cq.Vector(30, 10, 0), cq.Vector(30, 10, 1), 77)
    a, b = solid(box(200, 40, 20).cut(drill)), solid(box(200, 40, 20).cut(turned))
    assert np.allclose(match(a, b).same, np.eye(4), atol=1e-6)


def test_groups_marks_and_hands():
    names = ["leg fl", "leg fr", "rail f", "rail b", "leg bl", "leg br"]
    parts = {
        "leg fl": part(leg(1), "leg", runs="up-down"),
        "leg fr": part(leg(-1), "leg", runs="up-down"),
        "rail f": part(box(300, 20, 40), "rail"),
        "rail b": part(box(300, 20, 40, (0, 200, 0)), "back rail"),
        "leg bl": part(leg(-1).moved(cq.Location(cq.Vector(), cq.Vector(0, 0, 1), 180)), "leg", runs="up-down"),
        "leg br": part(leg(1).moved(cq.Location(cq.Vector(), cq.Vector(0, 0, 1), 90)), "leg", runs="up-down"),
    }
    legs, rails = group_alike(parts, names)
    assert (legs.mark, legs.name, legs.parts, legs.mirrored) == ("A", "leg", ("leg fl", "leg br"), ("leg fr", "leg bl"))
    assert (rails.mark, rails.name, rails.parts, rails.shown) == ("B", "rail", ("rail f", "rail b"), "rail f")
    assert legs.quantity == 4


def test_wood_grain_stock_and_easing_tell_parts_apart():
    plate = box(200, 200, 20)
    eased = solid(plate.fillet(2, plate.Edges()))
    parts = {
        "a": part(plate),
        "b": part(plate, wood="oak"),
        "c": part(plate, runs="up-down"),  # the grain runs through its thickness
        "d": part(eased, sharp=plate),
        "e": part(plate, runs="front-back"),  # alike after a quarter turn
        "f": part(plate, stock="8/4"),
    }
    items = group_alike(parts, list(parts))
    assert [item.parts for item in items] == [("a", "e"), ("b",), ("c",), ("d",), ("f",)]


def test_sharp_twins_must_agree_too():
    plate = box(200, 100, 20)
    other = solid(plate.cut(box(5, 5, 5)))
    items = group_alike({"a": part(plate), "b": part(plate, sharp=other)}, ["a", "b"])
    assert len(items) == 2


def test_easing_that_was_cut_away_again_tells_nothing_apart():
    plate = box(200, 100, 20)
    (item,) = group_alike({"a": part(plate), "b": part(plate, sharp=plate)}, ["a", "b"])
    assert item.quantity == 2


def test_marks_go_on_after_z():
    # spreadsheet columns count the same way (common knowledge: 27th is AA, 53rd BA, 703rd AAA)
    assert [mark(n) for n in (0, 1, 25, 26, 51, 52, 701, 702)] == ["A", "B", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]
