"""The designs that come with the tool keep to what any joiner would tell an apprentice (common practice)."""

import math
from pathlib import Path
from typing import get_args

import pytest

from plans.joints.dovetail import Dovetail, Slope
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.library import species
from plans.resolve import read_design

DESIGNS = sorted((Path(__file__).parent.parent.parent / "designs").glob("*.yaml"))


@pytest.mark.parametrize("path", DESIGNS, ids=lambda path: path.stem)
def test_a_tenon_is_about_a_third_of_its_rail(path: Path) -> None:
    """A third, as near as chisels come; half at the most, where the rail is thin (common practice)."""
    design, _ = read_design(path)
    assert design is not None
    for joint in design.spec.joints:
        if isinstance(joint, MortiseAndTenon):
            rail = design.parts[joint.of]
            assert rail.thickness is not None
            assert 0.25 <= joint.thick / rail.thickness <= 0.51, (path.stem, joint.of)


def test_slopes_of_dovetails() -> None:
    """1 in 6 for softwood is 9 1/2 degrees, 1 in 8 for hardwood a little over 7 (common practice)."""
    angles = {slope: math.degrees(math.atan(1 / int(slope.split(":")[1]))) for slope in get_args(Slope)}
    assert angles == {
        "1:6": pytest.approx(9.46, abs=0.01),
        "1:7": pytest.approx(8.13, abs=0.01),
        "1:8": pytest.approx(7.13, abs=0.01),
    }


@pytest.mark.parametrize("path", DESIGNS, ids=lambda path: path.stem)
def test_hardwood_is_dovetailed_at_the_lesser_slope(path: Path) -> None:
    design, _ = read_design(path)
    assert design is not None
    for joint in design.spec.joints:
        if isinstance(joint, Dovetail):
            wood = species(design.parts[joint.of].wood)
            assert wood is not None
            assert (wood.group == "hardwood") == (joint.slope != "1:6")
