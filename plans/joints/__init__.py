"""Every kind of joint a design may say, by the words it is said with."""

from plans.joints.biscuit import Biscuit
from plans.joints.box_joint import BoxJoint
from plans.joints.breadboard_end import BreadboardEnd
from plans.joints.bridle import Bridle
from plans.joints.cross_halving import CrossHalving
from plans.joints.dovetail import Dovetail
from plans.joints.dowel import Dowel
from plans.joints.glued_face import GluedFace
from plans.joints.grooved_panel import GroovedPanel
from plans.joints.housing import Housing
from plans.joints.loose_tenon import LooseTenon
from plans.joints.mitre import Mitre
from plans.joints.mortise_and_tenon import MortiseAndTenon
from plans.joints.notch_over import NotchOver
from plans.joints.rabbet import Rabbet
from plans.joints.scribe import Scribe
from plans.joints.sliding_dovetail import SlidingDovetail
from plans.joints.tongue_and_groove import TongueAndGroove

Joint = (
    MortiseAndTenon
    | Bridle
    | CrossHalving
    | NotchOver
    | GluedFace
    | Housing
    | Rabbet
    | TongueAndGroove
    | GroovedPanel
    | BoxJoint
    | Dovetail
    | SlidingDovetail
    | Mitre
    | LooseTenon
    | Dowel
    | Biscuit
    | BreadboardEnd
    | Scribe
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
    "box joint": BoxJoint,
    "dovetail": Dovetail,
    "sliding dovetail": SlidingDovetail,
    "mitre": Mitre,
    "loose tenon": LooseTenon,
    "dowel": Dowel,
    "biscuit": Biscuit,
    "breadboard end": BreadboardEnd,
    "scribe": Scribe,
}

__all__ = [
    "JOINTS",
    "Biscuit",
    "BoxJoint",
    "BreadboardEnd",
    "Bridle",
    "CrossHalving",
    "Dovetail",
    "Dowel",
    "GluedFace",
    "GroovedPanel",
    "Housing",
    "Joint",
    "LooseTenon",
    "Mitre",
    "MortiseAndTenon",
    "NotchOver",
    "Rabbet",
    "Scribe",
    "SlidingDovetail",
    "TongueAndGroove",
]
