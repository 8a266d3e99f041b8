"""Every part is one sound solid of the volume its faces enclose; of parts that come out alike, one is looked at."""

from __future__ import annotations

import cadquery as cq

from model.kernel import KernelFault
from model.meshes import Mesh, mesh_of
from model.piece import Part, Piece
from plans.problems import Problem

FLAT_NOISE = 1e-6  # relative; the faces of a flat-sided solid give its volume to rounding
COARSE = (0.2, 0.5)  # mm and radians a facet
FINE = (0.005, 0.05)  # mm and radians a facet
CURVED_NOISE = 2e-3  # relative; facets of small rounds and holes


def check(piece: Piece) -> list[Problem]:
    """Parts the kernel calls unsound, or whose volume by its faces differs from the kernel's own."""
    found = []
    for part in piece.parts.values():
        fault = "" if part.like is not None else _fault(part)
        if fault:
            place = piece.design.place("parts", part.kind, "shaping")
            hint = "change the shaping or the joints of this part; tell us if the design looks right"
            found.append(Problem("unsound-solid", "error", f"{part.name} {fault}", place, hint, (part.name,)))
    return found


def _fault(part: Part) -> str:
    # the eased body is only looked at here and in pictures: coarse facets do, and are made many times faster
    try:
        eased = part.eased
    except KernelFault:
        return "is not one sound solid where its arrises are eased"
    bodies = [(part.sharp, part.own_mesh)]
    if part.easing is not None:
        bodies.append((eased, mesh_of(eased, *COARSE)))
    for solid, mesh in bodies:
        if not solid.isValid() or len(solid.Solids()) != 1:
            return "is not one sound solid"
        noise = FLAT_NOISE if mesh.flat.all() else CURVED_NOISE
        # a part turned round all over loses more than that to its facets: look again with finer ones
        if _apart(mesh, solid, noise) and _apart(mesh_of(solid, *FINE), solid, noise):
            return "has faces that do not enclose its volume"
    if part.eased_volume > part.sharp.Volume() * (1 + FLAT_NOISE):
        return "has grown where its arrises are eased"
    return ""


def _apart(mesh: Mesh, solid: cq.Solid, noise: float) -> bool:
    """Whether the volume by the faces differs from the kernel's own by more than a share of `noise`."""
    return abs(mesh.volume - solid.Volume()) > noise * float(solid.Volume())
