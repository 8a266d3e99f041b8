"""The steps of assembly: what goes together, how it goes in, glue and screws."""

from __future__ import annotations

from collections.abc import Sequence

from model.clamping import SQUARE, caul_angle, is_pulled
from model.copies import exchanged, finished, mirror_images, wholes
from model.frames import nearest_side
from model.piece import FixingMade
from model.stages import Move, Stage
from model.steps import Step
from model.takeoff import mass, total_mass
from plans.sides import SIDE_AXIS
from plans.units import degrees
from publish.edition import Edition
from publish.words.assembled import said_of
from publish.words.fixings import CAUTIONS, fitted_words, fixing_name, fixing_words
from publish.words.loose import loose_words, pinned_words
from publish.words.names import capital, listed, number
from publish.words.stage_titles import stage_title
from publish.words.step_words import StepWords, lifted_onto, slides_from

ONE_PERSON = 16.0  # kg that anyone lifts at the waist (guideline weight, HSE INDG143, from memory)
BREAKS = "Stone and glass break: carry the top on edge, with gloves, and set it on where the piece will stand."
LIGHT = 0.15  # share of the piece below which what goes in last is no load
MANY_JOINTS = 4  # closed in one go: then all has to lie ready


def stage_words(edition: Edition, step: Step) -> StepWords:
    """The words of one stage of the assembly."""
    stage = step.stage
    assert stage is not None
    glued = any(joint.glued for joint in step.joints)
    text = _how_many(edition, stage)
    text += _put_together(edition, step, glued)
    if glued:
        text += _glue_words(edition, step)
    else:
        text += loose_words(step, wet=True)
    text += loose_words(step, wet=False) + pinned_words(edition.piece, step)
    text += fixings_words(edition, step)
    done = finished(edition.piece, stage)
    if done is not None:
        text.append(f"That completes {'each' if stage.times > 1 else 'the'} {done.kind}.")
    return StepWords(stage_title(edition, step), tuple(text), _stage_caution(edition, step, glued))


def _how_many(edition: Edition, stage: Stage) -> list[str]:
    """How many of the same are made, of which hand, and which parts of another kind some of them have."""
    if stage.times == 1:
        return []
    piece = edition.piece
    mark_of = {n: item.mark for item in edition.piece.items for n in (*item.parts, *item.mirrored)}
    text = [_alike_words(mirror_images(piece, stage), stage.times)]
    for (name, other), many in exchanged(piece, stage).items():
        if mark_of[name] == mark_of[other]:
            continue
        where = "In the second" if stage.times == 2 else f"In {number(many)} of them"
        ours, theirs = (f"the {piece.parts[n].kind} {mark_of[n]}" for n in (name, other))
        text.append(f"{where}, {theirs} takes the place of {ours}.")
    return text


def _put_together(edition: Edition, step: Step, glued: bool) -> list[str]:
    """What goes to what, turn by turn, and how it goes in."""
    stage = step.stage
    assert stage is not None
    kinds = {edition.piece.parts[name].kind for name in stage.parts}
    if len(kinds) == 1 and len(stage.parts) > MANY_JOINTS and not glued:
        return [f"Lay {said_of(edition, step, list(stage.parts))} side by side and push them together one by one."]
    first, *later = stage.turns or ((),)
    added = said_of(edition, step, [name for move in first for name in move.parts])
    base = said_of(edition, step, list(stage.base))
    if wholes(edition.piece, stage) and not glued:
        return [_going_in(step, added)]
    onto = lifted_onto(edition.piece, step)
    if onto is not None:
        return [f"Set {added} on {base}."]
    act = "glue" if _is_glued(step, stage, first) else "add"
    text = [capital(f"{act} {added} to {base}.") if base else f"Put together {added}."]
    text += _path_words(edition, stage)
    for turn in later:
        then = said_of(edition, step, [name for move in turn for name in move.parts])
        text.append(f"Then {'glue on' if _is_glued(step, stage, turn) else 'add'} {then}.")
    return text


def _is_glued(step: Step, stage: Stage, turn: Sequence[Move]) -> bool:
    """Whether any joint that a turn closes is glued."""
    pairs = [(set(move.parts), set(stage.there(move))) for move in turn]
    return any(
        j.glued and any((j.a in m and j.b in t) or (j.b in m and j.a in t) for m, t in pairs) for j in step.joints
    )


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
    side = slides_from(step)
    return f"Set {added} in place." if side is None else f"Slide {added} in from the {side}."


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
    if count > MANY_JOINTS:
        text.append("Lay out all parts and set the clamps first: the joints have to be closed while the glue is open.")
    text.append(f"Spread {glue} thinly on {where}.")
    text += loose_words(step, wet=True)
    text += _clamp_words(edition, step)
    return text


def _clamp_words(edition: Edition, step: Step) -> list[str]:
    """How it is clamped, with angled blocks where faces lean."""
    angles = [caul_angle(edition.piece, joint) for joint in step.joints if is_pulled(edition.piece, joint)]
    leaning = list(dict.fromkeys(degrees(angle) for angle in sorted(angles) if angle > SQUARE))
    text = []
    if leaning:
        text.append(f"The faces under the clamps lean: cut blocks to {listed(leaning)} and put them under the jaws.")
    text.append("Clamp it lightly, check that it is square and free of wind, and wipe off squeezed-out glue.")
    return text


def _stuck(adhesive: str, step: Step) -> str:
    count = sum(joint.adhesive == adhesive for joint in step.joints)
    faces = "both faces" if count == 1 else f"the faces of {number(count)} joints"
    return (
        f"Rub {faces} clean of dust and grease and stick them with {adhesive}. Nothing is screwed there: let it set "
        "as its maker says."
    )


def fixings_words(edition: Edition, step: Step) -> list[str]:
    """A sentence for each kind and size of fixing driven in a step; sizes of which the same is said share one."""
    by_size: dict[tuple[str, str], list[FixingMade]] = {}
    for fixing in step.fixings:
        by_size.setdefault((fixing.kind, fixing_name(edition, fixing.kind, fixing.values)), []).append(fixing)
    alike: dict[str, list[FixingMade]] = {}
    for made in by_size.values():
        alike.setdefault(fitted_words(edition, made, ""), []).extend(made)
    text = [fixing_words(edition, made) for made in alike.values()]
    if any(fixing.values.get("plugged") is not None for fixing in step.fixings):
        text.append("Glue a plug over each screw with its grain in line, and plane it flush when dry.")
    return text


def fixings_caution(step: Step) -> str:
    """What to beware of in fitting them; empty where nothing is dangerous."""
    kinds = dict.fromkeys(fixing.kind for fixing in step.fixings)
    return " ".join(CAUTIONS[kind] for kind in kinds if kind in CAUTIONS)


def _stage_caution(edition: Edition, step: Step, glued: bool) -> str:
    kg = total_mass(edition.piece)
    here = [edition.piece.parts[n] for move in (step.stage.moves if step.stage else ()) for n in move.parts]
    light = kg is not None and sum(mass(part) or 0.0 for part in here) < LIGHT * kg
    lifted = step.last and not glued and not light and not slides_from(step) and (kg is None or kg > ONE_PERSON)
    lifted = lifted or (lifted_onto(edition.piece, step) is not None and sum(mass(p) or 0.0 for p in here) > ONE_PERSON)
    heavy = "The piece is heavy now: lift it with a helper." if lifted else ""
    breaks = BREAKS if step.last and any(part.spec.material for part in here) else ""
    return " ".join(filter(None, (heavy, breaks, fixings_caution(step))))
