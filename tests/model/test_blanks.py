"""Blanks: head to foot only where it saves wood, and never narrower than plane geometry allows."""

import math

import pytest

from model.cut_list import cut_list

LEG = """parts:
  leg:
    {{wood: white oak, stock: 8/4, runs: up-down, thick: front-back, length: {length}, width: {width}, thickness: 40,
     where: {{left: 100, top: 1000, front: 0}}, mirror: left-right,
     shaping: [{{taper: {{sides: {sides}, from: top, after: {after}, to: {to}}}}}]}}
"""


def row(built, **sizes):
    (found,) = cut_list(built(LEG.format(**sizes)))
    return found


@pytest.mark.parametrize(("after", "to"), [(0, 20), (100, 25), (200, 10)])
def test_two_legs_head_to_foot(built, after, to) -> None:
    """Each leg is cut along one line; the two lie with these lines together, a saw cut apart.

    A leg is `width` wide for `after` and narrows evenly to `to`. Where both narrow, the two widths add up to the same
    everywhere: twice the width at half length. That, the kerf and an allowance for each leg, up to 5 mm.
    """
    width, length, kerf, allowance = 60, 700, 3, 6  # the saw of a design in millimetres, unless said
    found = row(built, length=length, width=width, sides="right", after=after, to=to)
    middle = width - (width - to) * (length / 2 - after) / (length - after)
    wanted = math.ceil((2 * middle + kerf + 2 * allowance) / 5 - 1e-9) * 5
    (blank,) = found.blanks
    assert (blank.count, blank.gives, blank.width) == (1, 2, pytest.approx(wanted))
    assert blank.slant == pytest.approx((width - to) / (length - after) * length)


def test_tapered_both_ways_save_the_same(built) -> None:
    """Half the fall on either side: the sides that lie together give half as much, and the outer ones nothing."""
    found = row(built, length=700, width=60, sides="[left, right]", after=0, to=20)
    (blank,) = found.blanks
    assert blank.gives == 2
    assert blank.width == pytest.approx(math.ceil((120 - 20 + 3 + 12) / 5) * 5)


def test_a_slight_taper_is_not_worth_it(built) -> None:
    (blank,) = row(built, length=700, width=60, sides="right", after=600, to=55).blanks
    assert (blank.count, blank.gives, blank.width) == (2, 1, pytest.approx(70))


def test_an_odd_leg_has_a_blank_of_its_own(built) -> None:
    text = LEG.format(length=700, width=60, sides="right", after=0, to=20)
    text = text.replace("mirror: left-right", "repeat: {along: left-right, count: 3, gap: 50}").replace(
        "left: 100, ", ""
    )
    text = text.replace("front: 0", "centred: left-right, front: 0")
    (found,) = cut_list(built(text))
    assert [(blank.count, blank.gives) for blank in found.blanks] == [(1, 2), (1, 1)]
    assert sum(blank.count * blank.gives for blank in found.blanks) == found.item.quantity == 3


def test_what_is_taller_than_its_board_is_thick_is_sawn_on_edge(built) -> None:
    """1 1/4 in by 3/4 in out of a 1 in board: only the 3/4 in can be its thickness, whatever the design calls it."""
    piece = built("""parts:
  rail:
    {wood: white oak, stock: 4/4, runs: left-right, thick: front-back, length: 400, width: 3/4 in, thickness: 1 1/4 in,
     where: {bottom: floor, centred: [left-right, front-back]}}
""")
    (found,) = cut_list(piece)
    assert found.rough_width == pytest.approx(40)  # 31.75 and 6.35, up to 5 mm


def test_marked_to_fit_and_from_one_board(built) -> None:
    piece = built("""parts:
  post: {wood: white oak, stock: 4/4, runs: up-down, thick: left-right, length: 400, width: 60, thickness: 20,
    where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  rail: {wood: white oak, stock: 4/4, runs: left-right, thick: front-back, width: 50, thickness: 20, from one board: a,
    where: {bottom: 20, centred: front-back}, cut to: {left: post, right: post}, gap: 2}
  shelf: {wood: white oak, stock: 4/4, runs: left-right, thick: up-down, width: 50, thickness: 20, from one board: a,
    marked to fit: length, where: {bottom: 300, centred: front-back}, cut to: {left: post, right: post}}
""")
    rows = {one.item.name: one for one in cut_list(piece)}
    assert rows["post"].fits == () and rows["rail"].fits == rows["shelf"].fits == ("length",)
    assert rows["rail"].first_length == pytest.approx(rows["rail"].length + 3.175)
    assert rows["rail"].first_width == rows["rail"].width
    assert rows["post"].one_board is None and rows["rail"].one_board == rows["shelf"].one_board == "a"


def test_no_blank_is_smaller_than_what_is_cut_first(built) -> None:
    """Of a sheet the blank is what is cut first, of wood it is larger."""
    piece = built("""parts:
  side: {sheet: MDF, stock: 18 mm, runs: up-down, thick: left-right, length: 800, width: 300,
    where: {bottom: floor, left: -300, centred: front-back}, mirror: left-right}
  shelf: {sheet: MDF, stock: 18 mm, runs: left-right, thick: up-down, width: 300, marked to fit: width,
    where: {bottom: 300, centred: front-back}, cut to: {left: side, right: side}, gap: 1}
""")
    side, shelf = cut_list(piece)
    assert (side.rough_length, side.rough_width) == pytest.approx((side.length, side.width))
    assert (shelf.rough_length, shelf.rough_width) == pytest.approx((shelf.length + 3.175, shelf.width + 3.175))
    assert (shelf.first_length, shelf.first_width) == pytest.approx((shelf.rough_length, shelf.rough_width))
