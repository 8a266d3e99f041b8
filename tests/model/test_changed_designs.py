"""The porch bench with other driving numbers: the whole piece follows, and still fits."""

import math
from pathlib import Path

import pytest

from model.build import build
from model.checks import check_fit
from model.piece import Piece
from plans.resolve import read_design

INCH = 25.4
DESIGN = Path(__file__).parent.parent.parent / "designs" / "porch_bench.yaml"
# as in the file: leg 1 3/4, 4 in from the ends and 3/4 from the front; seat 15 deep, 3/4 thick, 17 1/4 high
UNDER_SEAT = 17.25 - 0.75


def changed(built, splay: tuple[int, int], length: int, *, screws: bool = False) -> Piece:
    text = DESIGN.read_text(encoding="utf-8")
    if not screws:  # half of the time goes into their holes
        text = text[: text.index("\nfixings:")]
    for old, new in (
        ("end_splay: 6", f"end_splay: {splay[0]}"),
        ("side_splay: 8", f"side_splay: {splay[1]}"),
        ("seat_length: 48", f"seat_length: {length}"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    return built(text)  # every `count:` of a joint or fixing in the file is held to


def sizes(piece: Piece, name: str) -> tuple[float, float, float]:
    """Length, width and thickness of a part, inches."""
    part = piece.parts[name]
    return tuple((high - low) / INCH for low, high in (part.length, part.width, part.thickness))  # type: ignore


def said(piece: Piece, name: str) -> list[str]:
    """What is called out on a part."""
    return [callout.what for feature in piece.parts[name].features for callout in feature.callouts]


def loud(piece: Piece) -> list[str]:
    """What the fit check finds besides notes; the numbers as printed left out for time.

    Where the screws are left out nothing holds the slats.
    """
    left_out = () if piece.fixings else ("part-not-held",)
    told = check_fit(piece, as_printed=False)
    return [problem.code for problem in told if problem.severity != "note" and problem.code not in left_out]


def overall(splay: tuple[int, int], length: float) -> list[float]:
    """Seat or feet, whichever reach out farther."""
    out = [UNDER_SEAT * math.tan(math.radians(a)) for a in splay]
    return [max(length, length - 8 + 2 * out[0]), max(15, 15 - 1.5 + 2 * out[1]), 17.25]


def test_as_drawn(bench):
    assert [s / INCH for s in bench.size] == pytest.approx(overall((6, 8), 48))
    assert not loud(bench)


def test_longer_seat(built, bench):
    longer = changed(built, (6, 8), 60)
    assert [s / INCH for s in longer.size] == pytest.approx(overall((6, 8), 60))
    for name, more in (("long rail front", 12), ("end rail left", 0), ("leg front left", 0), ("shelf slat 1", 12)):
        before, after = sizes(bench, name), sizes(longer, name)
        assert after == pytest.approx((before[0] + more, *before[1:]))
    assert len(longer.joints) == len(bench.joints) and not loud(longer)


def test_upright_legs(built):
    piece = changed(built, (0, 0), 36)
    assert [s / INCH for s in piece.size] == pytest.approx(overall((0, 0), 36))
    # between the legs, and a tenon of 3/4 at each end
    assert sizes(piece, "long rail front") == pytest.approx((36 - 8 - 3.5 + 1.5, 2.75, 13 / 16))
    assert sizes(piece, "end rail left") == pytest.approx((15 - 1.5 - 3.5 + 1.5, 2.75, 13 / 16))
    assert sizes(piece, "leg front left") == pytest.approx((UNDER_SEAT, 1.75, 1.75))
    callouts = [c for name in ("leg front left", "long rail front", "end rail left") for c in said(piece, name)]
    assert "tenon" in callouts and not {"sloped end", "sloped edge"} & set(callouts)
    # the shelf bearer meets the taper of the leg, which is 5/8 in on 12 1/2 in
    (slope,) = {
        round(c.values["mitre"] + c.values["slope"], 6)
        for f in piece.parts["shelf bearer left"].features
        for c in f.callouts
        if c.what == "sloped end"
    }
    assert slope == pytest.approx(math.degrees(math.atan(0.625 / 12.5)))
    assert not loud(piece)


def test_more_splay_one_way_than_the_other(built):
    splay = (10, 3)
    piece = changed(built, splay, 50, screws=True)
    assert [s / INCH for s in piece.size] == pytest.approx(overall(splay, 50))
    # a leg reaches from its outer corner on the floor to its inner one under the seat, neither of them tapered:
    # along the lean between the two levels, and across its own section along the slant
    a, b = (math.tan(math.radians(angle)) for angle in splay)
    lean = math.sqrt(1 + a * a + b * b)
    assert sizes(piece, "leg front left")[0] == pytest.approx(UNDER_SEAT * lean + 1.75 * (a + b))
    assert not loud(piece)


def test_a_fault_is_told_in_the_units_of_the_design(tmp_path):
    text = DESIGN.read_text(encoding="utf-8").replace("long: 3/4, shoulders", "long: 1 11/16, shoulders", 1)
    path = tmp_path / "bench.yaml"
    path.write_text(text, encoding="utf-8")
    design, _ = read_design(path)
    assert design is not None
    (message,) = {problem.message.split(" for ")[1] for problem in build(design)[1] if problem.code == "joint-fails"}
    assert message.endswith("at least 1⁄8 in is wanted")
