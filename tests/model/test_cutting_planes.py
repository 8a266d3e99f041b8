"""Sections judged by closed formulas: areas of plain bodies, and Cavalieri's principle on the bench's leaning parts."""

import numpy as np
import pytest

from model.cutting_planes import OFF_FACES, CuttingPlane, behind, cut_faces, cutting_planes
from model.key_heights import heights
from model.piece import Piece
from plans.sides import AXIS_NUMBER

TABLE = """parts:
  post:
    {wood: white oak, runs: up-down, thick: front-back, length: 600, width: 60, thickness: 50,
     where: {bottom: floor, left: -400, centred: front-back}, mirror: left-right}
  rail:
    {wood: white oak, runs: left-right, thick: front-back, width: 70, thickness: 24,
     where: {top: 500, centred: [left-right, front-back]}, cut to: {left: post, right: post}}
  top:
    {wood: white oak, runs: left-right, thick: up-down, length: 900, width: 300, thickness: 20,
     where: {bottom: post.top, centred: [left-right, front-back]}}
joints:
  - mortise and tenon: {of: rail, into: post, thick: 8, long: 30, fit: 0, relief: 0, count: 2}
  - glued face: {of: post, to: top, count: 2}
glue: wood glue
"""


@pytest.fixture(scope="module")
def table(built) -> Piece:
    return built(TABLE)


def areas(piece: Piece, plane: CuttingPlane) -> dict[str, float]:
    return {face.part.name: face.section.area() for face in cut_faces(piece, plane)}


def test_cut_faces_have_the_area_of_what_is_cut(table: Piece) -> None:
    assert areas(table, CuttingPlane("A", "left-right", 5.0)) == pytest.approx({"rail": 70 * 24, "top": 300 * 20})
    # through both posts, the rail (each tenon of 30 mm in its mortise) and the top
    front = areas(table, CuttingPlane("B", "front-back", 0.0))
    tenons = {name: front[name] for name in ("post left", "post right")}
    assert sum(front.values()) == pytest.approx(2 * 600 * 60 + 680 * 70 + 900 * 20, rel=1e-6)
    assert all(area < 600 * 60 for area in tenons.values()), "the mortise is missing from the post"


def test_grain_is_told_against_the_plane(table: Piece) -> None:
    for plane, ends in (("left-right", {"rail", "top"}), ("front-back", set())):
        faces = cut_faces(table, CuttingPlane("A", plane, 5.0))  # type: ignore[arg-type]
        assert {face.part.name for face in faces if face.shows_end_grain} == ends


def test_faces_adjoin_where_the_parts_meet(table: Piece) -> None:
    faces = {face.part.name: face for face in cut_faces(table, CuttingPlane("B", "front-back", 0.0))}
    assert faces["rail"].adjoins(faces["post left"]) and faces["top"].adjoins(faces["post right"])
    assert not faces["rail"].adjoins(faces["top"]) and not faces["post left"].adjoins(faces["post right"])


def test_the_deepest_place_of_a_rectangle_is_half_its_width_inside(table: Piece) -> None:
    (rail,) = [f for f in cut_faces(table, CuttingPlane("A", "left-right", 5.0)) if f.part.name == "rail"]
    assert rail.deep == pytest.approx(12.0, abs=0.1)
    assert abs(rail.deepest[0]) < 2.0 and 430 < rail.deepest[1] < 500


def test_sections_add_up_to_the_solid(bench: Piece) -> None:
    """Cavalieri: the area over all planes, by the rule of the midpoint, is the volume of the kernel."""
    step = 2.0
    for name in ("leg front left", "end rail left"):
        part = bench.parts[name]
        low, high = part.mesh.box[:, 0]
        count = int(np.ceil((high - low) / step))
        places = low + (np.arange(count) + 0.5) * (high - low) / count
        total = sum(areas(bench, CuttingPlane("A", "left-right", float(at))).get(name, 0.0) for at in places)
        assert total * (high - low) / count == pytest.approx(part.sharp.Volume(), rel=0.02)


def test_nothing_is_left_on_the_viewers_side(bench: Piece) -> None:
    for plane in cutting_planes(bench):
        number = AXIS_NUMBER[plane.axis]
        reach = np.array([part.mesh.box[:, number] for part in bench.parts.values()])
        assert np.abs(reach - plane.at).min() >= OFF_FACES - 1e-6
        for shape in behind(bench, plane):
            box = shape.BoundingBox()
            far = {"left-right": box.xmax, "front-back": -box.ymin}[plane.axis]
            assert far <= plane.at * plane.towards[number] + 0.01


def test_heights_are_those_of_the_design(table: Piece) -> None:
    every = heights(table, table.parts.values(), 9, ("top", "bottom"))
    assert [(h.level, h.side) for h in every] == [
        (pytest.approx(430), "bottom"),
        (pytest.approx(500), "top"),
        (pytest.approx(600), "bottom"),
    ]
    assert [h.level for h in heights(table, table.parts.values(), 1, ("top", "bottom"))] == [pytest.approx(500)]
    assert len(heights(table, table.parts.values(), 9, ("top", "bottom"), [505.0])) == 2
