"""The steps of the build as a maker would say them: what to do, why where it saves a mistake, the caution before the act."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

from model.piece import Feature, FixingMade, Item, Value
from model.sequence import Leg
from model.steps import Step
from plans.units import degrees
from publish.edition import Edition
from publish.words.notes import arris_words
from publish.words.fixings import screw_name
from publish.words.names import capital, counted, listed, marks, number, plural


@dataclass(frozen=True)
class StepWords:
    """A step: its title, a caution that comes first, and its sentences."""

    title: str
    text: tuple[str, ...]
    caution: str = ""


def step_words(edition: Edition, step: Step) -> StepWords:
    """The words of a step."""
    return WRITERS[step.kind](edition, step)


def _names(items: tuple[Item, ...]) -> str:
    return listed(f"{item.name} {item.mark}" for item in items)


def _features(edition: Edition, item: Item, *what: str) -> list[Feature]:
    part = edition.piece.parts[item.shown]
    return [f for f in part.features if f.operation is not None and f.operation.name in what]


def _mm(values: dict[str, Value], name: str) -> float:
    value = values[name]
    assert isinstance(value, int | float)
    return float(value)


def _mill(edition: Edition, step: Step) -> StepWords:
    woods = listed(sorted({edition.piece.parts[item.shown].spec.wood for item in step.items}))
    text = [
        f"Let the {woods} rest in the shop for a week or two before you mill it.",
        "Lay out the parts on the boards with the cut list. Keep the straightest grain for the parts that carry load.",
        "Rip and crosscut everything oversize, then flatten one face and square one edge of each piece.",
        "Let the pieces rest overnight. Then plane to thickness and joint again, so that they stay straight.",
    ]
    rift = [item for item in step.items if edition.piece.parts[item.shown].spec.rings == "rift"]
    if rift:
        text.append(f"Choose rift-sawn stock for {marks(rift)}: rings at about 45° on the end make all four faces alike.")
    return StepWords(
        "Choose and mill the stock",
        tuple(text),
        "Wood dust harms the lungs and can catch fire: use extraction and a mask. Keep guards in place, stand out of the "
        "line of kick-back, and follow the instructions of your machines.",
    )


def _size(edition: Edition, step: Step) -> StepWords:
    return StepWords(
        "Cut the parts to size",
        (
            "Rip every part to its finished width and plane it to its finished thickness.",
            "Crosscut to the finished length of the cut list; tenons are included in it. Leave parts with angled ends "
            "a little long until the next step.",
            "Mark the true face and the true edge of each part, and letter it.",
        ),
        "Use a push stick for narrow rips and a sled or a stop for short crosscuts. Never hold a piece by hand that is "
        "too small to hold safely.",
    )


def _ends(edition: Edition, step: Step) -> StepWords:
    text = ["Cut these ends before any joint: every other size is taken from them."]
    for item in step.items:
        settings = dict.fromkeys(_end_setting(edition, f) for f in _features(edition, item, "sloped end"))
        both = "both ends" if len(_features(edition, item, "sloped end")) > 1 else "one end"
        text.append(f"{item.mark}, {item.name}: {both} at {listed(settings)}.")
    text.append("Set the saw with a bevel gauge and try the setting on scrap. The end of a tenon is parallel to its shoulder.")
    return StepWords("Cut the angled ends", tuple(text))


def _end_setting(edition: Edition, feature: Feature) -> str:
    assert feature.operation is not None
    values = feature.operation.settings
    mitre, tilt = _mm(values, "mitre"), _mm(values, "tilt")
    if tilt < 0.05:
        return f"{degrees(mitre)} across the face"
    if mitre < 0.05:
        return f"blade tilted {degrees(tilt)}"
    return f"{degrees(mitre)} across the face with the blade tilted {degrees(tilt)}"


def _mortises(edition: Edition, step: Step) -> StepWords:
    text = ["Cut the mortises while the faces are still square and true; the tenons are fitted to them afterwards."]
    for item in step.items:
        for feature, times in _alike(edition, item, "mortise"):
            assert feature.operation is not None
            values = feature.operation.settings
            n = edition.number
            size = f"{n(_mm(values, 'thick'))} × {n(_mm(values, 'wide'))}, {edition.measure(_mm(values, 'deep'))} deep"
            off = _mm(values, "off square")
            lean = f", {degrees(off)} off square" if off >= 0.25 else ""
            text.append(f"{item.mark}, {item.name}: {counted(times, 'mortise')} for the {values['for']}, {size}{lean}.")
    if any("off square" in sentence for sentence in text):
        text.append("Tilt the part on a wedge of that angle, so that the chisel or the bit goes in the way the rail does.")
    return StepWords(
        "Cut the mortises",
        tuple(text),
        "Clamp the part down, not only against a fence. Keep both hands behind the edge of a chisel.",
    )


def _alike(edition: Edition, item: Item, *what: str) -> list[tuple[Feature, int]]:
    """Features of one part that are said alike, with how many there are."""
    found: dict[tuple[object, ...], list[Feature]] = {}
    for feature in _features(edition, item, *what):
        assert feature.operation is not None
        values = feature.operation.settings
        key = tuple(edition.number(v) if isinstance(v, float) else v for k, v in sorted(values.items()) if k not in ("end", "side"))
        found.setdefault(key, []).append(feature)
    return [(alike[0], len(alike)) for alike in found.values()]


def _tenons(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        for feature, times in _alike(edition, item, "tenon"):
            assert feature.operation is not None
            values = feature.operation.settings
            n = edition.number
            size = f"{n(_mm(values, 'thick'))} × {n(_mm(values, 'wide'))}, {edition.measure(_mm(values, 'long'))} long"
            text.append(f"{item.mark}, {item.name}: {counted(times, 'tenon')}, {size}.")
    angled = [item for item in step.items if _features(edition, item, "sloped end")]
    text.append("Leave each tenon a shaving thick and fit it to its own mortise: it should go home by hand.")
    if angled:
        text.append(f"The shoulders of {marks(angled)} run parallel to their angled ends: use the same setting.")
    return StepWords("Cut the tenons to fit", tuple(text))


def _recesses(title: str, what: tuple[str, ...], noun: str) -> Callable[[Edition, Step], StepWords]:
    def write(edition: Edition, step: Step) -> StepWords:
        text = []
        for item in step.items:
            for feature, times in _alike(edition, item, *what):
                assert feature.operation is not None
                values = feature.operation.settings
                size = f"{edition.number(_mm(values, 'long'))} long and {edition.measure(_mm(values, 'deep'))} deep"
                over = f" for the {values['for']}" if "for" in values else ""
                text.append(f"{item.mark}, {item.name}: {counted(times, noun)}{over}, {size}.")
        text.append("Mark each one from the part that goes into it, saw the sides inside the lines, and pare to fit.")
        return StepWords(title, tuple(text))

    return write


def _bevels(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        for feature in _features(edition, item, "sloped edge"):
            assert feature.operation is not None
            values = feature.operation.settings
            text.append(f"{item.mark}, {item.name}: the {values['side']} edge, {degrees(_mm(values, 'slope'))}.")
    text.append("The full width stays on one face; the bevel only takes the corner off the other.")
    return StepWords("Bevel the edges", tuple(text), "A tilted blade throws a trapped offcut: let it fall free.")


def _tapers(edition: Edition, step: Step) -> StepWords:
    text = ["Taper after the joinery: you lose your square faces."]
    for item in step.items:
        for feature in _features(edition, item, "taper"):
            assert feature.operation is not None
            values = feature.operation.settings
            sides = number(len(str(values["sides"]).split(", ")))
            text.append(
                f"{item.mark}, {item.name}: {sides} {'sides' if sides != 'one' else 'side'}, from "
                f"{edition.measure(_mm(values, 'after'))} below the {values['from']}, to {edition.measure(_mm(values, 'to'))} "
                "at the far end. See the drawing for which."
            )
    text.append("Saw just outside the line, then plane down to it. Mirrored parts are tapered on mirrored sides.")
    return StepWords(
        "Taper", tuple(text), "Hold the part in a jig with clamps for a taper on the table saw; never guide it by hand."
    )


def _holes(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        screw = Counter[tuple[str, str]]()
        for feature in _features(edition, item, "screw hole", "hole"):
            assert feature.operation is not None
            values = feature.operation.settings
            screw[_hole_words(edition, values)] += int(_mm(values, "count"))
        for (head, reach), count in screw.items():
            text.append(f"{item.mark}, {item.name}: {counted(count, head)}{reach}.")
    text.append("Back the work with scrap so that the bit does not tear out.")
    return StepWords("Bore the holes", tuple(text))


def _hole_words(edition: Edition, values: dict[str, Value]) -> tuple[str, str]:
    diameter = f"{edition.drill(_mm(values, 'diameter'))} {edition.units.suffix}"
    if "head" not in values:
        deep = values.get("deep")
        return f"{diameter} hole", " right through" if deep is None else f", {edition.measure(_mm(values, 'deep'))} deep"
    if values.get("plugged") is None:
        return f"{diameter} screw hole", ", countersunk"
    plug = f"{edition.drill(_mm(values, 'plug'))} {edition.units.suffix}"
    return f"{diameter} screw hole", f", first sunk {edition.measure(_mm(values, 'plugged'))} deep for a {plug} plug"


def _easing(edition: Edition, step: Step) -> StepWords:
    text = []
    by_words: dict[str, list[Item]] = {}
    for item in step.items:
        for feature in _features(edition, item, "round over", "chamfer"):
            assert feature.operation is not None
            values = feature.operation.settings
            act = "round over" if feature.kind == "round over" else "chamfer"
            words = f"{act} {arris_words(str(values['arrises']).split('; '))} {edition.measure(_mm(values, 'size'))}"
            by_words.setdefault(words, []).append(item)
    text += [f"{marks(items)}: {words}." for words, items in by_words.items()]
    text.append("Stop short of shoulders and glue faces. Sand inside faces now; you will not reach them later.")
    return StepWords("Ease the arrises", tuple(text))


def _dry_fit(edition: Edition, step: Step) -> StepWords:
    return StepWords(
        "Fit everything dry",
        (
            "Put the whole piece together without glue, in the order of the steps that follow.",
            "Every shoulder should close under light clamps. Stand the piece on a flat floor and look for rocking.",
            "Set out clamps, cauls and a damp cloth for each glue-up, and try the clamps as well.",
        ),
    )


def _stage(edition: Edition, step: Step) -> StepWords:
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
    text += _screw_words(edition, step)
    return StepWords(_stage_title(edition, step), tuple(text), _stage_caution(step, glued))


def _said_of(edition: Edition, step: Step, names: list[str]) -> str:
    """`the two legs C and the end rail E`: parts that are new by mark; what was made before by the step that made it."""
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
    count = sum(joint.glued for joint in step.joints) // step.stage.times
    glue = edition.piece.design.spec.glue or "glue"
    text = [f"Spread {glue} thinly on the cheeks of {counted(count, 'joint')} and close them together."]
    text.append("Check that it is square and free of wind, wipe off squeezed-out glue, and leave it clamped overnight.")
    return text


def _screw_words(edition: Edition, step: Step) -> list[str]:
    by_size: dict[str, list[FixingMade]] = {}
    for fixing in step.fixings:
        by_size.setdefault(screw_name(edition, fixing.values), []).append(fixing)
    text = []
    for name, made in by_size.items():
        total = sum(len(f.points) for f in made)
        into = listed(dict.fromkeys(f"the {edition.piece.parts[f.into].kind}" for f in made))
        text.append(f"Bore the pilots through the screw holes into {into}, and drive {counted(total, name)}.")
    if any(fixing.values.get("plugged") is not None for fixing in step.fixings):
        text.append("Glue a plug over each screw with its grain in line, and plane it flush when dry.")
    return text


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
    if step.last and not glued:
        return "The piece is heavy now: lift it with a helper."
    return ""


def _finish(edition: Edition, step: Step) -> StepWords:
    finish = edition.piece.design.spec.finish
    assert finish is not None
    text = [
        "Sand through the grits with the grain, dust off, and raise the grain once with a damp cloth.",
        f"Apply {counted(finish.coats, 'coat')} of {finish.name}, thin, and let each dry as its maker says.",
    ]
    if finish.note:
        text.append(finish.note)
    return StepWords(
        "Finish",
        tuple(text),
        "Oily rags can catch fire by themselves: spread them flat outdoors to dry, or keep them under water in a closed tin. "
        "Work with fresh air and gloves.",
    )


def _supplies(edition: Edition, step: Step) -> StepWords:
    text = [
        f"{capital(counted(s.count, s.item))}{': ' + s.note if s.note else ''}." for s in edition.piece.design.spec.supplies
    ]
    return StepWords("Fit the hardware", tuple(text))


WRITERS: dict[str, Callable[[Edition, Step], StepWords]] = {
    "mill": _mill,
    "size": _size,
    "ends": _ends,
    "mortises": _mortises,
    "tenons": _tenons,
    "bridles": _recesses("Cut the bridles", ("bridle slot", "bridle cheek"), "cut"),
    "halvings": _recesses("Cut the halvings", ("halving",), "halving"),
    "notches": _recesses("Cut the notches", ("notch",), "notch"),
    "bevels": _bevels,
    "tapers": _tapers,
    "holes": _holes,
    "easing": _easing,
    "dry fit": _dry_fit,
    "stage": _stage,
    "finish": _finish,
    "supplies": _supplies,
}
