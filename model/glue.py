"""How much face a joint offers to glue, and how much of it is long grain."""

from __future__ import annotations

from model.grain import grain
from model.overlap import Patch, contact_area, contact_patches
from model.piece import Part

REACH = 0.5  # mm: glue bridges the fit of a joint, not a gap one can see
END_GRAIN = 0.7  # cosine between the grain and the way a face looks: 45 degrees and steeper is end grain


def glue_area(a: Part, b: Part) -> float:
    """Area (mm2) over which flat faces of two parts lie on each other, cheeks with their glue room included."""
    return contact_area(a.mesh, b.mesh, REACH)


def long_grain_patches(a: Part, b: Part) -> list[Patch]:
    """Where long grain lies on long grain, largest first."""
    # the edges of sheet goods take glue every way: only solid wood has end grain
    runs = [grain(part) for part in (a, b) if part.spec.wood]
    return [
        patch
        for patch in contact_patches(a.mesh, b.mesh, REACH)
        if all(abs(float(patch.normal @ run)) < END_GRAIN for run in runs)
    ]


def long_grain_area(a: Part, b: Part) -> float:
    """Area (mm2) of it."""
    return sum(patch.area for patch in long_grain_patches(a, b))
