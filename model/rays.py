"""How much wood lies ahead: rays cast through the triangles of a part.

Moeller and Trumbore's test (1997), every ray against every triangle at once.
"""

from __future__ import annotations

import numpy as np

from model.meshes import Floats

PARALLEL = 1e-9
EDGE = 1e-9  # a ray along the seam of two triangles must not slip through


def hits(corners: Floats, starts: Floats, directions: Floats) -> list[Floats]:
    """For each ray (K x 3 starts, K x 3 unit directions), the distances at which it meets triangles, nearest first.

    corners: M x 3 x 3.

    Two triangles met at a shared edge give one distance.
    """
    a, b, c = np.moveaxis(corners, 1, 0)
    ab, ac = b - a, c - a
    p = np.cross(directions[:, None], ac[None])
    det = np.einsum("kmi,mi->km", p, ab)
    usable = np.abs(det) > PARALLEL
    inverse = np.where(usable, 1.0 / np.where(usable, det, 1.0), 0.0)
    t = starts[:, None] - a[None]
    u = np.einsum("kmi,kmi->km", t, p) * inverse
    q = np.cross(t, ab[None])
    v = np.einsum("ki,kmi->km", directions, q) * inverse
    along = np.einsum("mi,kmi->km", ac, q) * inverse
    met = usable & (u >= -EDGE) & (v >= -EDGE) & (u + v <= 1 + EDGE) & (along > 1e-7)
    return [_once(np.sort(along[k][met[k]])) for k in range(len(starts))]


def wood_ahead(corners: Floats, starts: Floats, directions: Floats) -> Floats:
    """Distance (mm) from each start to where the wood ends; 0 where the start is not in the wood."""
    found = hits(corners, starts, directions)
    return np.array([float(d[0]) if len(d) % 2 else 0.0 for d in found])


def _once(distances: Floats) -> Floats:
    if len(distances) < 2:
        return distances
    kept: Floats = distances[np.concatenate([[True], np.diff(distances) > 1e-6])]
    return kept
