"""The designs that come with the tool use every kind that the language has."""

from pathlib import Path

import pytest

from plans.fixings import FIXINGS
from plans.joints import JOINTS
from plans.kinds import kind_of
from plans.resolve import read_design
from plans.shaping import SHAPINGS

DESIGNS = sorted((Path(__file__).parent.parent.parent / "designs").glob("*.yaml"))


def used() -> dict[str, set[str]]:
    found: dict[str, set[str]] = {"joints": set(), "shaping": set(), "fixings": set()}
    for path in DESIGNS:
        design, problems = read_design(path)
        assert design is not None and not problems, path.name
        found["joints"] |= {kind_of(JOINTS, joint) for joint in design.spec.joints}
        found["fixings"] |= {kind_of(FIXINGS, fixing) for fixing in design.spec.fixings}
        found["shaping"] |= {kind_of(SHAPINGS, one) for part in design.parts.values() for one in part.shaping}
    return found


@pytest.mark.parametrize(("family", "kinds"), [("joints", JOINTS), ("shaping", SHAPINGS), ("fixings", FIXINGS)])
def test_every_kind_is_used(family: str, kinds: dict[str, type]) -> None:
    assert used()[family] == set(kinds)


def test_one_design_is_in_millimetres_throughout() -> None:
    units = {path.stem: design.spec.units for path in DESIGNS if (design := read_design(path)[0]) is not None}
    assert "mm" in units.values() and "inch" in units.values()
