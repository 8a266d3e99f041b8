"""Every kind of joint a design may say, by the words it is said with."""

from plans.joints.breadboard_end import BreadboardEnd
from plans.joints.bridle import Bridle
from plans.joints.cross_halving import CrossHalving
from plans.joints.dowel import Dowel
from plans.joints.glued_face import GluedFace
from plans.joints.loose_tenon import LooseTenon
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.joints.notch_over import NotchOver
from plans.joints.scribe import Scribe

Joint = MortiseAndTenon | Bridle | CrossHalving | NotchOver | GluedFace | LooseTenon | Dowel | BreadboardEnd | Scribe

JOINTS: dict[str, type[Joint]] = {
    "mortise and tenon": MortiseAndTenon,
    "bridle": Bridle,
    "cross halving": CrossHalving,
    "notch over": NotchOver,
    "glued face": GluedFace,
    "loose tenon": LooseTenon,
    "dowel": Dowel,
    "breadboard end": BreadboardEnd,
    "scribe": Scribe,
}

__all__ = [
    "JOINTS",
    "BreadboardEnd",
    "Bridle",
    "CrossHalving",
    "Dowel",
    "GluedFace",
    "Joint",
    "LooseTenon",
    "MortiseAndTenon",
    "NotchOver",
    "Scribe",
]
