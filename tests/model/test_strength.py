"""Sag, standing and rays against published figures and other people's geometry."""

import numpy as np
import pytest
import trimesh

from model.rays import hits
from model.stability import centre_of_mass, volume_centre
from model.supports import PSF, uniform_sag

PSI = 0.00689475729  # MPa, NIST SP 811
INCH = 25.4

# Architectural Woodwork Standards 2009, 4.4.14.10: longest shelf (in) that sags a 144th, by E (psi), thickness, lb/ft2
SHELVES = [
    (950_000, 0.75, 40, 40),
    (950_000, 0.75, 50, 37),
    (950_000, 1.0, 40, 53),
    (950_000, 1.0, 50, 49),
    (1_800_000, 0.75, 40, 49),
    (1_800_000, 0.75, 50, 46),
    (1_800_000, 1.0, 40, 66),
    (1_800_000, 1.0, 50, 61),
    (1_820_000, 0.75, 40, 49),
    (1_820_000, 0.75, 50, 46),
    (1_820_000, 1.0, 40, 66),
    (1_820_000, 1.0, 50, 61),
]


@pytest.mark.parametrize(("stiffness", "thick", "load", "printed"), SHELVES)
def test_published_shelf_table(stiffness: float, thick: float, load: float, printed: int) -> None:
    def ratio(span: float) -> float:
        """Sag as a share of what is allowed, for a strip 1 mm wide."""
        return uniform_sag(load * PSF, span, stiffness * PSI, (thick * INCH) ** 3 / 12) / (span / 144)

    # the table gives whole inches, cut down; one is a hair generous
    assert ratio((printed - 0.05) * INCH) <= 1.0
    assert ratio((printed + 1) * INCH) > 1.0


def test_centre_of_mass_against_trimesh(bench) -> None:
    total, moment = 0.0, np.zeros(3)
    for part in bench.parts.values():
        other = trimesh.Trimesh(part.mesh.vertices, part.mesh.triangles, process=False)
        volume, centre = volume_centre(part.mesh.corners)
        assert volume == pytest.approx(other.volume, rel=1e-9)
        assert centre == pytest.approx(other.center_mass, abs=1e-6)
        total, moment = total + other.volume, moment + other.volume * other.center_mass
    assert centre_of_mass(bench)[1] == pytest.approx(moment / total, abs=1e-6)  # one wood throughout


def test_rays_against_a_box() -> None:
    box = trimesh.creation.box((10, 20, 30))
    corners = np.asarray(box.triangles)
    rng = np.random.default_rng(4)
    starts = rng.uniform(-4, 4, (200, 3))
    ways = rng.normal(size=(200, 3))
    ways /= np.linalg.norm(ways, axis=1, keepdims=True)
    # the slab method, from inside: the nearest of the three walls ahead
    walls = (np.sign(ways) * np.array([5, 10, 15]) - starts) / ways
    assert [float(found[0]) for found in hits(corners, starts, ways)] == pytest.approx(walls.min(axis=1).tolist())
    assert all(len(found) == 1 for found in hits(corners, starts, ways))
