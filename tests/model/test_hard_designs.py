"""The example designs re-made in the other units: built, and the fit check finds nothing but what is to be known.

Building and checking one takes 2 to 8 s of CPU; publishing one is a test of tests/publish.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from model.build import build
from model.checks import check_fit
from model.piece import Piece
from plans.resolve import read_design
from plans.source import read_source
from plans.units import System

DESIGNS = sorted((Path(__file__).parent.parent.parent / "designs").glob("*.yaml"))


@pytest.fixture(scope="module", params=DESIGNS, ids=lambda path: path.stem)
def remade(request: pytest.FixtureRequest) -> Piece:
    source, _ = read_source(request.param)
    assert source is not None
    there: System = "inch" if source.data["units"] == "mm" else "mm"
    design, problems = read_design(request.param, there)
    assert design is not None and not problems, problems
    piece, problems = build(replace(design, printed_in=(there,)))
    assert piece is not None and not problems, problems
    return piece


def test_it_fits_from_its_own_printed_numbers_too(remade: Piece) -> None:
    found = [problem for problem in check_fit(remade) if problem.severity != "note"]
    assert not found, found


def test_it_is_the_same_piece_in_other_sizes(remade: Piece) -> None:
    """The same parts and joints under the same letters; no larger or smaller over all than the rules allow twice."""
    design, _ = read_design(remade.design.source.file)
    assert design is not None
    own, _ = build(design)
    assert own is not None
    assert list(own.parts) == list(remade.parts)
    assert [(item.mark, item.name) for item in own.items] == [(item.mark, item.name) for item in remade.items]
    assert [(joint.a, joint.b) for joint in own.joints] == [(joint.a, joint.b) for joint in remade.joints]
    assert remade.size == pytest.approx(own.size, rel=0.05)


def test_what_is_cut_square_is_cut_to_sizes_one_reads_off_a_rule(remade: Piece) -> None:
    """Stated sizes of parts are whole millimetres, or sixteenths of an inch: what else is one follows from these."""
    step = 0.5 if remade.design.system == "mm" else 25.4 / 16
    for name, spec in remade.design.parts.items():
        if spec.sheet is None:
            for size in (spec.length, spec.width, spec.thickness):
                steps = 0 if size is None else size / step
                assert steps == pytest.approx(round(steps), abs=1e-6), (name, size)
