"""Every kind of shaping a part may have, by the words it is said with."""

from plans.shaping.arc import Arc
from plans.shaping.bevel import Bevel
from plans.shaping.chamfer import Chamfer
from plans.shaping.cove import Cove
from plans.shaping.curve import Curve
from plans.shaping.end_cut import EndCut
from plans.shaping.groove import Groove
from plans.shaping.hand_hold import HandHold
from plans.shaping.hole import Hole
from plans.shaping.notch import Notch
from plans.shaping.rabbet import Rabbet
from plans.shaping.recess import Recess
from plans.shaping.relieved_ends import RelievedEnds
from plans.shaping.round_over import RoundOver
from plans.shaping.slot import Slot
from plans.shaping.taper import Taper
from plans.shaping.thumbnail import Thumbnail
from plans.shaping.turned import Turned

Shaping = (
    Taper
    | EndCut
    | Bevel
    | Arc
    | Curve
    | RelievedEnds
    | Turned
    | RoundOver
    | Chamfer
    | Cove
    | Thumbnail
    | Notch
    | Hole
    | Groove
    | Rabbet
    | Slot
    | HandHold
    | Recess
)

SHAPINGS: dict[str, type[Shaping]] = {
    "taper": Taper,
    "end cut": EndCut,
    "bevel": Bevel,
    "arc": Arc,
    "curve": Curve,
    "relieved ends": RelievedEnds,
    "turned": Turned,
    "round over": RoundOver,
    "chamfer": Chamfer,
    "cove": Cove,
    "thumbnail": Thumbnail,
    "notch": Notch,
    "hole": Hole,
    "groove": Groove,
    "rabbet": Rabbet,
    "slot": Slot,
    "hand hold": HandHold,
    "recess": Recess,
}

__all__ = [
    "SHAPINGS",
    "Arc",
    "Bevel",
    "Chamfer",
    "Cove",
    "Curve",
    "EndCut",
    "Groove",
    "HandHold",
    "Hole",
    "Notch",
    "Rabbet",
    "Recess",
    "RelievedEnds",
    "RoundOver",
    "Shaping",
    "Slot",
    "Taper",
    "Thumbnail",
    "Turned",
]
