"""What is said of a distinct joint beside its pictures: its trade name, where it is made, its sizes, what it takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable

from model.joints_alike import AlikeJoints
from model.piece import Feature, Value
from publish.drawing.scales import Scale
from publish.edition import Edition
from publish.words.callouts import said
from publish.words.loose import LOOSE_NAMES
from publish.words.names import capital, in_figures, listed
from publish.words.spelling import spelt

JOINT_NAMES: dict[str, str] = {
    "mortise and tenon": "mortise and tenon",
    "bridle": "bridle joint",
    "cross halving": "cross halving",
    "notch over": "notch",
    "glued face": "glued joint",
    "housing": "housing joint",
    "rabbet": "rabbet joint",
    "tongue and groove": "tongue and groove",
    "grooved panel": "panel in a groove",
    "box joint": "box joint",
    "dovetail": "dovetail",
    "sliding dovetail": "sliding dovetail",
    "mitre": "mitre",
    "loose tenon": "loose tenon",
    "dowel": "dowel joint",
    "biscuit": "biscuit joint",
    "breadboard end": "breadboard end",
    "scribe": "scribed joint",
}


def _cut(alike: AlikeJoints, what: str) -> list[dict[str, Value]]:
    every = (*alike.of, *alike.into)
    return [callout.values for feature in every for callout in feature.callouts if callout.what == what]


def _takes(*pieces: str) -> Callable[[AlikeJoints], bool]:
    return lambda alike: any(loose.what in pieces for joint in alike.joints for loose in joint.loose)


# what the trade puts before the name, in this order, and when
FORMS: tuple[tuple[str, Callable[[AlikeJoints], bool]], ...] = (
    ("wedged", _takes("wedge")),
    ("pegged", _takes("peg")),
    ("splined", _takes("spline")),
    ("keyed", _takes("key")),
    ("twin", lambda alike: len(_cut(alike, "tenon")) > 1),
    ("haunched", lambda alike: any("haunch" in values for values in _cut(alike, "tenon"))),
    ("through", lambda alike: any(values["deep"] is None for values in _cut(alike, "mortise"))),
    ("lapped", lambda alike: any(bool(values["lap"]) for values in _cut(alike, "pins"))),
    ("through", lambda alike: any(not values["lap"] for values in _cut(alike, "pins"))),
)


def joint_title(edition: Edition, alike: AlikeJoints) -> str:
    """`Haunched mortise and tenon`."""
    forms = [word for word, holds in FORMS if holds(alike)]
    return spelt(edition, capital(" ".join([*forms, JOINT_NAMES[alike.shown.kind]])))


def section_caption(scale: Scale) -> str:
    """`SECTION (1 : 2)`, as a detail is called."""
    return f"SECTION ({scale.name})"


def joint_places(alike: AlikeJoints) -> str:
    """`B, C and F into A, E into B: 12 joints`, by the marks of the parts."""
    into: dict[str, list[str]] = {}
    for of, taker in alike.pairs:
        into.setdefault(taker, []).append(of)
    joined: dict[tuple[str, ...], list[str]] = {}
    for taker, those in into.items():
        joined.setdefault(tuple(those), []).append(taker)
    places = ", ".join(f"{listed(those)} into {listed(takers)}" for those, takers in joined.items())
    return f"{places}: {in_figures(len(alike.joints), 'joint')}"


def joint_sizes(edition: Edition, alike: AlikeJoints) -> list[tuple[str, str]]:
    """What is cut on each member, as its own sheet says it: the member's mark and the words."""
    of, into = alike.pairs[0]
    cut = [(of, line) for line in _lines(edition, alike.of)]
    return cut + [(into, line) for line in _lines(edition, alike.into)]


def _lines(edition: Edition, features: Iterable[Feature]) -> list[str]:
    counts: Counter[str] = Counter()
    for feature in features:
        for callout in feature.callouts:
            words = said(callout.what, callout.values, edition)
            if words is not None:
                head, *rest = words.lines
                counts[f"{head}: {', '.join(rest)}" if rest else head] += words.each
    return [f"{count}× {line}" if count > 1 else line for line, count in counts.items()]


def joint_closing(edition: Edition, alike: AlikeJoints) -> str:
    """Whether it is glued, and the loose pieces that each one takes."""
    joint = alike.shown
    glue = "Glued" if joint.glued else "Not glued"
    with_what = f" with {joint.adhesive}" if joint.adhesive else ""
    taken: Counter[str] = Counter()
    for loose in joint.loose:
        taken[LOOSE_NAMES[loose.what](edition, loose.values)] += loose.count
    takes = "; ".join(f"{name} ({count})" if count > 1 else name for name, count in taken.items())
    return f"{glue}{with_what}." + (f" Each takes: {takes}." if takes else "")
