"""What to do about a finding: the groups of the report, and its sentences."""

from __future__ import annotations

from collections.abc import Iterable

from plans.problems import Problem

# what to do, and the codes it is done about; in the order of the bench
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Make room, or close gaps",
        (
            "same-place",
            "nearly-touching",
            "nearly-flush",
            "gap-not-kept",
            "blocked-opening",
            "gap-narrows",
            "part-not-held",
            "unsound-solid",
        ),
    ),
    (
        "Change a joint",
        (
            "glue-faces-apart",
            "thin-wall",
            "mortises-meet",
            "short-grain",
            "weak-notch",
            "tenon-short",
            "tenon-bottoms",
            "narrow-shoulder",
            "thin-tenon",
            "loose-joint",
            "little-glue",
            "end-grain-glue",
        ),
    ),
    (
        "Choose other fixings, or other places for them",
        (
            "screw-meets-part",
            "screws-cross",
            "screw-comes-out",
            "screw-holds-little",
            "screw-near-edge",
            "screw-in-end-grain",
            "little-under-head",
            "little-beside-head",
            "fixing-in-the-way",
        ),
    ),
    (
        "Let the wood move",
        (
            "gap-closes",
            "panel-binds",
            "panel-comes-out",
            "slot-too-short",
            "cross-grain-glue",
            "cross-grain-screws",
            "notch-binds",
        ),
    ),
    (
        "Look at the boards to be had",
        ("stock-too-thin", "needs-glue-up", "board-too-long", "rings-hard-to-get", "small-part"),
    ),
    ("Plan the assembly", ("locked-parts", "two-ways-in", "caul-needed", "order-as-written")),
    ("Make it stronger, or stand safer", ("sags", "tips-over", "heavy-part", "may-rack")),
    ("Look at your own words in the steps", ("step-not-found", "steps-lock", "step-disagrees")),
    ("Look at what you measured", ("measured-not-found", "not-as-built")),
    ("Print finer", ("printed-numbers",)),
    ("Judge for yourself", ("not-judged",)),
)
FILE = "Correct the design file"
ORDER = ("error", "warning", "note")
NOT_JUDGED = (
    "Loads that the design does not state, and parts without two supports that a joint or a fixing shows.",
    "Whether parts were meant to be flush where the design does not place one by the other.",
    "Knots, sloping grain, defects and the skill of the joints: straight, sound wood and close joints are assumed.",
    "Supplied things that are bought and not drawn, and what hangs on a wall: its fixings, and the wall.",
    "Gaps round doors, lids and drawers anywhere but shut (that they open is tried); the swing of figure-eight discs.",
    "Screws in face, and glue, under loads over years; no standard of strength is claimed to be met.",
)
ESTIMATE = (
    "Sag, standing and movement are rule-of-thumb estimates from published figures for straight, dry wood. They do "
    "not replace local rules, the tests that furniture for sale may have to pass, or qualified practice."
)


def group_of(code: str) -> str:
    """What to do about a code."""
    return next((name for name, codes in GROUPS if code in codes), FILE)


def grouped(problems: Iterable[Problem]) -> list[tuple[str, list[Problem]]]:
    """The findings by what to do; groups and findings with the worst first."""
    names = [FILE, *(name for name, _ in GROUPS)]
    groups: dict[str, list[Problem]] = {}
    for problem in problems:
        groups.setdefault(group_of(problem.code), []).append(problem)
    for found in groups.values():
        found.sort(key=lambda problem: ORDER.index(problem.severity))
    worst = {name: ORDER.index(found[0].severity) for name, found in groups.items()}
    return [(name, groups[name]) for name in sorted(groups, key=lambda name: (worst[name], names.index(name)))]


def tally(problems: Iterable[Problem]) -> str:
    """How many of each: `1 error, 2 warnings`."""
    every = list(problems)
    counts = [(word, sum(problem.severity == word for problem in every)) for word in ORDER]
    return ", ".join(f"{n} {word}{'' if n == 1 else 's'}" for word, n in counts if n) or "nothing found"


def verdict(problems: Iterable[Problem]) -> str:
    """What the last line of a check without errors says."""
    loud = [problem for problem in problems if problem.severity != "note"]
    return f"it can be built, with {tally(loud)}" if loud else "all fits"
