"""Designs without what takes time to build and is not looked at: for pieces that are only measured or checked."""

from __future__ import annotations

from dataclasses import replace

from plans.design import Design
from plans.shaping import Chamfer, RoundOver

EASING = (RoundOver, Chamfer)


def sharp(design: Design) -> Design:
    """Without eased arrises: no check of the fit looks at them, and they take most of the time."""
    parts = {
        kind: spec.model_copy(update={"shaping": tuple(s for s in spec.shaping if not isinstance(s, EASING))})
        for kind, spec in design.parts.items()
    }
    return replace(design, spec=design.spec.model_copy(update={"parts": parts}))


def unbored(design: Design) -> Design:
    """Without fixings: their holes move no side of a part."""
    return replace(design, spec=design.spec.model_copy(update={"fixings": ()}))
