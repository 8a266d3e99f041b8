"""How much face a joint offers to glue."""

from __future__ import annotations

from model.overlap import contact_area
from model.piece import Part

REACH = 0.5  # mm: glue bridges the fit of a joint, not a gap one can see


def glue_area(a: Part, b: Part) -> float:
    """Area (mm2) over which flat faces of two parts lie on each other, cheeks with their glue room included."""
    return contact_area(a.mesh, b.mesh, REACH)
