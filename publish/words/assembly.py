"""The steps of assembly: what goes together, how it goes in, glue and screws."""

from __future__ import annotations

from collections import Counter

from model.copies import finished, mirror_images, wholes
from model.frames import nearest_side
from model.piece import AssemblyMade, FixingMade
from model.sequence import Stage
from model.steps import Step
from model.takeoff import total_mass
from plans.sides import SIDE_AXIS
from publish.edition import Edition
from publish.words.fixings import CAUTIONS, fixing_name, fixing_words
from publish.words.loose import loose_words, pinned_words
from publish.words.names import capital, listed, number, plural
from publish.words.step_words import StepWords

ONE_PERSON = 16.0  # kg that anyone lifts at the waist (guideline weight, HSE INDG143, from memory)


def stage_words(edition: Edition, step: Step) -> StepWords:
    """The words of one stage of the assembly."""
    stage = step.stage
    assert stage is not None
    glued = any(joint.glued for joint in step.joints)
    moved = [name for move in stage.moves for name in move.parts]
    added, base = _said_of(edition, step, moved), _said_of(edition, step, list(stage.base))
    act = "glue" if glued else "add"
    text = []
    if stage.times > 1:
        text.append(_alike_words(mirror_images(edition.piece, stage), stage.times))
    if wholes(edition.piece, stage) and not glued:
        text.append(_going_in(step, added))
    else:
        text.append(capital(f"{act} {added} to {base}.") if base else f"Put together {added}.")
        text += _path_words(edition, stage)
    if glued:
        text += _glue_words(edition, step)
    else:
        text += loose_words(step, wet=True)
    text += loose_words(step, wet=False) + pinned_words(edition.piece, step)
    text += fixings_words(edition, step)
    done = finished(edition.piece, stage)
    if done is not None:
        text.append(f"That completes {'each' if stage.times > 1 else 'the'} {done.kind}.")
    return StepWords(_stage_title(edition, step), tuple(text), _stage_caution(edition, step, glued))


def _alike_words(images: int, times: int) -> str:
    """How many of the same are made, and of which hand."""
    if not images:
        return f"Make {number(times)} of these, alike."
    if times == 2:
        return "Make two of these, one the mirror image of the other."
    hand = "a mirror image" if images == 1 else "mirror images"
    return f"Make {number(times)} of these, {number(images)} of them {hand}."


def _going_in(step: Step, added: str) -> str:
    """How what was put together apart goes into the rest: slid in, or set in its place where something holds it."""
    side = _slides_from(step)
    return f"Set {added} in place." if side is None else f"Slide {added} in from the {side}."


def _slides_from(step: Step) -> str | None:
    """The side from which the parts of a stage slide in level, held by nothing; none where they do not."""
    assert step.stage is not None
    outs = {nearest_side(move.path[0].direction) for move in step.stage.moves if move.path}
    level = len(outs) == 1 and not outs & {"top", "bottom"}
    return outs.pop() if level and not step.fixings and not step.joints else None


def _said_of(edition: Edition, step: Step, names: list[str]) -> str:
    """`the two legs C and the end rail E`: new parts by mark, what was made before by the step that made it."""
    item_of = {n: item for item in edition.piece.items for n in (*item.parts, *item.mirrored)}
    by_kind: dict[str, list[str]] = {}
    for name in names:
        if name in step.added:
            by_kind.setdefault(edition.piece.parts[name].kind, []).append(name)
    said = []
    for kind, members in by_kind.items():
        letters = listed(dict.fromkeys(item_of[name].mark for name in members))
        many = "" if len(members) == 1 else f"{number(len(members))} "
        said.append(f"the {many}{kind if len(members) == 1 else plural(kind)} {letters}")
    return listed([*said, *_made_before(edition, step, [name for name in names if name not in step.added])])


def _made_before(edition: Edition, step: Step, names: list[str]) -> list[str]:
    """Sub-assemblies among `names`, by the steps that made them: the largest first, until all are named."""
    said, left = _named_before(edition, step, set(names))
    found: Counter[int] = Counter()
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        for single in earlier.every if earlier is not None else ():
            if left and set(single.parts) <= left:
                left -= set(single.parts)
                found[at + 1] += 1
    return said + [
        f"the {'assembly' if many == 1 else f'{number(many)} frames'} of step {at}" for at, many in found.items()
    ]


def _named_before(edition: Edition, step: Step, names: set[str]) -> tuple[list[str], set[str]]:
    """Assemblies that have a name, those of a kind together, with the step that made them; and the parts left over."""
    counted_by: Counter[tuple[str, int]] = Counter()
    left = set(names)
    for made in edition.piece.assemblies:
        at = _made_at(edition, step, made)
        if at and set(made.parts) <= left and set(made.parts) != set(edition.piece.parts):
            left -= set(made.parts)
            counted_by[made.kind, at] += 1
    said = [
        f"the {kind if many == 1 else f'{number(many)} {plural(kind)}'} of step {at}"
        for (kind, at), many in counted_by.items()
    ]
    return said, left


def _made_at(edition: Edition, step: Step, made: AssemblyMade) -> int:
    """The number of the step before this one that completed an assembly; 0 where there is none."""
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        if earlier is not None and any(set(single.parts) == set(made.parts) for single in earlier.every):
            return at + 1
    return 0


IN_FROM = {"top": "from above", "bottom": "from below"}
HOME = {
    **{"top": "let it down into its place", "bottom": "lift it into its place"},
    **dict.fromkeys(("left", "right", "front", "back"), "press it home sideways"),
}


def _path_words(edition: Edition, stage: Stage) -> list[str]:
    """How a part goes in that comes to its joint one way and into it another; nothing for a straight way in."""
    paths = {tuple(nearest_side(leg.direction) for leg in move.path) for move in stage.moves if len(move.path) > 1}
    if not paths:
        return []
    each = "it" if len(stage.moves) == 1 else "each one"
    runs = {edition.piece.parts[move.parts[0]].spec.runs for move in stage.moves}
    out, away = {path[0] for path in paths}, {path[-1] for path in paths}
    if all(SIDE_AXIS[side] in runs for side in away):
        come = f"Slide {each} in along its length"
    else:
        side = min(away) if len(away) == 1 else ""
        come = f"Bring {each} in {IN_FROM.get(side, f'from the {side}' if side else 'from its own side')}"
    home = {HOME[side] for side in out}
    return [f"{come}, then {min(home) if len(home) == 1 else 'move it into its place'}."]


def _glue_words(edition: Edition, step: Step) -> list[str]:
    assert step.stage is not None
    count = sum(joint.glued and not joint.adhesive for joint in step.joints) // step.stage.times
    text = [_stuck(name, step) for name in dict.fromkeys(j.adhesive for j in step.joints) if name]
    if not count:
        return text + loose_words(step, wet=True)
    glue = edition.piece.design.spec.glue or "glue"
    where = (
        "both faces of the joint and close it" if count == 1 else f"the faces of {number(count)} joints and close them"
    )
    text.append(f"Spread {glue} thinly on {where}.")
    text += loose_words(step, wet=True)
    text.append("Check that it is square and free of wind, wipe off squeezed-out glue, and leave it clamped overnight.")
    return text


def _stuck(adhesive: str, step: Step) -> str:
    count = sum(joint.adhesive == adhesive for joint in step.joints)
    faces = "both faces" if count == 1 else f"the faces of {number(count)} joints"
    return (
        f"Rub {faces} clean of dust and grease, stick them with {adhesive}, and let it set as its maker says: "
        "nothing is screwed there."
    )


def fixings_words(edition: Edition, step: Step) -> list[str]:
    """A sentence for each kind and size of fixing driven in a step."""
    by_size: dict[tuple[str, str], list[FixingMade]] = {}
    for fixing in step.fixings:
        by_size.setdefault((fixing.kind, fixing_name(edition, fixing.kind, fixing.values)), []).append(fixing)
    text = [fixing_words(edition, made) for made in by_size.values()]
    if any(fixing.values.get("plugged") is not None for fixing in step.fixings):
        text.append("Glue a plug over each screw with its grain in line, and plane it flush when dry.")
    return text


def fixings_caution(step: Step) -> str:
    """What to beware of in fitting them; empty where nothing is dangerous."""
    kinds = dict.fromkeys(fixing.kind for fixing in step.fixings)
    return " ".join(CAUTIONS[kind] for kind in kinds if kind in CAUTIONS)


def _stage_title(edition: Edition, step: Step) -> str:
    stage = step.stage
    assert stage is not None
    glued = any(joint.glued for joint in step.joints)
    going_in = dict.fromkeys(made.kind for made in wholes(edition.piece, stage))
    if going_in and not glued:
        said = listed(kind if len(stage.moves) == 1 else plural(kind) for kind in going_in)
        return f"Slide in the {said}" if _slides_from(step) else f"Set the {said} in place"
    moved = [name for move in stage.moves for name in move.parts]
    new_moved = dict.fromkeys(edition.piece.parts[name].kind for name in moved if name in step.added)
    if stage.times > 1:
        kinds = dict.fromkeys(edition.piece.parts[name].kind for name in stage.parts if name in step.added)
        first = set(stage.base) <= set(step.added)
        verb = ("Glue up" if first else "Glue") if glued else ("Put together" if first else "Fit")
        return f"{verb} the {listed(plural(kind) for kind in kinds)}"
    if new_moved:
        verb = "Glue" if glued else "Fit"
        return f"{verb} the {listed(_plural_of(edition, step, kind) for kind in new_moved)}"
    return "Join the frames" if len(stage.moves) > 1 else "Join the two halves"


def _plural_of(edition: Edition, step: Step, kind: str) -> str:
    count = sum(edition.piece.parts[name].kind == kind for name in step.added)
    return kind if count == 1 else plural(kind)


def _stage_caution(edition: Edition, step: Step, glued: bool) -> str:
    kg = total_mass(edition.piece)
    lifted = step.last and not glued and not _slides_from(step) and (kg is None or kg > ONE_PERSON)
    heavy = "The piece is heavy now: lift it with a helper." if lifted else ""
    return " ".join(filter(None, (heavy, fixings_caution(step))))
