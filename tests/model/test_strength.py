"""Sag, standing and rays against published figures and other people's geometry."""

import numpy as np
import pytest
import trimesh

from model.rays import hits
from model.screws import withdrawal
from model.stability import GRAVITY, centre_of_mass, load_margin, stand, volume_centre
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


def test_published_withdrawal_of_a_screw() -> None:
    # No. 10 (0.190 in) in wood of specific gravity 0.45: 109 lbf for an inch of thread (example printed with the NDS)
    assert withdrawal(0.45, 0.190 * INCH, INCH) / 4.4482216152605 == pytest.approx(109, abs=1)
    # ultimate by the Wood Handbook, eq. 8-10: 108.25 G2 D L newtons (mm), 5.5 times as much
    assert 108.25 * 0.45**2 * 4.826 * 25.4 / withdrawal(0.45, 4.826, 25.4) == pytest.approx(5.5, abs=0.02)


CHEST = """parts:
  chest:
    {material: granite, density: DENSITY, runs: up-down, thick: front-back, length: 900, width: 800, thickness: 400,
     where: {bottom: floor, centred: [left-right, front-back]}}
"""


@pytest.mark.parametrize("kilograms", [27.2, 40.0, 90.0])
def test_standing_of_a_box_by_statics(built, kilograms: float) -> None:
    # 60 lb (27.2 kg) is the test weight of ASTM F2057-23; here it hangs 60 mm before the front edge, as on a drawer
    volume = 0.9 * 0.8 * 0.4
    standing = stand(built(CHEST.replace("DENSITY", str(kilograms / volume))))
    assert standing is not None and standing.mass == pytest.approx(kilograms, rel=1e-3)
    # tips when m g x 200 mm is less than the moment of the load, or of a push at the top
    assert standing.push == pytest.approx(standing.mass * GRAVITY * 200 / 900, rel=1e-6)
    force = 27.2 * GRAVITY
    margin = load_margin(standing, np.array([0.0, -260.0]), force)
    assert margin == pytest.approx(standing.mass * GRAVITY * 200 - force * 60, rel=1e-6)
