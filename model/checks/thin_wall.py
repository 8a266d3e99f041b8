"""The wood left beside and behind a mortise."""

from __future__ import annotations

import numpy as np

from model.checks.finding import at_least, finding, once_a_kind, said
from model.grain import grain
from model.meshes import Floats
from model.mortises import Mortise, mortises
from model.piece import Piece
from model.rays import wood_ahead
from model.screws import driven
from plans.problems import Problem

LEAST = 4.7  # mm, 3/16 in (common practice)
OPEN = 1.0  # mm: less breaks out under the chisel
HAIR = 0.005  # mm a filling is larger than its mortise, so that no film of air is left between them
STEP = 0.02  # mm into the wood, so that a ray does not start on a face
SHARES = (0.043, 0.271, 0.507, 0.733, 0.957)  # off the middle, where seams of triangles lie


def check(piece: Piece) -> list[Problem]:
    """Mortises with less wood beside or behind them than it takes; above and below them see `short-grain`."""
    found = []
    every = mortises(piece)
    solid = {name: filled(piece, name, every) for name in dict.fromkeys(mortise.host for mortise in every)}
    for mortise in every:
        wall, where = thinnest(piece, mortise, solid[mortise.host])
        if wall >= LEAST:
            continue
        a, b = mortise.guest, mortise.host
        broken = wall < OPEN
        what = "breaks out of" if broken else f"leaves a thin wall {where} in"
        found.append(
            finding(
                "thin-wall",
                "error" if broken else "warning",
                f"the mortise for {a} {what} {b}",
                piece.design.joint_place(mortise.joint.number, "long" if where == "behind it" else None),
                "make the tenon shorter" if where == "behind it" else "make the tenon thinner, or set it further in",
                (a, b),
                f"{said(piece, wall)} of wood {where}",
                f"at least {at_least(piece, LEAST)}",
            )
        )
    return once_a_kind(piece, found)


def filled(piece: Piece, name: str, every: tuple[Mortise, ...]) -> Floats:
    """A part (M x 3 x 3 triangles) with its mortises and pilot holes filled: those have checks of their own."""
    wood = piece.parts[name].mesh.manifold
    for mortise in every:
        if mortise.host == name:
            wood = wood + mortise.block(HAIR)
    for screw in driven(piece):
        if screw.fixing.into == name:
            wood = wood + screw.bored()
    mesh = wood.to_mesh64()
    corners: Floats = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    return corners


def thinnest(piece: Piece, mortise: Mortise, corners: Floats) -> tuple[float, str]:
    """The least wood beside or behind a mortise (mm), and where, in the part's triangles as `filled`."""
    body = piece.parts[mortise.host]
    lean = abs(float(mortise.inward @ mortise.normal))
    behind = np.inf
    if not mortise.through:
        starts, ways = _behind(mortise)
        behind = float(wood_ahead(corners, starts, ways).min()) * lean
    sides = [beside for beside in _beside(mortise) if abs(float(beside[1][0] @ grain(body))) < 0.7]
    beside = min((_least(wood_ahead(corners, s, w)) for s, w in sides), default=np.inf)
    return min((float(behind), "behind it"), (float(beside), "beside it"))


def _least(ahead: Floats) -> float:
    """The least wood of a wall. What is open in less than half of it is a peg hole, or the groove for a panel."""
    wood = ahead[ahead > 0]
    return float((wood if 2 * len(wood) > len(ahead) else ahead).min())


def _behind(mortise: Mortise) -> tuple[Floats, Floats]:
    bottom = mortise.corners()[4:]
    starts = np.array([_between(bottom, u, v) for u in SHARES for v in SHARES]) + mortise.inward * STEP
    return starts, np.tile(mortise.inward, (len(starts), 1))


def _beside(mortise: Mortise) -> list[tuple[Floats, Floats]]:
    """For each of the four walls: points in the wood just behind it, and the way out."""
    mouth, bottom = np.split(mortise.corners(), 2)
    found = []
    for k in range(4):
        n = (k + 1) % 4
        outward = ((mouth[k] + mouth[n]) / 2) - mouth.mean(axis=0)
        # along the face, not out through it: a leaning face would cut the wall short
        outward = outward - mortise.normal * float(outward @ mortise.normal)
        outward = outward / np.linalg.norm(outward)
        wall = np.array([mouth[k], mouth[n], bottom[n], bottom[k]])
        starts = np.array([_between(wall, u, v) for u in SHARES for v in SHARES]) + outward * STEP
        found.append((starts, np.tile(outward, (len(starts), 1))))
    return found


def _between(corners: Floats, u: float, v: float) -> Floats:
    a, b, c, d = corners
    point: Floats = (a * (1 - u) + b * u) * (1 - v) + (d * (1 - u) + c * u) * v
    return point
