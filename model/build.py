"""From a design to the piece: blanks placed and cut, shaped, joined, bored, told apart and measured."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

import cadquery as cq
import numpy as np

from model.alike import group_alike
from model.assemblies import set_assembly
from model.body import Body, mirrored
from model.eased import Eased
from model.fixings import FIXERS
from model.frames import Vector, matrix_of
from model.glued_up import glued_up_feature
from model.hooked import hook_on
from model.joints import JOINERS
from model.joints.joining import HABITS
from model.kernel import KernelFault, vertices
from model.marks import lettered
from model.naming import mirror_names, repeat_name
from model.overall import overall
from model.piece import AssemblyMade, Feature, FixingMade, JointMade, Piece
from model.placing import Stand, Standing, repeats, stand
from model.shaping import SHAPERS, STAGE_OF
from model.shaping.shaped import STAGES, Shaped
from model.store import Past, Store
from model.trimming import trimmed
from plans.design import Design
from plans.order import assembly_of, build_order
from plans.problems import Place, Problem
from plans.sides import Side, side_of
from plans.spec import PartSpec

Progress = Callable[[str], None]


@dataclass(frozen=True)
class _Pattern:
    """A blank, and what it became once shaped."""

    corners: Vector
    sharp: cq.Solid
    past: Past
    easing: Eased | None
    features: tuple[Feature, ...]

    def same(self, corners: Vector) -> bool:
        """Whether another blank has the same corners."""
        return corners.shape == self.corners.shape and bool(np.allclose(corners, self.corners, atol=1e-7, rtol=0))


class Builder:
    """Builds one design; problems gather in `problems`, with the place in the file that could cure them."""

    def __init__(self, design: Design, progress: Progress, store: Store) -> None:
        self.design = design
        self.progress = progress
        self.store = store
        self.standing = Standing()
        self.copies: dict[str, tuple[AssemblyMade, ...]] = {}  # of the assemblies that were moved
        self.problems: list[Problem] = []

    def run(self) -> Piece | None:
        """The piece, or nothing where a problem stops it."""
        for section, name in build_order(self.design.spec):
            self.progress(f"making {name}")
            with self._watch("part-cannot-be-made", self.design.place(section, name), (name,)):
                if section == "parts":
                    self.standing.add(name, self._make(name, self.design.parts[name]))
                else:
                    self.copies[name] = set_assembly(name, self.design.spec.assemblies[name], self.standing)
            if self.problems and self.problems[-1].code == "part-cannot-be-made":
                return None  # others are measured from it
        joints = self._joints()
        fixings = self._fixings()
        if any(problem.severity == "error" for problem in self.problems):
            return None
        return self._piece(joints, fixings)

    @contextmanager
    def _watch(self, code: str, place: Place, parts: tuple[str, ...]) -> Iterator[None]:
        try:
            yield
        except KernelFault as fault:
            hint = "change the sizes that lead here, or take the feature out to see the rest"
            self.problems.append(Problem(code, "error", fault.said(self.design.spec.units), place, hint, parts))

    def _make(self, kind: str, spec: PartSpec) -> list[Body]:
        lead = self._lead(kind)
        first = stand(spec, self._lean(spec), self.standing, lead)
        bodies: list[Body] = []
        pattern: _Pattern | None = None  # the parts of a row are mostly alike: shape the first only
        for number, shift in enumerate(repeats(spec, first, self.standing), start=1):
            name = repeat_name(kind, spec, number)
            here = Stand(first.turn, first.shift + shift, first.half)
            body = trimmed(name, kind, spec, here, self.standing, self.store)
            body.features += glued_up_feature(body)
            corners = vertices(body.sharp)
            if pattern is not None and pattern.same(corners):
                body.sharp, body.past, body.easing = pattern.sharp, pattern.past, pattern.easing
                body.features = list(pattern.features)
            else:
                self._shape(body)
                pattern = _Pattern(corners, body.sharp, body.past, body.easing, tuple(body.features))
            bodies.extend(self._mirror(body, lead))
        taken = {body.name for others in self.standing.bodies.values() for body in others}
        for body in bodies:
            if body.name in taken:
                raise KernelFault(f"two parts would be called {body.name}; give one kind another name")
        return bodies

    def _lead(self, kind: str) -> str | None:
        """The kind of part that leads the assembly of another; none for itself, and for a part of no assembly."""
        name = assembly_of(self.design.spec.assemblies, kind)
        lead = None if name is None else self.design.spec.assemblies[name].lead
        return None if lead == kind else lead

    def _lean(self, spec: PartSpec) -> dict[Side, float]:
        """The lean of a part; one that follows another takes its lean, but not along its own run."""
        if spec.follows is not None:
            lean = self._lean(self.design.parts[spec.follows])
            along = {side_of(spec.runs, -1), side_of(spec.runs, 1)}
            return {side: angle for side, angle in lean.items() if side not in along}
        return {} if spec.lean is None else dict(spec.lean.foot_to)

    def _shape(self, body: Body) -> None:
        for stage in STAGES:
            for number, entry in enumerate(body.spec.shaping):
                place = self.design.shaping_place(body.kind, number)
                with self._watch("shaping-fails", place, (body.name,)):
                    shaped = SHAPERS[type(entry)](body, entry) if STAGE_OF[type(entry)] == stage else None
                    if shaped is None:
                        continue
                    _apply(body, shaped)

    def _mirror(self, body: Body, lead: str | None) -> list[Body]:
        centre = {axis: self.standing.centre(lead, axis) for axis in body.spec.mirror}
        found = [body]
        for axis in body.spec.mirror:
            found += [mirrored(other, axis, other.name, centre[axis]) for other in found]
        for other, name in zip(found, mirror_names(body, found, centre), strict=True):
            other.name = name
        return found

    def _joints(self) -> list[JointMade]:
        for body in (body for some in self.standing.bodies.values() for body in some):
            body.unjoined = body.sharp
        made: list[JointMade] = []
        habits = HABITS[self.design.spec.units]
        for number, joint in enumerate(self.design.spec.joints):
            self.progress(f"cutting joint {number + 1}")
            with self._watch("joint-fails", self.design.joint_place(number), ()):
                found = JOINERS[type(joint)](self.standing.bodies, joint, number, habits)
                self._counted("joint", len(found), joint.count, self.design.joint_place(number))
                made += found
        return made

    def _fixings(self) -> list[FixingMade]:
        made: list[FixingMade] = []
        for number, fixing in enumerate(self.design.spec.fixings):
            with self._watch("fixing-fails", self.design.fixing_place(number), ()):
                found = FIXERS[type(fixing)](self.standing.bodies, fixing, number)
                driven = sum(len(f.points) for f in found)
                self._counted("fixing", driven, fixing.count, self.design.fixing_place(number))
                made += found
        return made

    def _counted(self, what: str, found: int, wanted: int | None, place: Place) -> None:
        if found and (wanted is None or found == wanted):
            return
        code = f"{what}-count" if found else f"{what}-not-found"
        message = (
            f"the design says {wanted} here; the piece has {found}" if found else f"no place for this {what} is found"
        )
        hint = "see that the two kinds of part really meet, and that `count` is right"
        said = "at least 1" if wanted is None else str(wanted)
        self.problems.append(Problem(code, "error", message, place, hint, (), str(found), said))

    def _piece(self, joints: list[JointMade], fixings: list[FixingMade]) -> Piece:
        parts = {}
        for kind in self.design.parts:
            for body in self.standing.bodies[kind]:
                hook_on(body)
                body.features.insert(0, overall(body))
                parts[body.name] = body.finish()
        corners = np.vstack(
            [vertices(part.sharp) @ (m := matrix_of(part.at))[:3, :3].T + m[:3, 3] for part in parts.values()]
        )
        size = corners.max(axis=0) - corners.min(axis=0)
        items = lettered(group_alike(parts, list(parts)), self.design.spec.marks)
        for item in items:
            for name, motion in item.motions.items():
                parts[name] = replace(parts[name], like=(parts[item.shown], motion))
        return Piece(
            self.design,
            parts,
            tuple(joints),
            tuple(fixings),
            items,
            (float(size[0]), float(size[1]), float(size[2])),
            self._assemblies(),
            self.store,
        )

    def _assemblies(self) -> tuple[AssemblyMade, ...]:
        """Every assembly as it stands, those that were left where they were made too."""
        found: list[AssemblyMade] = []
        for name, made in self.design.spec.assemblies.items():
            names = tuple(body.name for kind in made.parts for body in self.standing.bodies[kind])
            found += self.copies.get(name, (AssemblyMade(name, name, names),))
        return tuple(found)


def _apply(body: Body, shaped: Shaped) -> None:
    what = f"the {shaped.feature.kind} of {body.name}"
    if shaped.easing is not None:
        body.easing = shaped.easing
    else:
        body.cut(shaped.tools, what)
    if shaped.eased_tools:
        body.cut_eased(shaped.eased_tools, what)
    body.features.append(shaped.feature)


def build(
    design: Design, progress: Progress = lambda _: None, store: Store | None = None
) -> tuple[Piece | None, tuple[Problem, ...]]:
    """Build the piece. Problems name the part and the line; with an error there is no piece.

    What is in the `store` already is not cut again.
    """
    builder = Builder(design, progress, store or Store())
    piece = builder.run()
    return piece, tuple(builder.problems)
