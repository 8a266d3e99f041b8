"""Work on single parts, as a maker would say it: what to do, why where it helps, the caution before the act."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from model.cut_list import OVER_TO_FIT, cut_list
from model.piece import Feature, Item
from model.steps import Step
from plans.units import degrees
from publish.edition import Edition
from publish.words import shaping_work
from publish.words.boring import holes
from publish.words.case_work import CASE_WRITERS
from publish.words.names import counted, listed, marks, number
from publish.words.notes import arris_words, stop_words
from publish.words.step_words import StepWords, features, mm


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
        text.append(
            f"Choose rift-sawn stock for {marks(rift)}: rings at about 45° on the end make all four faces alike."
        )
    return StepWords(
        "Choose and mill the stock",
        tuple(text),
        "Wood dust harms the lungs and can catch fire: use extraction and a mask. Keep guards in place, stand out of "
        "the line of kick-back, and follow the instructions of your machines.",
    )


# joints whose half is part of the length of the part
TONGUED = (
    "tenon",
    "tongue",
    "edge tongue",
    "housed tongue",
    "housed end",
    "dovetail tongue",
    "tails",
    "pins",
    "fingers",
)


def _size(edition: Edition, step: Step) -> StepWords:
    sheets = [item for item in step.items if edition.piece.parts[item.shown].spec.sheet]
    text = []
    if sheets:
        text.append(f"Cut {marks(sheets)} from their sheets: first oversize with a guided saw, then to size.")
        grained = [item for item in sheets if edition.piece.parts[item.shown].spec.has_face_grain]
        if grained:
            text.append(f"Lay out {marks(grained)} with the face grain along the length.")
    if len(sheets) < len(step.items):
        text.append("Rip every solid part to its finished width and plane it to its finished thickness.")
    if any(features(edition, item, *TONGUED) for item in step.items):
        text.append("Crosscut to the finished length of the cut list; what is cut on the ends is included in it.")
    else:
        text.append("Crosscut to the finished length of the cut list.")
    if any(features(edition, item, "sloped end") for item in step.items):
        text.append("Leave parts with angled ends a little long until the next step.")
    fitted = dict.fromkeys(row.item.mark for row in cut_list(edition.piece) if row.fits)
    if fitted:
        text.append(f"Leave {listed(fitted)} over by {edition.measure(OVER_TO_FIT)} where the cut list has brackets.")
    return StepWords(
        "Cut the parts to size",
        (*text, "Mark the true face and the true edge of each part, and letter it."),
        "Use a push stick for narrow rips and a sled or a stop for short crosscuts. Never hold a piece by hand that is "
        "too small to hold safely.",
    )


def _ends(edition: Edition, step: Step) -> StepWords:
    text = ["Cut these ends before the joints of these parts: every other size is taken from them."]
    for item in step.items:
        settings = dict.fromkeys(_end_setting(edition, f) for f in features(edition, item, "sloped end"))
        both = "both ends" if len(features(edition, item, "sloped end")) > 1 else "one end"
        text.append(f"{item.mark}, {item.name}: {both} at {listed(settings)}.")
    text.append("Set the saw with a bevel gauge and try the setting on scrap.")
    if any(features(edition, item, "tenon") for item in step.items):
        text.append("The end of a tenon is parallel to its shoulder.")
    return StepWords("Cut the angled ends", tuple(text))


def _end_setting(edition: Edition, feature: Feature) -> str:
    assert feature.operation is not None
    values = feature.operation.settings
    mitre, tilt = mm(values, "mitre"), mm(values, "tilt")
    if tilt < 0.05:
        return f"{degrees(mitre)} across the face"
    if mitre < 0.05:
        return f"90° with the blade tilted {degrees(tilt)}"
    return f"{degrees(mitre)} across the face with the blade tilted {degrees(tilt)}"


def _mortises(edition: Edition, step: Step) -> StepWords:
    text = ["Cut the mortises while the faces are still square and true; the tenons are fitted to them afterwards."]
    for item in step.items:
        for feature, times in _alike(edition, item, "mortise"):
            assert feature.operation is not None
            values = feature.operation.settings
            n = edition.number
            deep = "right through" if values["deep"] is None else f"{edition.measure(mm(values, 'deep'))} deep"
            size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {deep}"
            off = mm(values, "off square")
            lean = f", {degrees(off)} off square" if off >= 0.25 else ""
            text.append(f"{item.mark}, {item.name}: {counted(times, 'mortise')} for the {values['for']}, {size}{lean}.")
    if any("right through" in sentence for sentence in text):
        text.append("Cut a through mortise from both faces, so that neither breaks out.")
    if any(
        f.operation and "flare" in f.operation.settings for i in step.items for f in features(edition, i, "mortise")
    ):
        text.append("Flare the ends of a wedged mortise towards the far side: leave the mouth as it is.")
    if any("off square" in sentence for sentence in text):
        text.append(
            "Tilt the part on a wedge of that angle, so that the chisel or the bit goes in the way the rail does."
        )
    return StepWords(
        "Cut the mortises",
        tuple(text),
        "Clamp the part down, not only against a fence. Keep both hands behind the edge of a chisel.",
    )


def _alike(edition: Edition, item: Item, *what: str) -> list[tuple[Feature, int]]:
    """Features of one part that are said alike, with how many there are."""
    found: dict[tuple[object, ...], list[Feature]] = {}
    for feature in features(edition, item, *what):
        assert feature.operation is not None
        values = feature.operation.settings
        key = tuple(
            edition.number(v) if isinstance(v, float) else v
            for k, v in sorted(values.items())
            if k not in ("end", "side")
        )
        found.setdefault(key, []).append(feature)
    return [(alike[0], len(alike)) for alike in found.values()]


def _tenons(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        cut: Counter[tuple[str, str]] = Counter()  # tenons for different parts are often of one size
        for feature, times in _alike(edition, item, "tenon", "tongue"):
            assert feature.operation is not None
            values = feature.operation.settings
            n = edition.number
            size = f"{n(mm(values, 'thick'))} × {n(mm(values, 'wide'))}, {edition.measure(mm(values, 'long'))} long"
            haunch = f", haunched at the {values['haunch side']}" if "haunch" in values else ""
            cut[feature.kind, f"{size}{haunch}"] += times
        text += [f"{item.mark}, {item.name}: {counted(many, kind)}, {size}." for (kind, size), many in cut.items()]
    angled = [item for item in step.items if features(edition, item, "sloped end")]
    text.append("Leave each tenon a shaving thick and fit it to its own mortise: it should go home by hand.")
    sawn = [item for item in step.items if features(edition, item, "saw cut")]
    if sawn:
        text.append(f"Saw the tenons of {marks(sawn)} for their wedges, and bore a small hole at the foot of each cut.")
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
                size = f"{edition.number(mm(values, 'long'))} long and {edition.measure(mm(values, 'deep'))} deep"
                over = f" for the {values['for']}" if "for" in values else ""
                text.append(f"{item.mark}, {item.name}: {counted(times, noun)}{over}, {size}.")
        text.append("Mark each one from the part that goes into it, saw the sides inside the lines, and pare to fit.")
        return StepWords(title, tuple(text))

    return write


def _scribing(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        for feature in features(edition, item, "scribe"):
            assert feature.operation is not None
            values = feature.operation.settings
            text.append(f"{item.mark}, {item.name}: the {values['side']} {values['what']}, to the {values['for']}.")
    text.append("Leave the part long, hold it in its place, and draw the profile on it with a compass.")
    text.append("Saw just outside the line, undercut a little towards the back, and pare until the face closes.")
    return StepWords("Scribe to fit", tuple(text))


def _bevels(edition: Edition, step: Step) -> StepWords:
    text = []
    for item in step.items:
        for feature in features(edition, item, "sloped edge"):
            assert feature.operation is not None
            values = feature.operation.settings
            text.append(f"{item.mark}, {item.name}: the {values['side']} edge, {degrees(mm(values, 'slope'))}.")
    text.append("The full width stays on one face; the bevel only takes the corner off the other.")
    return StepWords("Bevel the edges", tuple(text), "A tilted blade throws a trapped offcut: let it fall free.")


def _tapers(edition: Edition, step: Step) -> StepWords:
    text = ["Taper after the joinery: you lose your square faces."]
    for item in step.items:
        for feature in features(edition, item, "taper"):
            assert feature.operation is not None
            values = feature.operation.settings
            sides = number(len(str(values["sides"]).split(", ")))
            text.append(
                f"{item.mark}, {item.name}: {sides} {'sides' if sides != 'one' else 'side'}, from "
                f"{edition.measure(mm(values, 'after'))} below the {values['from']}, to "
                f"{edition.measure(mm(values, 'to'))} at the far end. See the drawing for which."
            )
    text.append("Saw just outside the line, then plane down to it. Mirrored parts are tapered on mirrored sides.")
    return StepWords(
        "Taper", tuple(text), "Hold the part in a jig with clamps for a taper on the table saw; never guide it by hand."
    )


def _easing(edition: Edition, step: Step) -> StepWords:
    text = []
    by_words: dict[str, list[Item]] = {}
    for item in step.items:
        for feature in features(edition, item, "round over", "chamfer"):
            assert feature.operation is not None
            values = feature.operation.settings
            act = "round over" if feature.kind == "round over" else "chamfer"
            stop = stop_words(values, edition)
            words = f"{act} {arris_words(str(values['arrises']).split('; '))} {edition.measure(mm(values, 'size'))}"
            words += f", {stop}" if stop else ""
            by_words.setdefault(words, []).append(item)
    text += [f"{marks(items)}: {words}." for words, items in by_words.items()]
    text.append("Stop short of shoulders and glue faces.")
    return StepWords("Ease the arrises", tuple(text))


WORK_WRITERS: dict[str, Callable[[Edition, Step], StepWords]] = {
    "mill": _mill,
    "size": _size,
    "ends": _ends,
    "mortises": _mortises,
    "end grooves": _recesses("Groove the breadboard ends", ("end groove",), "groove"),
    "tenons": _tenons,
    "bridles": _recesses("Cut the bridles", ("bridle slot", "bridle cheek"), "cut"),
    "halvings": _recesses("Cut the halvings", ("halving",), "halving"),
    "notches": _recesses("Cut the notches", ("notch",), "notch"),
    "scribing": _scribing,
    "bevels": _bevels,
    "tapers": _tapers,
    "curves": shaping_work.curves,
    "turning": shaping_work.turning,
    "holes": holes,
    "slots": shaping_work.slots,
    "recesses": shaping_work.recesses,
    "mouldings": shaping_work.mouldings,
    "easing": _easing,
    **CASE_WRITERS,
}
