"""What is counted off the piece: sizes against a mesh library, lumber against the published rule, mass by hand."""

import math

import pytest
import trimesh

from model.cut_list import cut_list
from model.piece import Part, Piece
from model.takeoff import finish_area, glue_total, hardware, lumber, mass, total_mass
from plans.sides import AXIS_NUMBER, third_axis

INCH = 25.4


def from_stl(part: Part, tmp_path) -> trimesh.Trimesh:
    """The part in its own frame, by way of a file."""
    path = tmp_path / "part.stl"
    part.sharp.exportStl(str(path), tolerance=0.01)
    return trimesh.load_mesh(path)


def test_cut_list_sizes_are_those_of_the_bounding_boxes(bench, tmp_path):
    rows = {row.item.name: row for row in cut_list(bench)}
    assert set(rows) == {part.kind for part in bench.parts.values()}
    for row in cut_list(bench):
        part = bench.parts[row.item.shown]
        mesh = from_stl(part, tmp_path)
        assert mesh.is_watertight
        wide = third_axis(part.spec.runs, part.spec.thick)
        sizes = [float(mesh.extents[AXIS_NUMBER[axis]]) for axis in (part.spec.runs, wide, part.spec.thick)]
        assert sizes == pytest.approx([row.length, row.width, row.thickness], abs=1e-3), row.item.name
        assert mesh.volume == pytest.approx(part.sharp.Volume(), rel=2e-4)


def test_every_part_is_on_one_line(bench):
    listed = [name for row in cut_list(bench) for name in (*row.item.parts, *row.item.mirrored)]
    assert sorted(listed) == sorted(bench.parts)
    assert sum(row.item.quantity for row in cut_list(bench)) == len(bench.parts)


def plank(built, length: float, width: float, stock: str, count: int = 1, waste: int = 20) -> Piece:
    """Boards of the rough size `length` x `width` (inches): the finished one and an inch, and a quarter."""
    return built(
        f"""plan: Planks
revision: 1
date: 2026-11-20
maker: Saltmarsh Lane Joinery
units: inch
waste: {waste}
parts:
  plank:
    {{wood: white oak, stock: {stock}, runs: left-right, thick: up-down, length: {length - 1}, width: {width - 0.25},
     thickness: 1/2, where: {{bottom: floor, centred: [left-right, front-back]}},
     repeat: {{along: front-back, count: {count}, gap: 1}}}}
"""
    )


@pytest.mark.parametrize(
    ("thick", "width", "length", "stock", "board_feet"),
    [
        (2, 8, 72, "8/4", 8.0),  # 2 x 8 x 72 in: 8 BF (published question and answer)
        (4, 6, 120, "16/4", 20.0),  # 4 x 6 in x 10 ft: 20 BF (published example)
        (2, 6.25, 96, "8/4", 2 * (4 + 1 / 6)),  # NHLA example before its surface measure is rounded: 4 1/6
        (1, 10, 156, "4/4", 10 + 10 / 12),  # NHLA example: 10 in x 13 ft is 10 10/12
        (0.5, 12, 96, "1/2", 8.0),  # under 1 in thick counts as 1 in: 12 in x 8 ft (NHLA)
    ],
)
def test_board_feet(built, thick, width, length, stock, board_feet):
    (row,) = lumber(plank(built, length, width, stock))
    assert row.board_feet == pytest.approx(board_feet)
    assert row.board_feet_with_waste == pytest.approx(board_feet * 1.2)
    # the same wood in cubic metres: a board foot is 144 cubic inches
    assert row.cubic_metres == pytest.approx(thick * width * length * INCH**3 / 1e9)
    assert (row.longest, row.widest) == pytest.approx((length * INCH, width * INCH))


def test_lumber_of_several_boards_and_another_waste(built):
    (row,) = lumber(plank(built, 72, 8, "8/4", count=3, waste=50))
    assert (row.pieces, row.board_feet) == (3, pytest.approx(24))
    assert row.board_feet_with_waste == pytest.approx(36)


def test_lumber_of_the_bench(bench):
    rows = {(row.wood, row.stock): row for row in lumber(bench)}
    assert set(rows) == {("white oak", "4/4"), ("white oak", "8/4")}
    assert rows["white oak", "8/4"].pieces == 4  # the legs
    assert sum(row.pieces for row in rows.values()) == len(bench.parts)
    assert all(row.board_feet_with_waste == pytest.approx(row.board_feet * 1.25) for row in rows.values())


def test_mass_by_hand(shaped):
    # white oak, 0.68 at 12 %: 761.6 kg/m3 (Wood Handbook, ch. 4); a board of 300 x 80 x 20 with one hole through
    part = shaped("{hole: {side: top, diameter: 10}}")
    assert mass(part) == pytest.approx((300 * 80 * 20 - math.pi * 25 * 20) / 1e9 * 761.6)


def test_mass_of_the_bench(bench):
    by_hand = sum(part.eased.Volume() for part in bench.parts.values()) * 1e-9 * 1000 * 0.68 * 1.12
    assert total_mass(bench) == pytest.approx(by_hand)
    # rounded arrises take away little: within 2 % of the sharp bodies
    sharp = sum(part.sharp.Volume() for part in bench.parts.values()) * 1e-9 * 1000 * 0.68 * 1.12
    assert 0.98 * sharp < total_mass(bench) < sharp


def test_mass_of_a_wood_that_is_not_known(outcome):
    piece, problems = outcome(
        """parts:
  board: {wood: moon pine, runs: left-right, thick: up-down, length: 300, width: 80, thickness: 20,
    where: {bottom: floor, centred: [left-right, front-back]}}
"""
    )
    assert piece is not None and not problems
    assert mass(piece.parts["board"]) is None and total_mass(piece) is None


def test_screws_are_counted(bench):
    rows = hardware(bench)
    # as the design counts them: 12 + 6 + 6 plugged ones of 1 3/4 in, 6 of 1 1/2 in
    counted = {
        (round(float(str(row.values["long"])) / INCH, 6), row.values["plugged"] is not None): row.count for row in rows
    }
    assert counted == {(1.75, True): 26, (1.5, False): 6}
    assert sum(row.count for row in rows) == sum(len(fixing.points) for fixing in bench.fixings)


def test_supplies_follow_the_fixings(outcome):
    piece, _ = outcome(
        """parts:
  board: {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 80, thickness: 20,
    where: {bottom: floor, centred: [left-right, front-back]}}
supplies:
  - {item: felt pad, count: 4, note: self-adhesive}
"""
    )
    assert piece is not None
    assert [(row.what, row.count, row.note) for row in hardware(piece)] == [("felt pad", 4, "self-adhesive")]


def test_surface_to_finish(shaped, built):
    plain = built(
        """parts:
  board: {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 80, thickness: 20,
    where: {bottom: floor, centred: [left-right, front-back]}}
"""
    )
    assert finish_area(plain) == pytest.approx(2 * (300 * 80 + 80 * 20 + 20 * 300))


def test_area_to_glue(built):
    piece = built(
        """parts:
  base: {wood: white oak, runs: left-right, thick: up-down, length: 300, width: 100, thickness: 20,
    where: {bottom: floor, centred: [left-right, front-back]}}
  cleat: {wood: white oak, runs: left-right, thick: up-down, length: 120, width: 40, thickness: 30,
    where: {bottom: base.top, left: -100, centred: front-back}, mirror: left-right}
joints:
  - glued face: {of: cleat, to: base, count: 2}
"""
    )
    assert glue_total(piece) == pytest.approx(2 * 120 * 40)


def test_dressed_softwood_is_measured_by_its_nominal_size(built):
    """A 2x4 of 8 ft is 5 1/3 board feet (2 x 4 x 96 / 144), however it is planed (PS 20, NHLA's board foot)."""
    piece = built("""parts:
  stud:
    {wood: ponderosa pine, stock: 2x4, runs: left-right, thick: up-down, length: 95 in, width: 3 1/2 in,
     thickness: 1 1/2 in, where: {bottom: floor, centred: [left-right, front-back]}}
""")
    (row,) = lumber(piece)
    assert row.widest == pytest.approx(3.5 * 25.4)  # as it is sold: nothing to rip
    # 95 in and an inch to trim, up to the step of a metric tape: 2440 mm
    assert row.board_feet == pytest.approx(2 * 4 * 2440 / 25.4 / 144)
