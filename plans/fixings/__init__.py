"""Every kind of fixing a design may use, by the words it is said with."""

from plans.fixings.wood_screw import WoodScrew

Fixing = WoodScrew

FIXINGS: dict[str, type[Fixing]] = {"wood screw": WoodScrew}

__all__ = ["FIXINGS", "Fixing", "WoodScrew"]
