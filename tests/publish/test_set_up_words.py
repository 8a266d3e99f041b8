"""One setting serves all parts that need it: nothing is printed twice, and no cut is lost when they are gathered."""

import re
from collections import Counter

import pytest

from model.piece import Piece
from model.set_ups import set_ups
from plans.units import UnitSystem
from publish.edition import Edition
from publish.words.set_ups import MACHINES, gathered


@pytest.fixture(params=["inch", "mm"])
def bench_edition(request: pytest.FixtureRequest, bench_piece: Piece) -> Edition:
    return Edition(bench_piece, (), None, bench_piece.design.units(request.param))  # type: ignore[arg-type]


def test_a_setting_is_printed_once(bench_edition: Edition) -> None:
    for settings in gathered(bench_edition).values():
        assert max(Counter(one.first for one in settings).values()) == 1
        for one in settings:
            assert len(set(one.serves)) == len(one.serves)


def test_no_cut_is_lost(bench_edition: Edition) -> None:
    """The numbers as printed, a mark without one standing for all its parts, add up to those of the piece."""
    wanted = Counter[str]()
    needs = {one.mark: one.item.quantity for one in set_ups(bench_edition.piece)}
    for one in set_ups(bench_edition.piece):
        wanted[one.setting.kind] += one.cuts
    found = Counter[str]()
    for kind, settings in gathered(bench_edition).items():
        for served in (text for one in settings for text in one.serves):
            for mark, cuts in re.findall(r"\b([A-Z]+)\b(?: \((\d+)\))?(?=, |$)", served.split(": ")[-1]):
                found[kind] += int(cuts) if cuts else needs[mark]
    assert found == wanted


def test_the_same_tilt_serves_ends_and_edges(bench_piece: Piece) -> None:
    """Legs lean 8 degrees to the front, and the long rails that stand on them are bevelled to the same angle."""
    edition = Edition(bench_piece, (), None, UnitSystem("inch", bench_piece.design.step_inch))  # type: ignore[arg-type]
    (tilted,) = [one for one in gathered(edition)["tilt"] if one.first == "tilted 8°"]
    served = " ".join(tilted.serves)
    assert "along the edge: D" in served and "C (8)" in served


def test_every_kind_of_setting_has_its_machine(bench_piece: Piece) -> None:
    assert {one.setting.kind for one in set_ups(bench_piece)} <= set(MACHINES)
