"""Every kind of fixing a design may use, by the words it is said with."""

from plans.fixings.butt_hinge import ButtHinge
from plans.fixings.drawer_slide import DrawerSlide
from plans.fixings.foot_leveller import FootLeveller
from plans.fixings.lid_stay import LidStay
from plans.fixings.machine_bolt import MachineBolt
from plans.fixings.magnet import Magnet
from plans.fixings.nail import Nail
from plans.fixings.pull import Pull
from plans.fixings.shelf_pin import ShelfPin
from plans.fixings.top_fastener import TopFastener
from plans.fixings.wall_strap import WallStrap
from plans.fixings.wood_screw import WoodScrew

Fixing = (
    WoodScrew
    | TopFastener
    | ButtHinge
    | ShelfPin
    | Pull
    | FootLeveller
    | MachineBolt
    | Magnet
    | Nail
    | DrawerSlide
    | LidStay
    | WallStrap
)

FIXINGS: dict[str, type[Fixing]] = {
    "wood screw": WoodScrew,
    "top fastener": TopFastener,
    "butt hinge": ButtHinge,
    "shelf pin": ShelfPin,
    "pull": Pull,
    "foot leveller": FootLeveller,
    "machine bolt": MachineBolt,
    "magnet": Magnet,
    "nail": Nail,
    "drawer slide": DrawerSlide,
    "lid stay": LidStay,
    "wall strap": WallStrap,
}

# the table in plans/library that holds the sizes of a kind
SIZE_TABLES: dict[type[Fixing], str] = {
    ButtHinge: "butt_hinges",
    ShelfPin: "shelf_pins",
    Pull: "pulls",
    FootLeveller: "foot_levellers",
    MachineBolt: "threads",
    Magnet: "magnets",
    Nail: "nails",
    DrawerSlide: "drawer_slides",
    LidStay: "lid_stays",
    WallStrap: "wall_straps",
}

__all__ = [
    "FIXINGS",
    "SIZE_TABLES",
    "ButtHinge",
    "DrawerSlide",
    "Fixing",
    "FootLeveller",
    "LidStay",
    "MachineBolt",
    "Magnet",
    "Nail",
    "Pull",
    "ShelfPin",
    "TopFastener",
    "WallStrap",
    "WoodScrew",
]
