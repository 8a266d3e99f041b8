"""Which parts come out alike, found from nothing but their shape; mirror images are told apart.

Two solids are alike when a rigid motion carries every corner, edge and face of the one onto one of the other.
Their points are compared with a tolerance: rounded numbers would tell apart what falls on either side of a step.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import cadquery as cq
import numpy as np
import numpy.typing as npt
from OCP.BRep import BRep_Tool
from OCP.TopExp import TopExp
from OCP.TopTools import TopTools_IndexedMapOfShape
from scipy.spatial import cKDTree

from model.brep import carried_from, content
from model.cache import kept
from model.frames import Matrix, Vector, axis_vector, placing
from model.once import once
from model.piece import Item, Part

TOLERANCE = 0.02  # mm; instances of one part differ by some 1e-8
EXACT = 1e-5  # mm; what lies on another as near as this can share its triangles
PARALLEL = 1e-3  # 1 - cos: how far a length axis may be off after a match
APART = 1e5  # keeps points of different kinds apart in the search tree

Along = tuple[Vector, Vector]


@dataclass(frozen=True)
class Match:
    """How one solid comes to lie on another: 4 x 4 matrices, None where it cannot.

    same: by moving it; mirrored: by moving its mirror image. A part with a plane of symmetry has both.
    """

    same: Matrix | None
    mirrored: Matrix | None


@dataclass(frozen=True)
class Fingerprint:
    """Telling points of a shape: corners, and middles of edges and faces.

    centre: centroid of the solid; points: N x 3 from there; kinds: N, what each is; sizes: N, length of an edge,
    root of the area of a face; volume: mm3.
    """

    centre: Vector
    points: npt.NDArray[np.float64]
    kinds: npt.NDArray[np.str_]
    sizes: npt.NDArray[np.float64]
    volume: float

    @property
    def reaches(self) -> npt.NDArray[np.float64]:
        """N: distance of each point from the centre."""
        reaches: npt.NDArray[np.float64] = np.linalg.norm(self.points, axis=1)
        return reaches


def match(a: cq.Solid, b: cq.Solid, tol: float = TOLERANCE, along: Along | None = None) -> Match:
    """The motions that carry `a` onto `b`; `along`: a direction of each that must come to lie along each other."""
    return match_fingerprints(fingerprint(a), fingerprint(b), tol, along)


def match_parts(a: Part, b: Part) -> Match:
    """The motions that carry part `a` onto `b`, each in its standing frame: sharp and eased, grain along grain."""
    along = axis_vector(a.spec.runs), axis_vector(b.spec.runs)
    return _match_prints(_Print(a), _Print(b), along)


def group_alike(parts: dict[str, Part], order: Sequence[str]) -> tuple[Item, ...]:
    """The parts named in `order`, those that come out alike together; marks run in the order first met."""
    prints = {name: _Print(parts[name]) for name in order}
    groups: list[tuple[list[str], list[str], dict[str, Matrix]]] = []
    for name in order:
        for same, mirrored, motions in groups:
            found = _same_item(prints[same[0]], prints[name])
            if found.same is not None:
                same.append(name)
                motions |= _exact(found.same, prints[same[0]].marked, prints[name].marked, name)
                break
            if found.mirrored is not None:
                mirrored.append(name)
                motions |= _exact(found.mirrored, prints[same[0]].marked, prints[name].marked, name)
                break
        else:
            groups.append(([name], [], {}))
    return tuple(
        Item(mark(number), parts[same[0]].kind, tuple(same), tuple(mirrored), same[0], motions)
        for number, (same, mirrored, motions) in enumerate(groups)
    )


def _exact(motion: Matrix, a: Fingerprint, b: Fingerprint, name: str) -> dict[str, Matrix]:
    """The motion by the name of the part, where it carries every point of `a` onto one of `b` to rounding."""
    there = a.points @ motion[:3, :3].T
    off = max(cKDTree(b.points).query(there)[0].max(), cKDTree(there).query(b.points)[0].max())
    return {name: motion} if off <= EXACT else {}


def mark(number: int) -> str:
    """The mark of item `number` (from 0): A to Z, then AA, AB and so on."""
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def fingerprint(solid: cq.Shape, tag: str = "") -> Fingerprint:
    """The telling points of a solid, or of several together; `tag` sets them apart from those of another."""
    return kept("fingerprint", lambda: (content(solid), tag), lambda: _telling(solid, tag))


def _telling(solid: cq.Shape, tag: str) -> Fingerprint:
    seams, points, kinds, sizes = _seams(solid), [], [], []
    corners = TopTools_IndexedMapOfShape()
    for edge in solid.Edges():
        if BRep_Tool.Degenerated_s(edge.wrapped) or any(edge.isSame(seam) for seam in seams):
            continue
        points.append(edge.Center().toTuple())
        kinds.append(f"{tag} edge {edge.geomType()}")
        sizes.append(edge.Length())
        first, last = TopExp.FirstVertex_s(edge.wrapped), TopExp.LastVertex_s(edge.wrapped)
        # where a closed edge begins is chance: no corner
        if not first.IsSame(last):
            corners.Add(first)
            corners.Add(last)
    for face in solid.Faces():
        points.append(face.Center().toTuple())
        kinds.append(f"{tag} face {face.geomType()}")
        sizes.append(face.Area() ** 0.5)
    for n in range(1, corners.Extent() + 1):
        points.append(cq.Vertex(corners.FindKey(n)).toTuple())
        kinds.append(f"{tag} corner")
        sizes.append(0.0)
    centre = np.array(solid.Center().toTuple())
    return Fingerprint(centre, np.array(points) - centre, np.array(kinds), np.array(sizes), solid.Volume())


def match_fingerprints(a: Fingerprint, b: Fingerprint, tol: float, along: Along | None) -> Match:
    """As `match`, on what was taken of the solids before."""
    if not _could_match(a, b, tol):
        return Match(None, None)
    names = {kind: float(n) for n, kind in enumerate(sorted(set(a.kinds)))}
    tree_b = cKDTree(_search_points(b, np.eye(3), names))
    best: dict[int, npt.NDArray[np.float64]] = {}
    for sign, turn in _poses(a, b, tol):
        if along is not None and abs(along[1] @ turn @ along[0]) < 1 - PARALLEL:
            continue
        # of several, the one that turns least: it does not hang on the order of the points
        if sign in best and np.trace(turn) <= np.trace(best[sign]) + 1e-6:
            continue
        there = _search_points(a, turn, names)
        if tree_b.query(there)[0].max() <= 2 * tol and cKDTree(there).query(tree_b.data)[0].max() <= 2 * tol:
            best[sign] = turn
    same, mirrored = (
        placing(best[sign], b.centre - best[sign] @ a.centre) if sign in best else None for sign in (1, -1)
    )
    return Match(same, mirrored)


class _Print:
    """The telling points of a part, each set taken when it is first wanted."""

    def __init__(self, part: Part) -> None:
        self.part = part

    @cached_property
    def sharp(self) -> Fingerprint:
        """Those of the sharp body."""
        return _sharp_print(self.part.sharp)

    @cached_property
    def marked(self) -> Fingerprint:
        """With them where it was eased, and how: the eased body need not be made."""
        marks = () if self.part.easing is None else self.part.easing.marks
        points = np.array([mark.point for mark in marks]).reshape(-1, 3) - self.sharp.centre
        return _with(self.sharp, points, [mark.how for mark in marks], [mark.size for mark in marks])

    @cached_property
    def eased(self) -> Fingerprint:
        """With them those of the eased body."""
        eased = fingerprint(self.part.eased, "eased")
        return _with(self.sharp, eased.points + eased.centre - self.sharp.centre, eased.kinds, eased.sizes)


@once
def _sharp_print(solid: cq.Shape) -> Fingerprint:
    """The fingerprint of a solid, kept with it; that of a solid that was carried here is carried too."""
    source = carried_from(solid)
    if source is None:
        return fingerprint(solid, "sharp")
    found, (turned, shift) = _sharp_print(source[0]), (source[1][:3, :3], source[1][:3, 3])
    return replace(found, centre=turned @ found.centre + shift, points=found.points @ turned.T)


def _with(
    sharp: Fingerprint, points: npt.NDArray[np.float64], kinds: npt.ArrayLike, sizes: npt.ArrayLike
) -> Fingerprint:
    """A fingerprint with more points (from its own centre)."""
    return Fingerprint(
        sharp.centre,
        np.concatenate([sharp.points, points]),
        np.concatenate([sharp.kinds, np.asarray(kinds, dtype=np.str_)]),
        np.concatenate([sharp.sizes, np.asarray(sizes, dtype=np.float64)]),
        sharp.volume,
    )


def _same_item(a: _Print, b: _Print) -> Match:
    """Whether two parts can be one item: same wood, same stock, same shape, grain along grain."""
    one, other = a.part.spec, b.part.spec
    if (one.made_of, one.stock) != (other.made_of, other.stock):
        return Match(None, None)
    return _match_prints(a, b, (axis_vector(one.runs), axis_vector(other.runs)))


def _match_prints(a: _Print, b: _Print, along: Along) -> Match:
    """By the sharp bodies and what was eased on them; only where that differs are the eased bodies looked at.

    What was eased may be gone again, cut away by a joint, and two parts be alike after all.
    """
    if not _could_match(a.sharp, b.sharp, TOLERANCE):
        return Match(None, None)
    found = match_fingerprints(a.marked, b.marked, TOLERANCE, along)
    if found.same is not None or found.mirrored is not None or a.part.easing is b.part.easing is None:
        return found
    return match_fingerprints(a.eased, b.eased, TOLERANCE, along)


def _seams(solid: cq.Shape) -> list[cq.Edge]:
    """Edges at which a round face meets itself: where they lie is chance."""
    return [
        edge
        for face in solid.Faces()
        if face.geomType() != "PLANE"
        for edge in face.Edges()
        if BRep_Tool.IsClosed_s(edge.wrapped, face.wrapped)
    ]


def _could_match(a: Fingerprint, b: Fingerprint, tol: float) -> bool:
    """Cheap test: the same number of every kind of point, at the same distances."""
    if len(a.kinds) != len(b.kinds) or abs(a.volume - b.volume) > tol * max(a.volume, b.volume) ** (2 / 3):
        return False
    order_a, order_b = (np.lexsort((f.reaches, f.kinds)) for f in (a, b))
    if not (a.kinds[order_a] == b.kinds[order_b]).all():
        return False
    return bool(np.abs(a.reaches[order_a] - b.reaches[order_b]).max() <= tol)


def _search_points(f: Fingerprint, turn: Matrix, names: dict[str, float]) -> npt.NDArray[np.float64]:
    """N x 5: turned points, with their kind and size as two more coordinates."""
    kinds = np.array([names[kind] for kind in f.kinds]) * APART
    return np.column_stack([f.points @ turn.T, kinds, f.sizes])


def _poses(a: Fingerprint, b: Fingerprint, tol: float) -> Iterator[tuple[int, Matrix]]:
    """Turns (3 x 3) that may carry a's points onto b's, with their determinant (1 or -1).

    Two points of `a` of which there are fewest alike are laid on all pairs of `b` that could be theirs.
    """
    rarity = [int(_alike_points(a, n, a, tol).sum()) for n in range(len(a.points))]
    ranked = sorted(range(len(a.points)), key=lambda n: (rarity[n], *np.round([-a.reaches[n], *a.points[n]], 3)))
    far = [n for n in ranked if a.reaches[n] > 1.0]
    if not far:
        yield 1, np.eye(3)
        return
    p = far[0]
    q = next(
        (n for n in far if np.linalg.norm(np.cross(a.points[p], a.points[n])) > 0.2 * a.reaches[p] * a.reaches[n]), None
    )
    if q is None:
        yield from _poses_on_axis(a.points[p], b.points[_alike_points(a, p, b, tol)])
        return
    frame_a = _frame(a.points[p], a.points[q], 1)
    between = np.linalg.norm(a.points[p] - a.points[q])
    for p_b in b.points[_alike_points(a, p, b, tol)]:
        for q_b in b.points[_alike_points(a, q, b, tol)]:
            if abs(np.linalg.norm(p_b - q_b) - between) <= 2 * tol:
                for sign in (1, -1):
                    yield sign, _frame(p_b, q_b, sign) @ frame_a.T


def _poses_on_axis(p: Vector, images: npt.NDArray[np.float64]) -> Iterator[tuple[int, Matrix]]:
    """Turns of a body that is round about one axis: any turn about it is as good."""
    for image in images:
        for sign in (1, -1):
            yield sign, _frame(image, _aside(image), sign) @ _frame(p, _aside(p), 1).T


def _alike_points(a: Fingerprint, n: int, b: Fingerprint, tol: float) -> npt.NDArray[np.bool_]:
    """Which points of `b` could be point `n` of `a`."""
    alike: npt.NDArray[np.bool_] = (
        (b.kinds == a.kinds[n]) & (np.abs(b.reaches - a.reaches[n]) <= tol) & (np.abs(b.sizes - a.sizes[n]) <= tol)
    )
    return alike


def _frame(p: Vector, q: Vector, sign: int) -> Matrix:
    """Columns: along p, square to it towards q, and the third one, turned over where `sign` is -1."""
    x = p / np.linalg.norm(p)
    z = np.cross(p, q)
    z = z / np.linalg.norm(z)
    return np.column_stack([x, np.cross(z, x), sign * z])


def _aside(p: Vector) -> Vector:
    """A direction well away from p."""
    aside: Vector = np.eye(3)[int(np.argmin(np.round(np.abs(p), 6)))]
    return aside
