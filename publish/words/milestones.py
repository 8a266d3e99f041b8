"""What a step takes and how long one waits after it."""

from __future__ import annotations

from collections import Counter

from model.steps import Step
from publish.edition import Edition
from publish.words.fixings import fixing_name
from publish.words.loose import LOOSE_NAMES
from publish.words.names import capital, counted, item_name, listed

CLAMPED = "In the clamps as long as the glue asks for; overnight is safe."
PICTURES = (
    "In the pictures of the steps: grey is what stands already, in colour what is added; white arrows show the way it "
    "goes in, black ones clamps; hatched faces get glue. On single parts, what the step cuts is dark orange, or ringed "
    "where it is small."
)
# usual times; the makers of glue and finish say their own (common practice)
WAITS: dict[str, str] = {
    "mill": "A week or two for the boards, then overnight between the two rounds of planing.",
    "glue up": CLAMPED,
}


def parts_used(edition: Edition, step: Step) -> tuple[tuple[str, str, int], ...]:
    """Mark, name and number of the parts that join the piece in a step."""
    rows = []
    for item in step.items:
        count = sum(name in step.added for name in (*item.parts, *item.mirrored))
        if count:
            rows.append((item.mark, item_name(edition.piece, item), count))
    return tuple(rows)


def fixings_used(edition: Edition, step: Step) -> tuple[tuple[str, int], ...]:
    """Name and number of the fixings, loose pieces and things bought that a step takes."""
    count: Counter[str] = Counter()
    for fixing in step.fixings:
        count[fixing_name(edition, fixing.kind, fixing.values)] += len(fixing.points)
    for loose in (loose for joint in step.joints for loose in joint.loose):
        count[LOOSE_NAMES[loose.what](edition, loose.values)] += loose.count
    if step.kind == "supplies":
        for supply in edition.piece.design.spec.supplies:
            count[supply.item] += supply.count
    return tuple(count.items())


def used_words(edition: Edition, step: Step) -> tuple[str, ...]:
    """A line of the parts and one of the fixings that a step takes."""
    lines = []
    if parts := parts_used(edition, step):
        lines.append("Parts: " + "; ".join(f"{mark} {name} ({count})" for mark, name, count in parts))
    if fixings := fixings_used(edition, step):
        lines.append("Fixings: " + "; ".join(f"{name} ({count})" for name, count in fixings))
    return tuple(lines)


def wait(edition: Edition, step: Step) -> str:
    """How long to wait when a step is done; empty where one goes on at once."""
    if step.kind in WAITS:
        return WAITS[step.kind]
    if step.kind == "finish":
        finish = edition.piece.design.spec.finish
        coats = finish.coats if finish is not None else 1
        between = "Between coats as the maker of the finish says; " if coats > 1 else ""
        return f"{between}{'a' if between else 'A'} few days before it is used."
    if any(joint.glued and not joint.adhesive for joint in step.joints):
        return CLAMPED
    adhesives = dict.fromkeys(joint.adhesive for joint in step.joints if joint.adhesive)
    if adhesives:
        return f"Until the {listed(filter(None, adhesives))} has set, as its maker says."
    if any(fixing.values.get("plugged") is not None for fixing in step.fixings):
        return "Until the glue of the plugs is dry."
    return ""


def short_wait(edition: Edition, step: Step) -> str:
    """The same in a word or two, for the overview."""
    for own in step.own:
        if own.wait:
            return own.wait
    said = wait(edition, step)
    if step.kind == "mill":
        return "two weeks"
    if step.kind == "finish":
        return "days"
    return "overnight" if said == CLAMPED else "to set" if said else ""


def items_marked(edition: Edition, step: Step) -> str:
    """The marks of the parts a step works on; `all` where it is every part made."""
    marks = list(dict.fromkeys(item.mark for one in step.every for item in one.items))
    made = [item.mark for item in edition.piece.items if not edition.piece.parts[item.shown].spec.supplied]
    return "all" if len(made) > 1 and set(made) <= set(marks) else ", ".join(marks)


def build_in_short(edition: Edition) -> str:
    """A sentence on how long it is: steps, glue-ups that are waited for, coats."""
    glued = sum(wait(edition, step) == CLAMPED for step in edition.steps)
    finish = edition.piece.design.spec.finish
    said = [counted(len(edition.steps), "step")]
    said += [f"{counted(glued, 'glue-up')} to leave in the clamps"] if glued else []
    said += [f"{counted(finish.coats, 'coat')} of {finish.name}"] if finish is not None else []
    return capital(f"{listed(said)}. Glue up in the evening, and the waiting costs no day.")
