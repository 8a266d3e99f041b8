"""Tables and files name the same kinds, and every entry can be said."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from pydantic import BaseModel

from plans.fixings import FIXINGS
from plans.joints import JOINTS
from plans.kinds import kind_of
from plans.shaping import SHAPINGS
from plans.wording import entry_at, spoken

ROOM = Path(__file__).parent.parent.parent / "plans"


@pytest.mark.parametrize(("folder", "table"), [("joints", JOINTS), ("shaping", SHAPINGS), ("fixings", FIXINGS)])
def test_one_file_a_kind(folder: str, table: Mapping[str, type[BaseModel]]) -> None:
    files = {path.stem for path in (ROOM / folder).glob("*.py")} - {"__init__"}
    assert files == {kind.replace(" ", "_") for kind in table}
    for kind, entry in table.items():
        assert entry.__module__ == f"plans.{folder}.{kind.replace(' ', '_')}"
        assert kind_of(table, entry.model_construct()) == kind


def test_paths_are_said_in_words() -> None:
    assert spoken(("parts", "rail", "length")) == "rail.length"
    assert spoken(("joints", 1, "bridle", "thick")) == "joint 2 (bridle).thick"
    assert spoken(("parts", "leg", "shaping", 0, "taper", "to")) == "leg.shaping 1 (taper).to"
    assert spoken(("lengths", "board")) == "lengths.board"


def test_entries_are_found_by_their_path() -> None:
    assert entry_at(("joints", 3, "bridle")) is JOINTS["bridle"]
    assert entry_at(("parts", "leg", "shaping", 2, "end cut")) is SHAPINGS["end cut"]
    assert entry_at(("parts", "leg", "note")) is None
