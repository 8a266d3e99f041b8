"""Full-size templates: which parts have one, and that their outlines are the faces of the solids."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from model.loops import Loop, Stretch, ring
from model.outlines import NEAR, arc_through, faces_towards
from model.templates import lie_of, same_shape, template, templates, turned_over, wanted
from plans.sides import SIDES

POINT = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
CURVE = "[{along: 0, in: 40}, {along: 120, in: 12}, {along: 190, in: 30}, {along: 300, in: 5}]"
SHAPED = {
    "taper": ("{taper: {sides: [front], from: left, after: 60, to: 30}}", "top"),
    "arc": ("{arc: {edge: front, bend: hollow, rise: 18, flat: 20}}", "top"),
    "crown": ("{arc: {edge: front, bend: crown, rise: 18}}", "top"),
    "curve": (f"{{curve: {{edge: front, from: left, through: {CURVE}}}}}", "top"),
    "relieved": ("{relieved ends: {edge: front, rise: 12, long: 90, level: 40}}", "top"),
    "holes": ("{hole: {side: top, diameter: 6, count: 3, spacing: 60, at: {front: 15}, and at: {back: 15}}}", "top"),
}
PLAIN = [
    "",
    "{round over: {arrises: all, radius: 3}}",
    "{chamfer: {arrises: [top front], size: 4}}",
    "{end cut: {end: left, slopes: {top: 45}}}",
    "{bevel: {edge: front, towards: top, angle: 10}}",
    "{groove: {side: top, at: {front: 20}, wide: 6, deep: 6}}",
    "{hole: {side: top, diameter: 6, count: 4, spacing: 40}}",
]


def face_towards(part, up):
    """The largest flat face that looks along `up`, by the kernel: its outline is not ours."""
    faces = [f for f in part.sharp.Faces() if f.geomType() == "PLANE" and f.normalAt().dot(up) > 1 - 1e-9]
    return max(faces, key=lambda face: face.Area())


@pytest.mark.parametrize("shaping", PLAIN)
def test_a_plain_part_has_none(shaped, shaping):
    assert wanted(shaped(shaping)) == {}


@pytest.mark.parametrize("name", SHAPED)
def test_the_outline_is_the_face_of_the_solid(shaped, name):
    import cadquery as cq

    shaping, side = SHAPED[name]
    part = shaped(shaping)
    assert set(wanted(part)) <= {"top", "bottom"}
    made = template(part, side, ("holes",))
    face = face_towards(part, cq.Vector(0, 0, 1))
    (rim,) = made.outline
    area = rim.area - sum(math.pi * d**2 / 4 for _, d in made.holes) - sum(loop.area for loop in made.openings)
    assert area == pytest.approx(face.Area(), rel=1e-4)
    box = face.BoundingBox()
    assert made.size == pytest.approx((box.xlen, box.ylen), abs=0.01)
    assert made.bounds[:2] == pytest.approx((0, 0), abs=1e-9)
    assert len(made.holes) == (6 if name == "holes" else 0)


def test_every_flat_face_of_the_bench_comes_out_whole(bench_piece):
    """Compound ends, mortises, notches, pockets: each outline closes, and holds the area the kernel finds."""
    faces = 0
    for part in bench_piece.parts.values():
        for side in SIDES:
            for face in faces_towards(part, lie_of(part, side)):
                faces += 1
                assert face.rim.area - sum(loop.area for loop in face.openings) == pytest.approx(face.area, rel=1e-4)
                for loop in (face.rim, *face.openings):
                    ends = [s.end for s in loop.stretches]
                    assert all(math.dist(ends[n - 1], s.start) < 1e-6 for n, s in enumerate(loop.stretches))
    assert faces > 100


@settings(deadline=None, max_examples=25)
@given(
    st.sampled_from(["hollow", "crown"]),
    st.integers(2, 30),
    st.integers(0, 40),
    st.integers(10, 35),
    st.sampled_from([("left-right", "up-down"), ("up-down", "front-back"), ("front-back", "left-right")]),
)
def test_arcs_and_holes_of_any_size_lie_any_way(shaped, bend, rise, flat, inset, lies):
    """What is left of a board: less a segment of a circle (closed formula), and five bored holes."""
    runs, thick = lies
    ends = {"left-right": ("left", "right"), "front-back": ("front", "back"), "up-down": ("bottom", "top")}
    (edge, far), (seen, _) = ends[({*ends} - {runs, thick}).pop()], ends[thick]
    flat = flat if bend == "hollow" else 0
    arc = f"{{arc: {{edge: {edge}, bend: {bend}, rise: {rise}" + (f", flat: {flat}}}}}" if flat else "}}")
    hole = f"{{hole: {{side: {seen}, diameter: 6, count: 5, spacing: 30, at: {{{far}: {inset}}}}}}}"
    part = shaped(f"{arc}, {hole}", (300.0, 80.0, 20.0), runs, thick)
    (side,) = wanted(part)
    made = template(part, side, ("holes",))
    half = 150 - flat
    radius = (half**2 + rise**2) / (2 * rise)
    segment = radius**2 * math.acos((radius - rise) / radius) - (radius - rise) * half
    taken = segment if bend == "hollow" else 300 * rise - segment
    assert made.outline[0].area == pytest.approx(300 * 80 - taken, rel=1e-6)
    assert len(made.holes) == 5 and {round(d, 6) for _, d in made.holes} == {6.0}
    assert made.size == pytest.approx((300, 80), abs=1e-6)


def test_a_free_curve_is_followed_closely(shaped):
    part = shaped(SHAPED["curve"][0])
    made = template(part, "top", ("holes",))
    (spline, *_) = [edge for edge in part.sharp.Edges() if edge.geomType() == "BSPLINE"]
    corner = part.sharp.BoundingBox()
    for n in range(201):
        x, y, _ = spline.positionAt(n / 200).toTuple()
        off = min(_distance((x - corner.xmin, y - corner.ymin), s) for s in made.outline[0].stretches)
        assert off < 1.5 * NEAR


def _distance(point, stretch):
    """Of a point from a stretch, arcs and lines alike, by the formulas of plane geometry."""
    if stretch.is_round:
        centre = stretch.centre
        angle = math.atan2(point[1] - centre[1], point[0] - centre[0])
        start = math.atan2(stretch.start[1] - centre[1], stretch.start[0] - centre[0])
        turned = (angle - start) % math.tau if stretch.bulge > 0 else (start - angle) % math.tau
        if turned <= abs(stretch.sweep):
            return abs(math.dist(point, centre) - stretch.radius)
        return min(math.dist(point, stretch.start), math.dist(point, stretch.end))
    (ax, ay), (bx, by) = stretch.start, stretch.end
    long2 = (bx - ax) ** 2 + (by - ay) ** 2
    t = max(0.0, min(1.0, ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / long2))
    return math.dist(point, (ax + t * (bx - ax), ay + t * (by - ay)))


def test_a_turned_part_is_cut_through_the_middle(shaped):
    shaping = (
        "{turned: {from: left, diameters: [{at: 0, diameter: 30}, {at: 100, diameter: 60}, {at: 300, diameter: 60}]}}"
    )
    part = shaped(shaping, (300.0, 60.0, 60.0))
    (side,) = wanted(part)
    made = template(part, side, ("turned profile",))
    assert made.cut
    # a trapezium and a rectangle
    assert made.outline[0].area == pytest.approx((30 + 60) / 2 * 100 + 200 * 60, rel=1e-6)
    assert made.size == pytest.approx((300, 60), abs=1e-6)


def test_both_hands_of_a_part_share_one_and_are_named(built):
    text = """parts:
  leg:
    wood: white oak
    runs: up-down
    thick: front-back
    length: 400
    width: 40
    thickness: 40
    where: {bottom: floor, left: -300, front: -200}
    shaping: [{taper: {sides: [right, back], from: top, after: 100, to: 24}}]
    mirror: [left-right]
"""
    (made,) = templates(built(text))
    assert {use.mark for use in made.uses} == {"A"}
    named = {name for use in made.uses for name in (*use.as_drawn, *use.turned_over)}
    assert named == {"leg left", "leg right"}
    assert any(use.turned_over for use in made.uses)
    # a square, then a trapezium
    assert made.outline[0].area == pytest.approx(100 * 40 + 300 * (40 + 24) / 2, rel=1e-9)
    over = turned_over(made)
    assert same_shape(turned_over(over), made) and not same_shape(over, made)


def test_compound_ends_want_one_and_single_angles_do_not(built):
    text = """parts:
  leg:
    wood: white oak
    runs: up-down
    thick: front-back
    width: 40
    thickness: 40
    where: {{left: -300, front: -200, measured at: floor}}
    lean: {{foot to: {lean}}}
    cut to: {{top: 400, bottom: floor}}
"""
    assert templates(built(text.format(lean="{left: 6}"))) == ()
    (made,) = templates(built(text.format(lean="{left: 6, front: 8}")))
    assert made.reasons == ("compound angles",)


def test_tails_and_not_pins(built):
    text = """parts:
  front:
    wood: white oak
    runs: left-right
    thick: front-back
    length: 300
    width: 90
    thickness: 16
    where: {bottom: floor, front: 0, left: 0}
  side:
    wood: white oak
    runs: front-back
    thick: left-right
    length: 200
    width: 90
    thickness: 12
    where: {bottom: floor, front: 0, left: 0}
joints:
  - dovetail: {of: side, into: front, tails: 3, pin: 6, half pin: 8}
"""
    (made,) = templates(built(text))
    assert made.part == "side" and made.reasons == ("dovetails",)
    assert made.size == pytest.approx((200, 90), abs=1e-6)
    # what the pins take: the board's end less three tails, each a trapezium
    tail = (90 - 2 * 8 - 2 * 6) / 3
    neck = tail - 2 * 16 / 8
    assert made.outline[0].area == pytest.approx((200 - 16) * 90 + 3 * (tail + neck) / 2 * 16, rel=1e-6)


@given(POINT, POINT, st.floats(-1, 1).filter(lambda b: abs(b) > 1e-3))
def test_an_arc_is_what_three_of_its_points_say(start, end, bulge):
    if math.dist(start, end) < 1:
        return
    arc = Stretch(start, end, bulge)
    middle, mid = arc.at(0.5), ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    # the rise of an arc over its chord is half of the chord times the bulge (definition of a DXF bulge)
    assert math.dist(middle, mid) == pytest.approx(arc.chord / 2 * abs(bulge), rel=1e-6)
    again = arc_through(start, middle, end)
    assert again.bulge == pytest.approx(bulge, rel=1e-6)
    assert arc.at(1.0) == pytest.approx(end, abs=1e-6)
    assert arc.part(0.25, 0.75).at(0.5) == pytest.approx(middle, abs=1e-6)


def test_area_and_bounds_are_those_of_shapely():
    loop = Loop(
        (
            Stretch((0, 0), (80, 0), 0.4),
            Stretch((80, 0), (80, 50)),
            Stretch((80, 50), (0, 50), -0.3),
            Stretch((0, 50), (0, 0)),
        )
    )
    fine = [s.at(n / 400) for s in loop.stretches for n in range(400)]
    polygon = Polygon(fine)
    assert loop.area == pytest.approx(polygon.area, rel=1e-5)
    assert loop.bounds() == pytest.approx(polygon.bounds, abs=1e-3)
    assert loop.flipped().area == pytest.approx(loop.area)
    assert ring((3, 4), 10).area == pytest.approx(math.pi * 25) and ring((3, 4), 10).circle() == ((3, 4), 10)
