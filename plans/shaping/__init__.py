"""Every kind of shaping a part may have, by the words it is said with."""

from plans.shaping.bevel import Bevel
from plans.shaping.chamfer import Chamfer
from plans.shaping.end_cut import EndCut
from plans.shaping.hole import Hole
from plans.shaping.notch import Notch
from plans.shaping.round_over import RoundOver
from plans.shaping.taper import Taper

Shaping = Taper | EndCut | Bevel | RoundOver | Chamfer | Notch | Hole

SHAPINGS: dict[str, type[Shaping]] = {
    "taper": Taper,
    "end cut": EndCut,
    "bevel": Bevel,
    "round over": RoundOver,
    "chamfer": Chamfer,
    "notch": Notch,
    "hole": Hole,
}

__all__ = ["SHAPINGS", "Bevel", "Chamfer", "EndCut", "Hole", "Notch", "RoundOver", "Shaping", "Taper"]
