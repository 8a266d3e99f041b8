"""What a kind of shaping hands back: the solids to take away, and what to say of it."""

from dataclasses import dataclass
from typing import Literal

import cadquery as cq

from model.eased import Eased
from model.piece import Feature

Stage = Literal["outline", "easing", "sunk"]
STAGES: tuple[Stage, ...] = ("outline", "easing", "sunk")


@dataclass(frozen=True)
class Shaped:
    """`tools` lie in the part's standing frame, and cut both bodies; `eased_tools` cut the eased one further.

    Easing gives the eased body ready made, and leaves the sharp one.
    """

    stage: Stage
    tools: tuple[cq.Shape, ...]
    feature: Feature
    easing: Eased | None = None
    eased_tools: tuple[cq.Shape, ...] = ()
