"""Set-ups as the shop says them: what is set, to what, for which parts, and where a test piece is worth its wood."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from model.piece import Value
from model.set_ups import SetUp, set_ups
from plans.units import degrees
from publish.edition import Edition
from publish.words.spelling import spelt

Say = Callable[[Edition, Value], str]
Then = Callable[[Edition, tuple[Value, ...]], str]


@dataclass(frozen=True)
class Machine:
    """One kind of setting: its heading, the words of its first value and of those after it, advice on a test piece."""

    title: str
    first: Say
    then: Then | None = None
    test: str = ""


@dataclass(frozen=True)
class Set:
    """One setting as printed: the parts it serves, those that need the same second setting together."""

    machine: Machine
    first: str
    serves: tuple[str, ...]


def _mm(value: Value) -> float:
    assert isinstance(value, int | float)
    return float(value)


def _length(edition: Edition, value: Value) -> str:
    return edition.measure(_mm(value))


def _drill(edition: Edition, value: Value) -> str:
    return f"{edition.drill(_mm(value))} {edition.units.suffix}"


def _word(edition: Edition, value: Value) -> str:
    return str(value)


def _tilt(edition: Edition, value: Value) -> str:
    return f"tilted {degrees(_mm(value))}" if _mm(value) else "upright"


def _end(edition: Edition, then: tuple[Value, ...]) -> str:
    """The mitre gauge and the length, or that a long edge is ripped."""
    gauge, length = then
    if gauge == "edge":
        return "along the edge"
    at = f"mitre gauge {degrees(_mm(gauge))}" if _mm(gauge) else "mitre gauge square"
    return f"{at}, {edition.measure(_mm(length))} to the long point"


def _taper(edition: Edition, then: tuple[Value, ...]) -> str:
    run, after, start = then
    return f"over {edition.measure(_mm(run))}, beginning {edition.measure(_mm(after))} from the {start}"


def _deep(edition: Edition, then: tuple[Value, ...]) -> str:
    (deep,) = then
    return "right through" if deep is None else f"{edition.measure(_mm(deep))} deep"


def _bored(edition: Edition, then: tuple[Value, ...]) -> str:
    (deep,) = then
    return "right through" if deep is None else f"{edition.drill(_mm(deep))} {edition.units.suffix} deep"


def _long(edition: Edition, then: tuple[Value, ...]) -> str:
    (long,) = then
    return f"{edition.measure(_mm(long))} long"


def _step(edition: Edition, then: tuple[Value, ...]) -> str:
    (step,) = then
    return f"with a step of {edition.measure(_mm(step))}"


def _bed(edition: Edition, then: tuple[Value, ...]) -> str:
    wide, long = then
    return f"{edition.number(_mm(wide))} × {edition.measure(_mm(long))}"


# in the order of the shop
MACHINES: dict[str, Machine] = {
    "plane": Machine("Planer: thickness", _length),
    "rip": Machine("Rip fence: width", _length),
    "crosscut": Machine("Crosscut stop: length", _length),
    "tilt": Machine(
        "Saw blade: angled ends and edges",
        _tilt,
        _end,
        "Cut scrap and hold it to a bevel gauge set from the drawing. At 45°, two pieces together must make a square.",
    ),
    "taper": Machine(
        "Taper jig: wood that comes off at the far end",
        _length,
        _taper,
        "Try the jig on a blank of softwood and measure both ends.",
    ),
    "mortise": Machine("Mortises: bit or chisel", _length, _deep, "Cut one in scrap to set the depth."),
    "tenon": Machine(
        "Tenons: thickness left",
        _length,
        _long,
        "Cut one on the end of scrap planed with the parts, and fit it in a finished mortise.",
    ),
    "trench": Machine(
        "Notches, halvings and bridles: height of the cutter",
        _length,
        _long,
        "Cut one across scrap and lay the other part in it: the faces must meet.",
    ),
    "groove": Machine(
        "Grooves, housings and rabbets: width of the cutter",
        _length,
        _deep,
        "Cut one in scrap and try the part that goes in.",
    ),
    "tongue": Machine(
        "Tongues: thickness left", _length, _long, "Cut one on scrap and try it in the groove it goes into."
    ),
    "dovetail": Machine("Dovetails: bevel gauge or cutter", _word, _deep, "Cut one corner in scrap before the first."),
    "fingers": Machine(
        "Finger jig: width of a finger", _length, _long, "Cut one corner in scrap: it must close by hand."
    ),
    "biscuit": Machine(
        "Biscuit joiner: size of biscuit",
        _word,
        _bored,
        "Draw along the face on a biscuit in scrap; turned round, it must go in just past that line.",
    ),
    "recess": Machine(
        "Recesses: depth of the cutter", _drill, _bed, "Cut one in scrap and lay the hardware or the part in it."
    ),
    "bore": Machine(
        "Drill: diameter, with a depth stop",
        _drill,
        _bored,
        "Try the bit for every dowel, peg, pin and screw in scrap of the same wood.",
    ),
    "countersink": Machine("Countersink: width of the mouth", _drill, None, "Set the stop with a screw of that size."),
    "slot": Machine("Slots: width of the cutter", _length, _long),
    "arc": Machine("Trammel or template: radius", _length),
    "cove": Machine("Cove bit: radius", _length, None, "Set the height on scrap."),
    "thumbnail": Machine("Thumbnail bit: radius", _length, _step, "Set the height on scrap."),
    "round over": Machine("Round-over bit: radius", _length, None, "Set the height on scrap: no step should show."),
    "chamfer": Machine("Chamfer bit: width of the chamfer", _length),
}


def gathered(edition: Edition) -> dict[str, list[Set]]:
    """Settings by kind, in the order of the shop; what is printed alike is one setting. Each ends in its marks.

    A number in brackets is how many cuts or places there are in all, where that is not one a part.
    """
    by_kind: dict[str, dict[str, dict[str, dict[str, int]]]] = {kind: {} for kind in MACHINES}
    needs: dict[str, int] = {}
    for one in sorted(set_ups(edition.piece), key=_in_order):
        setting, machine = one.setting, MACHINES[one.setting.kind]
        first = machine.first(edition, setting.first)
        then = spelt(edition, machine.then(edition, setting.then)) if machine.then else ""
        marks = by_kind[setting.kind].setdefault(first, {}).setdefault(then, {})
        marks[one.mark] = marks.get(one.mark, 0) + one.cuts
        needs[one.mark] = one.item.quantity
    return {
        kind: [
            Set(_spelt(edition, kind), first, tuple(_serves(then, marks, needs) for then, marks in thens.items()))
            for first, thens in firsts.items()
        ]
        for kind, firsts in by_kind.items()
        if firsts
    }


def _spelt(edition: Edition, kind: str) -> Machine:
    machine = MACHINES[kind]
    return replace(machine, title=spelt(edition, machine.title), test=spelt(edition, machine.test))


def _in_order(one: SetUp) -> tuple[str, float, str, float]:
    """Largest setting first, then the largest of what is set after it."""
    first, then = one.setting.first, next(iter(one.setting.then), None)
    sizes = [-float(value) if isinstance(value, int | float) else 0.0 for value in (first, then)]
    return one.setting.kind, sizes[0], str(first), sizes[1]


def _serves(then: str, marks: dict[str, int], needs: dict[str, int]) -> str:
    said = ", ".join(
        mark if cuts == needs[mark] else f"{mark} ({cuts})" for mark, cuts in sorted(marks.items(), key=_by_mark)
    )
    return f"{then}: {said}" if then else said


def _by_mark(served: tuple[str, int]) -> tuple[int, str]:
    mark = served[0].rstrip("0123456789")
    return len(mark), served[0]
