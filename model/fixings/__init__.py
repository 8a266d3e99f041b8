"""What each kind of fixing does to the parts it holds together, by its entry in the design file."""

from collections.abc import Callable
from typing import Any

from model.body import Body
from model.fixings import wood_screw
from model.piece import FixingMade
from plans import fixings as written

FIXERS: dict[type, Callable[[dict[str, list[Body]], Any, int], list[FixingMade]]] = {
    written.WoodScrew: wood_screw.fix,
}
