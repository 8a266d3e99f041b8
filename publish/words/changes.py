"""What differs between two sets, in words: for the maker's screen, and for a buyer who has the earlier one."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from plans.units import System, UnitSystem, degrees
from publish.changes import Changes, PartChange, SizeChange
from publish.record import PartRecord
from publish.words.as_built import AS_BUILT
from publish.words.names import capital, counted, listed

SETS = ("before", "after")
EDITIONS: dict[System, str] = {"inch": "inch edition", "mm": "millimetre edition"}
NOTHING = "Nothing changed: the earlier set holds good."


@dataclass(frozen=True)
class Section:
    """A heading, and a line for each thing under it."""

    heading: str
    lines: tuple[str, ...]


def sections(changes: Changes) -> list[Section]:
    """Everything that differs; nothing where the two sets are the same."""
    units = changes.after.units(changes.system)
    every = (
        ("The piece", _piece(changes, units)),
        ("Parts that are new", [_part(part) for part in changes.added]),
        ("Parts that are gone", [_part(part) for part in changes.removed]),
        (
            "Parts that changed",
            [_changed(change, units) for change in changes.changed if not change.same_but_for_the_mark],
        ),
        (
            "Letters that moved",
            [f"{capital(c.after.name)}: {c.before.mark} is now {c.after.mark}" for c in changes.moved],
        ),
        ("Lumber", [_from_to(what, before, after) for what, before, after in changes.lumber]),
        ("Hardware", [_from_to(what, str(a or ""), str(b or "")) for what, a, b in changes.hardware]),
        ("Steps", _steps(changes)),
        (AS_BUILT, [*changes.notes_added, *(f"No longer said: {note}" for note in changes.notes_removed)]),
        ("Pages to print again", _again([number for number, _ in changes.reprint])),
        ("Pages that are of no use now", list(changes.gone)),
    )
    found = [Section(heading, tuple(lines)) for heading, lines in every if lines]
    return found + (_of_the_other(changes.remade, found) if changes.remade is not None else [])


def _of_the_other(changes: Changes, told: Sequence[Section]) -> list[Section]:
    """What differs in the edition in the other units, where it is not told already."""
    new = [section for section in sections(changes) if section not in told]
    return [Section(f"{section.heading}, {EDITIONS[changes.system]}", section.lines) for section in new]


def title(changes: Changes) -> str:
    """The head of the notice."""
    before, after = changes.before, changes.after
    if before.plan != after.plan:
        return f"{after.plan}: what differs from {before.plan}"
    if before.revision != after.revision:
        return f"{after.plan}: what changed from revision {before.revision} to {after.revision}"
    return f"{after.plan}: what changed"


def changes_json(changes: Changes) -> str:
    """Everything that differs as one JSON object: the sections in words, and the data they were made from."""
    data = _named(asdict(changes))
    data["said"] = {section.heading: list(section.lines) for section in sections(changes)}
    data["nothing"] = changes.nothing
    return json.dumps(data, indent=2, ensure_ascii=False)


def _named(data: dict[str, Any]) -> dict[str, Any]:
    """Changes as data, the two sets by name alone."""
    sets = {whole: {name: data[whole][name] for name in ("plan", "stem", "revision", "date")} for whole in SETS}
    return {**data, **sets, "remade": data["remade"] and _named(data["remade"])}


def kept_marks(changes: Changes) -> str:
    """The line that keeps the letters of the earlier set; nothing where none moved."""
    if not changes.moved:
        return ""
    kept: dict[str, list[str]] = {}
    for kind, letters in changes.letters:
        kept.setdefault(kind, []).append(letters)
    written = {kind: marks[0] if len(marks) == 1 else f"[{', '.join(marks)}]" for kind, marks in kept.items()}
    return f"marks: {{{', '.join(f'{kind}: {said}' for kind, said in written.items())}}}"


def in_words(changes: Changes) -> str:
    """Everything that differs, for a screen; with the line that keeps the letters where some moved."""
    found = sections(changes)
    told = [title(changes), *(f"{one.heading}\n" + "\n".join(f"  {line}" for line in one.lines) for one in found)]
    if changes.nothing:
        told.append(NOTHING)
    if kept := kept_marks(changes):
        told.append(f"To keep the letters, write in the design: {kept}")
    return "\n\n".join(told)


def _again(numbers: Sequence[int]) -> list[str]:
    """`Sheets 1, 3 to 7 and 9 of the new set`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return [f"{'Sheet' if len(numbers) == 1 else 'Sheets'} {listed(told)} of the new set"] if numbers else []


def _piece(changes: Changes, units: UnitSystem) -> list[str]:
    lines = [_size(change, units) for change in changes.overall]
    return [f"Over all, {line}" for line in lines] + [
        capital(_size(change, units).replace("_", " ")) for change in changes.values
    ]


def _part(part: PartRecord) -> str:
    return f"{part.mark}, {part.name}: {counted(part.quantity, 'part')}"


def _changed(change: PartChange, units: UnitSystem) -> str:
    told = [_size(size, units) for size in change.sizes]
    told += [f"{what} {before or 'none'}, now {after or 'none'}" for what, before, after in change.others]
    return f"{change.after.mark}, {change.after.name}: {'; '.join(dict.fromkeys(told))}"


def _size(change: SizeChange, units: UnitSystem) -> str:
    if change.before is None or change.after is None:
        value = change.after if change.before is None else change.before
        assert value is not None
        return f"{change.name} {_number(value, change, units)} {'is new' if change.before is None else 'is gone'}"
    before, after = (_number(value, change, units) for value in (change.before, change.after))
    more = _number(abs(change.after - change.before), change, units)
    way = ("longer", "shorter") if change.name.endswith("length") else ("more", "less")
    return f"{change.name} {before}, now {after} ({more} {way[0] if change.after > change.before else way[1]})"


def _number(value: float, of: SizeChange, units: UnitSystem) -> str:
    if of.unit == "angle":
        return degrees(value)
    return f"{value:g}" if of.unit == "plain" else f"{units.length(value)} {units.suffix}"


def _from_to(what: str, before: str, after: str) -> str:
    if not before:
        return f"{capital(what)}: {after}, new"
    return f"{capital(what)}: {before}, now {after}" if after else f"{capital(what)}: {before}, no longer needed"


def _steps(changes: Changes) -> list[str]:
    lines = [f"{step.title}: new" for step in changes.steps_added]
    lines += [f"{step.title}: gone" for step in changes.steps_removed]
    for before, after in changes.steps_changed:
        named = "" if before.title == after.title else f" (was: {before.title})"
        lines.append(f"{after.title}{named}: {_said(before.lines, after.lines)}")
    return lines


def _said(before: Sequence[str], after: Sequence[str]) -> str:
    new = [line for line in after if line not in before]
    gone = [line for line in before if line not in after]
    if new:
        return " ".join(new)
    return f"no longer says: {' '.join(gone)}" if gone else "in another order"
