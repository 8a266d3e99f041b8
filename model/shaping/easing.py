"""What round-overs and chamfers have in common."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal

import cadquery as cq
import numpy as np
from OCP.StdFail import StdFail_NotDone

from model import kernel
from model.body import Body
from model.brep import content, packed, unpacked
from model.cache import kept
from model.eased import Mark, mark_of, ready
from model.kernel import KernelFault
from model.meshes import Mesh, mesh_of
from model.piece import Callout, Feature, Operation, Value
from model.shaping.arrises import Arris, arrises
from model.shaping.cutters import cutter, stopped, taken_off
from model.shaping.shaped import Shaped
from model.shaping.stops import stop_values
from model.survived import survived
from plans.sides import AXIS_NUMBER, SIDE_SIGN, Side

Form = Literal["round", "flat"]
FLAT_NOISE = 1e-7  # relative; the faces of a flat-sided solid give its volume to rounding
CURVED_NOISE = 2e-3  # relative; facets of small rounds
ON_CURVE = 1e-4  # mm a swept cutter may lie off the curve it follows
LEAST = 0.5  # share of what a cutter should take off a curved arris that neighbours may have taken before it
CORNERS = 0.15  # share by which the meeting of arrises at corners may change what they take off


def ease(
    body: Body, kind: str, wanted: tuple[str, ...], size: float, form: Form, stop: Mapping[Side, float] | None = None
) -> Shaped:
    """The eased body: by the kernel's own fillet where that comes out sound, else by cutters.

    `stop` says for each end how far short of it the easing stays (mm).
    """
    found = arrises(body, wanted)
    if not found:
        raise KernelFault(f"no arris of {body.name} is called {', '.join(wanted)}")
    if stop:
        tools = [_stopped(body, arris, size, stop) for arris in found]
        solid = kernel.cut(body.eased, tools, f"the {kind} of {body.name}")
        marks = [mark_of(tool) for tool in tools]
    else:
        solid = _by_kernel(body, found, size, form) or _by_cutters(body, kind, found, size, form)
        marks = [Mark(arris.middle, f"{kind} {size:.6g}", arris.length) for arris in found]
    values: dict[str, Value] = {"arrises": "; ".join(wanted), "size": size, **stop_values(stop or {})}
    middle = body.blank.middle()
    point = (float(middle[0]), float(middle[1]), float(middle[2]))
    callout = Callout(kind, dict(values), point, body.datum_side(body.thick))
    feature = Feature(kind, "shaping", (), (callout,), Operation(kind, dict(values)))
    return Shaped("easing", (), feature, ready(solid, (*body.marks, *marks)))


def _by_kernel(body: Body, found: list[Arris], size: float, form: Form) -> cq.Solid | None:
    """The kernel's fillet or chamfer; None where it fails, which it may do without saying so."""
    if body.easing is not None:
        return None  # eased once already: its arrises are no longer those of the sharp body
    told = (size, form, *((arris.start, arris.middle, arris.end) for arris in found))
    raw = kept("eased by the kernel", lambda: (content(body.sharp), told), lambda: _tried(body, found, size, form))
    return cq.Solid(unpacked(raw).wrapped) if raw else None


def _tried(body: Body, found: list[Arris], size: float, form: Form) -> bytes:
    """The eased solid as bytes; none of them where the kernel fails, or crashes."""
    raw = survived(lambda: _filleted(body, found, size, form))
    if not raw:
        return b""
    solid = cq.Solid(unpacked(raw).wrapped)
    expected = sum(taken_off(arris, size, form) for arris in found)
    gone = body.sharp.Volume() - solid.Volume()
    sound = abs(gone - expected) <= CORNERS * expected and _closed(solid, body.sharp)
    return raw if sound else b""


def _filleted(body: Body, found: list[Arris], size: float, form: Form) -> bytes:
    """What the kernel makes of it."""
    edges = [arris.edge for arris in found]
    try:
        shape = body.sharp.fillet(size, edges) if form == "round" else body.sharp.chamfer(size, None, edges)
        return packed(kernel.one_solid(shape, "easing"))
    except (StdFail_NotDone, KernelFault, ValueError):
        return b""


def _closed(solid: cq.Solid, sharp: cq.Solid) -> bool:
    """Whether the faces of a solid enclose its volume: at the corners of a shaped part the kernel leaves slits."""
    mesh, before = mesh_of(solid), mesh_of(sharp)
    noise = FLAT_NOISE if mesh.flat.all() else CURVED_NOISE + _off(before, sharp)  # rounds are facets in a mesh
    return _off(mesh, solid) <= noise


def _off(mesh: Mesh, solid: cq.Solid) -> float:
    """The share by which the volume of a mesh differs from the solid's."""
    return abs(mesh.volume - float(solid.Volume())) / mesh.volume


def _by_cutters(body: Body, kind: str, found: list[Arris], size: float, form: Form) -> cq.Solid:
    """One cutter an arris, those that run the same way together: mixed ways confuse the kernel at corners."""
    solid = body.eased
    for group in _parallel(found):
        solid = kernel.cut(solid, [cutter(arris, size, form) for arris in group], f"the {kind} of {body.name}")
    for arris in found:
        if arris.curved:
            before = solid.Volume()
            where = f"the {kind} of the curved arris {' '.join(sorted(arris.sides))} of {body.name}"
            solid = kernel.cut(solid, [cutter(arris, size, form)], where, near=ON_CURVE)
            expected = taken_off(arris, size, form)
            if not LEAST * expected <= before - solid.Volume() <= (1 + CORNERS) * expected:
                raise KernelFault(f"{where} cannot be made with this size")
    return solid


def _stopped(body: Body, arris: Arris, size: float, stop: Mapping[Side, float]) -> cq.Solid:
    """The flat cutter for a long arris, ending where `stop` says."""
    if arris.curved:
        raise KernelFault("only a straight arris can stop short of an end")
    ends = []
    number = AXIS_NUMBER[body.runs]
    along = arris.end - arris.start
    for side, short in stop.items():
        if abs(float(along[number])) < 0.5 * float(np.linalg.norm(along)):
            raise KernelFault("only an arris along the part can stop short of an end")
        share = (body.blank.at(side) - SIDE_SIGN[side] * short - arris.start[number]) / float(along[number])
        if not 0 < share < 1:
            raise KernelFault("the chamfer stops before it begins")
        ends.append((arris.start + along * share, along * np.sign(along[number]) * SIDE_SIGN[side]))
    unit = [(place, onward / np.linalg.norm(onward)) for place, onward in ends]
    if len(unit) == 2 and float((unit[0][0] - unit[1][0]) @ unit[0][1]) <= 0:
        raise KernelFault("the chamfer stops before it begins")
    return stopped(cutter(arris, size, "flat"), arris, size, unit)


def _parallel(found: list[Arris]) -> Iterable[list[Arris]]:
    groups: dict[int, list[Arris]] = {}
    for arris in found:
        if arris.curved:
            continue
        groups.setdefault(int(np.argmax(np.abs(arris.end - arris.start))), []).append(arris)
    return groups.values()
