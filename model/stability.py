"""Whether a piece stands: its mass, where that is centred, and how little tips it. Rule-of-thumb estimates."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull, QhullError

from model.meshes import Floats, Mesh
from model.opening import Opened
from model.piece import Piece
from model.takeoff import density_of

GRAVITY = 9.80665
FILL = 136.0  # kg/m3, 8.5 lb/ft3 in an open drawer (ASTM F2057-23, from memory)
ON_THE_FLOOR = 1.0  # mm
USUAL = 650.0  # kg/m3 for what is not in the table


@dataclass(frozen=True)
class Stand:
    """How a piece stands: kg, centre of mass (mm), foot points in order (K x 2), margins (mm), height (mm).

    margins: for each edge of the footprint, how far inside it the centre of mass lies; normals: K x 2, outwards.
    """

    mass: float
    centre: Floats
    feet: Floats
    normals: Floats
    margins: Floats
    height: float

    @property
    def least(self) -> float:
        """How far the centre of mass is inside the footprint (mm); negative outside."""
        return float(self.margins.min())

    @property
    def push(self) -> float:
        """Horizontal force at the top that lifts the far feet (N), on a floor where nothing slides."""
        return self.mass * GRAVITY * max(0.0, self.least) / self.height


def centre_of_mass(piece: Piece, elsewhere: dict[str, Mesh] | None = None) -> tuple[float, Floats]:
    """Mass (kg) and centre (mm) of the piece, by the triangles of its sharp bodies; some may be `elsewhere`."""
    mass, moment = 0.0, np.zeros(3)
    for name, part in piece.parts.items():
        volume, centre = volume_centre((elsewhere or {}).get(name, part.mesh).corners)
        kilograms = volume / 1e9 * (density_of(part.spec) or USUAL)
        mass += kilograms
        moment = moment + kilograms * centre
    return mass, moment / mass


def volume_centre(corners: Floats) -> tuple[float, Floats]:
    """Volume and centroid of a closed mesh (M x 3 x 3), as a sum of tetrahedra on one point."""
    base = corners[0, 0]
    a, b, c = np.moveaxis(corners - base, 1, 0)
    six = np.einsum("ij,ij->i", a, np.cross(b, c))
    centre: Floats = base + ((a + b + c) * six[:, None]).sum(axis=0) / 4.0 / six.sum()
    return float(six.sum() / 6.0), centre


def stand(piece: Piece) -> Stand | None:
    """How the piece stands on the floor, shut; None where its feet make no area."""
    return _on_its_feet(piece, *centre_of_mass(piece))


def stand_open(piece: Piece, every: Iterable[Opened]) -> Stand | None:
    """The same with drawers, doors and lids open, and what is pulled out full."""
    meshes = {name: mesh for one in every for name, mesh in one.meshes().items()}
    mass, centre = centre_of_mass(piece, meshes)
    for one in every:
        if np.allclose(one.motion[:3, :3], np.eye(3)):  # pulled out, not swung
            box = np.vstack([mesh.box for mesh in one.meshes().values()])
            low, high = box.min(axis=0), box.max(axis=0)
            fill = float(np.prod(high - low)) / 1e9 * FILL
            centre = (mass * centre + fill * (low + high) / 2) / (mass + fill)
            mass += fill
    return _on_its_feet(piece, mass, centre)


def _on_its_feet(piece: Piece, mass: float, centre: Floats) -> Stand | None:
    points = np.vstack([part.mesh.vertices for part in piece.parts.values()])
    low, high = float(points[:, 2].min()), float(points[:, 2].max())
    feet = points[points[:, 2] < low + ON_THE_FLOOR][:, :2]
    try:
        hull = ConvexHull(np.round(feet, 6))
    except (QhullError, ValueError):
        return None
    margins = -(hull.equations[:, :2] @ centre[:2] + hull.equations[:, 2])
    return Stand(mass, centre, feet[hull.vertices], hull.equations[:, :2], margins, high - low)


def load_margin(standing: Stand, point: Floats, force: float) -> float:
    """Moment (N mm) that keeps the piece down, least over the edges, with a load (N) at a point (2) above it."""
    edges = standing.normals @ point - np.max(standing.feet @ standing.normals.T, axis=0)
    least: float = float((standing.mass * GRAVITY * standing.margins - force * edges).min())
    return least
