"""Every kind of joint a design may say, by the words it is said with."""

from plans.joints.bridle import Bridle
from plans.joints.cross_halving import CrossHalving
from plans.joints.glued_face import GluedFace
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.joints.notch_over import NotchOver

Joint = MortiseAndTenon | Bridle | CrossHalving | NotchOver | GluedFace

JOINTS: dict[str, type[Joint]] = {
    "mortise and tenon": MortiseAndTenon,
    "bridle": Bridle,
    "cross halving": CrossHalving,
    "notch over": NotchOver,
    "glued face": GluedFace,
}

__all__ = ["JOINTS", "Bridle", "CrossHalving", "GluedFace", "Joint", "MortiseAndTenon", "NotchOver"]
