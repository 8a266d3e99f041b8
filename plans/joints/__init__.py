"""Every kind of joint a design may say, by the words it is said with."""

from plans.joints.bridle import Bridle
from plans.joints.cross_halving import CrossHalving
from plans.joints.glued_face import GluedFace
from plans.joints.grooved_panel import GroovedPanel
from plans.joints.housing import Housing
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.joints.notch_over import NotchOver
from plans.joints.rabbet import Rabbet
from plans.joints.tongue_and_groove import TongueAndGroove

Joint = (
    MortiseAndTenon | Bridle | CrossHalving | NotchOver | GluedFace | Housing | Rabbet | TongueAndGroove | GroovedPanel
)

JOINTS: dict[str, type[Joint]] = {
    "mortise and tenon": MortiseAndTenon,
    "bridle": Bridle,
    "cross halving": CrossHalving,
    "notch over": NotchOver,
    "glued face": GluedFace,
    "housing": Housing,
    "rabbet": Rabbet,
    "tongue and groove": TongueAndGroove,
    "grooved panel": GroovedPanel,
}

__all__ = [
    "JOINTS",
    "Bridle",
    "CrossHalving",
    "GluedFace",
    "GroovedPanel",
    "Housing",
    "Joint",
    "MortiseAndTenon",
    "NotchOver",
    "Rabbet",
    "TongueAndGroove",
]
