"""Names of single parts: by where they stand, or by number along a row."""

from __future__ import annotations

from model.body import Body
from model.kernel import KernelFault
from plans.sides import AXIS_NUMBER, Axis, side_of
from plans.spec import PartSpec

# the order in which a maker says it: "leg front left", "shelf top back"
SPOKEN: tuple[Axis, ...] = ("up-down", "front-back", "left-right")


def repeat_name(kind: str, spec: PartSpec, number: int) -> str:
    """`seat slat 3` for a part of a row, the bare kind for a single one."""
    return f"{kind} {number}" if spec.repeat is not None and spec.repeat.count > 1 else kind


def mirror_names(first: Body, images: list[Body], centre: dict[Axis, float]) -> list[str]:
    """Names of a part and its mirror images, by the side of the `centre` (mm) that each stands on."""
    axes = [axis for axis in SPOKEN if axis in first.spec.mirror]
    names = []
    for body in images:
        words = [str(side_of(axis, float(body.at[AXIS_NUMBER[axis], 3]) - centre[axis])) for axis in axes]
        names.append(" ".join([first.name, *words]))
    if len(set(names)) < len(names):
        raise KernelFault(f"{first.name} stands on the centre line, and its mirror image in the same place")
    return names
