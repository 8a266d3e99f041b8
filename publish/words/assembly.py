"""The steps of assembly: what goes together, how it goes in, glue and screws."""

from __future__ import annotations

from collections import Counter

from model.piece import FixingMade
from model.sequence import Leg
from model.steps import Step
from publish.edition import Edition
from publish.words.fixings import CAUTIONS, fixing_name, fixing_words
from publish.words.loose import loose_words
from publish.words.names import capital, listed, number, plural
from publish.words.step_words import StepWords


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
        text.append(f"Make {number(stage.times)} of these, one the mirror image of the other.")
    text.append(capital(f"{act} {added} to {base}.") if base else f"Put together {added}.")
    text += _path_words(stage.moves[0].path)
    if glued:
        text += _glue_words(edition, step)
    text += loose_words(step)
    text += fixings_words(edition, step)
    return StepWords(_stage_title(edition, step), tuple(text), _stage_caution(step, glued))


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
    left = set(names)
    found: Counter[int] = Counter()
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        for single in earlier.every if earlier is not None else ():
            if left and set(single.parts) <= left:
                left -= set(single.parts)
                found[at + 1] += 1
    return [f"the {'assembly' if many == 1 else f'{number(many)} frames'} of step {at}" for at, many in found.items()]


def _path_words(path: tuple[Leg, ...]) -> list[str]:
    if len(path) < 2:
        return []
    return ["Slide each one in along its length, a little above its place, then let it down into its notches."]


def _glue_words(edition: Edition, step: Step) -> list[str]:
    assert step.stage is not None
    count = sum(joint.glued and not joint.adhesive for joint in step.joints) // step.stage.times
    text = [_stuck(name, step) for name in dict.fromkeys(j.adhesive for j in step.joints) if name]
    if not count:
        return text
    glue = edition.piece.design.spec.glue or "glue"
    where = (
        "both faces of the joint and close it" if count == 1 else f"the faces of {number(count)} joints and close them"
    )
    text.append(f"Spread {glue} thinly on {where}.")
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
    moved = [name for move in stage.moves for name in move.parts]
    new_moved = dict.fromkeys(edition.piece.parts[name].kind for name in moved if name in step.added)
    if stage.times > 1:
        kinds = dict.fromkeys(edition.piece.parts[name].kind for name in stage.parts if name in step.added)
        return f"Glue up the {listed(plural(kind) for kind in kinds)}"
    if new_moved:
        verb = "Glue" if any(j.glued for j in step.joints) else "Fit"
        return f"{verb} the {listed(_plural_of(edition, step, kind) for kind in new_moved)}"
    return "Join the frames" if len(stage.moves) > 1 else "Join the two halves"


def _plural_of(edition: Edition, step: Step, kind: str) -> str:
    count = sum(edition.piece.parts[name].kind == kind for name in step.added)
    return kind if count == 1 else plural(kind)


def _stage_caution(step: Step, glued: bool) -> str:
    heavy = "The piece is heavy now: lift it with a helper." if step.last and not glued else ""
    return " ".join(filter(None, (heavy, fixings_caution(step))))
