"""What each kind of fixing does to the parts it holds together, by its entry in the design file."""

from collections.abc import Callable
from typing import Any

from model.body import Body
from model.fixings import (
    butt_hinge,
    drawer_slide,
    foot_leveller,
    lid_stay,
    machine_bolt,
    magnet,
    nail,
    pull,
    shelf_pin,
    top_fastener,
    wall_strap,
    wood_screw,
)
from model.piece import FixingMade
from plans import fixings as written

FIXERS: dict[type, Callable[[dict[str, list[Body]], Any, int], list[FixingMade]]] = {
    written.WoodScrew: wood_screw.fix,
    written.TopFastener: top_fastener.fix,
    written.ButtHinge: butt_hinge.fix,
    written.ShelfPin: shelf_pin.fix,
    written.Pull: pull.fix,
    written.FootLeveller: foot_leveller.fix,
    written.MachineBolt: machine_bolt.fix,
    written.Magnet: magnet.fix,
    written.Nail: nail.fix,
    written.DrawerSlide: drawer_slide.fix,
    written.LidStay: lid_stay.fix,
    written.WallStrap: wall_strap.fix,
}
