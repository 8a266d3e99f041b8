"""What differs between two sets: parts, marks, sizes, lists, steps, and the pages to print again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from difflib import SequenceMatcher
from itertools import zip_longest
from typing import Literal

from plans.units import System
from publish.record import EditionRecord, PartRecord, SetRecord, StepRecord

OF_REVISIONS = ("history",)  # pages that tell of revisions, and differ in each
Unit = Literal["length", "angle", "plain"]
# the settings of work that are no lengths, by the last words of their names
UNITS: dict[str, Unit] = {
    **dict.fromkeys(("mitre", "tilt", "slope", "off square", "turned", "walls", "floor"), "angle"),
    **dict.fromkeys(("count", "gauge", "number", "fingers", "tails", "pins", "points", "share"), "plain"),
}
LEAST = 1e-3  # mm or degrees: less is rounding


@dataclass(frozen=True)
class SizeChange:
    """One size of a part, or setting of work on it; None where it is new, or gone. In mm, degrees, or a number."""

    name: str
    before: float | None
    after: float | None
    unit: Unit = "length"


@dataclass(frozen=True)
class PartChange:
    """One mark that is in both sets and not the same in them."""

    before: PartRecord
    after: PartRecord
    sizes: tuple[SizeChange, ...]
    others: tuple[tuple[str, str, str], ...]  # what, before, after: quantity, wood, stock, words

    @property
    def moved(self) -> bool:
        """Whether its letter is another one."""
        return self.before.mark != self.after.mark

    @property
    def same_but_for_the_mark(self) -> bool:
        """Whether it can be made from the old sheet."""
        return not self.sizes and not self.others


@dataclass(frozen=True)
class Changes:
    """All that differs, in the words of one unit system."""

    before: SetRecord
    after: SetRecord
    system: System
    values: tuple[SizeChange, ...] = ()
    overall: tuple[SizeChange, ...] = ()
    added: tuple[PartRecord, ...] = ()
    removed: tuple[PartRecord, ...] = ()
    changed: tuple[PartChange, ...] = ()
    letters: tuple[tuple[str, str], ...] = ()  # kind and earlier mark of every part that is in both, as they stand now
    hardware: tuple[tuple[str, int, int], ...] = ()
    lumber: tuple[tuple[str, str, str], ...] = ()
    steps_added: tuple[StepRecord, ...] = ()
    steps_removed: tuple[StepRecord, ...] = ()
    steps_changed: tuple[tuple[StepRecord, StepRecord], ...] = ()
    reprint: tuple[tuple[int, str], ...] = ()  # number and title of pages of the new set
    gone: tuple[str, ...] = field(default=())  # titles of pages that are no longer there
    notes_added: tuple[str, ...] = ()  # on the piece that was built
    notes_removed: tuple[str, ...] = ()
    remade: Changes | None = None  # of the edition in the other units, where that shows a piece of its own

    @property
    def moved(self) -> tuple[PartChange, ...]:
        """Parts whose letter is another one."""
        return tuple(change for change in self.changed if change.moved)

    @property
    def nothing(self) -> bool:
        """Whether an earlier buyer has all there is."""
        parts = (*self.added, *self.removed, *self.changed, *self.overall, *self.values)
        lists = (*self.hardware, *self.lumber, *self.steps_added, *self.steps_removed, *self.steps_changed)
        notes = (*self.notes_added, *self.notes_removed)
        told = parts or lists or notes or self.reprint or self.gone
        return not told and (self.remade is None or self.remade.nothing)


def compare(before: SetRecord, after: SetRecord, system: System | None = None) -> Changes:
    """The changes from one set to the other, in a unit system that both have.

    Where one of them is re-made in the other units, those of that piece as well.
    """
    both = _systems(before, after, system)
    own, *others = (_compared(before.shown_in(name), after.shown_in(name), name) for name in both)
    two = before.remade is not None or after.remade is not None
    return replace(own, remade=others[0]) if others and two else own


def _compared(before: SetRecord, after: SetRecord, system: System) -> Changes:
    old, new = _edition(before, system), _edition(after, system)
    pairs, removed, added = _matched(before.parts, after.parts)
    changed = [_changed(a, b) for a, b in pairs]
    axes = ("width", "depth", "height")
    sizes = zip(axes, before.overall, after.overall, strict=True)
    steps_removed, steps_added, steps_changed = _steps(old.steps, new.steps)
    return Changes(
        before,
        after,
        new.system,
        (
            *_named(before.lengths, after.lengths, "length"),
            *_named(before.angles, after.angles, "angle"),
            *_named(before.counts, after.counts, "plain"),
        ),
        tuple(SizeChange(name, a, b) for name, a, b in sizes if abs(a - b) > LEAST),
        added,
        removed,
        tuple(one for one in changed if one.moved or not one.same_but_for_the_mark),
        tuple((one.after.kind, one.before.mark) for one in changed),
        tuple(
            (what, old.hardware.get(what, 0), new.hardware.get(what, 0))
            for what in dict.fromkeys((*old.hardware, *new.hardware))
            if old.hardware.get(what, 0) != new.hardware.get(what, 0)
        ),
        tuple(
            (what, old.lumber.get(what, ""), new.lumber.get(what, ""))
            for what in dict.fromkeys((*old.lumber, *new.lumber))
            if old.lumber.get(what) != new.lumber.get(what)
        ),
        steps_added,
        steps_removed,
        steps_changed,
        *_pages(old, new),
        tuple(note for note in new.as_built if note not in old.as_built),
        tuple(note for note in old.as_built if note not in new.as_built),
    )


def _systems(before: SetRecord, after: SetRecord, system: System | None) -> list[System]:
    """The unit systems that both have, the one to tell the changes in first; ValueError where there is none."""
    wanted: tuple[System | None, ...] = (system, after.system, before.system, "inch", "mm")
    both = [name for name in dict.fromkeys(wanted) if name is not None and name in before.systems & after.systems]
    if not both:
        raise ValueError("no unit system in common")
    return both


def _edition(one: SetRecord, system: System) -> EditionRecord:
    return next(edition for edition in one.editions if edition.system == system)


def _matched(
    olds: tuple[PartRecord, ...], news: tuple[PartRecord, ...]
) -> tuple[list[tuple[PartRecord, PartRecord]], tuple[PartRecord, ...], tuple[PartRecord, ...]]:
    """Marks of the two sets that share parts by name, the most shared first; then those left of either."""
    shared = [(len(set(a.parts) & set(b.parts)), -i, -j) for i, a in enumerate(olds) for j, b in enumerate(news)]
    left_old, left_new = dict(enumerate(olds)), dict(enumerate(news))
    pairs: dict[int, PartRecord] = {}
    for count, i, j in sorted(shared, reverse=True):
        if count and -i in left_old and -j in left_new:
            pairs[-j] = left_old.pop(-i)
            del left_new[-j]
    return [(pairs[j], news[j]) for j in sorted(pairs)], tuple(left_old.values()), tuple(left_new.values())


def _changed(before: PartRecord, after: PartRecord) -> PartChange:
    others = [
        (what, str(a), str(b))
        for what, a, b in (
            ("quantity", before.quantity, after.quantity),
            ("mirrored", before.mirrored, after.mirrored),
            ("made of", before.made_of, after.made_of),
            ("stock", before.stock, after.stock),
        )
        if a != b
    ]
    for name in dict.fromkeys((*before.words, *after.words)):
        a_words, b_words = before.words.get(name, ()), after.words.get(name, ())
        if a_words != b_words:
            others.append((name, ", ".join(a_words), ", ".join(b_words)))
    sizes = [
        change
        for name in dict.fromkeys((*before.sizes, *after.sizes))
        for change in _values(name, before.sizes.get(name, ()), after.sizes.get(name, ()))
    ]
    return PartChange(before, after, tuple(sizes), tuple(others))


def _values(name: str, before: tuple[float, ...], after: tuple[float, ...]) -> list[SizeChange]:
    """Sizes of one name: those of both sets set against each other; what is new or gone by itself."""
    old, new = _less(before, after), _less(after, before)
    unit: Unit = next((unit for last, unit in UNITS.items() if name.endswith(f" {last}")), "length")
    both = zip_longest(old, new)
    return [SizeChange(name, a, b, unit) for a, b in both]


def _less(values: tuple[float, ...], others: tuple[float, ...]) -> list[float]:
    """The values without those that have an equal among the others, in order."""
    left = list(others)
    kept = []
    for value in values:
        equal = next((other for other in left if abs(other - value) <= LEAST), None)
        if equal is None:
            kept.append(value)
        else:
            left.remove(equal)
    return kept


def _named(before: dict[str, float], after: dict[str, float], unit: Unit) -> tuple[SizeChange, ...]:
    return tuple(
        SizeChange(name, before.get(name), after.get(name), unit)
        for name in dict.fromkeys((*before, *after))
        if before.get(name) != after.get(name)
    )


def _steps(
    old: tuple[StepRecord, ...], new: tuple[StepRecord, ...]
) -> tuple[tuple[StepRecord, ...], tuple[StepRecord, ...], tuple[tuple[StepRecord, StepRecord], ...]]:
    """Steps that went, came, or say something else; steps that only have another number are the same."""
    gone, come = list(_without(old, new)), list(_without(new, old))
    changed = []
    for step in list(gone):
        twin = next((other for other in come if other.title == step.title), None) or _nearest(step, come)
        if twin is not None:
            changed.append((step, twin))
            gone.remove(step)
            come.remove(twin)
    return tuple(gone), tuple(come), tuple(changed)


def _without(steps: Iterable[StepRecord], others: Iterable[StepRecord]) -> Iterable[StepRecord]:
    left = Counter(others)
    for step in steps:
        if left[step]:
            left[step] -= 1
        else:
            yield step


def _nearest(step: StepRecord, others: list[StepRecord]) -> StepRecord | None:
    """The step whose words are most like its own, where they are much like them."""
    alike = [(SequenceMatcher(None, "\n".join(step.lines), "\n".join(o.lines)).ratio(), o) for o in others]
    best = max(alike, key=lambda one: one[0], default=(0.0, None))
    return best[1] if best[0] > 0.6 else None


def _pages(old: EditionRecord, new: EditionRecord) -> tuple[tuple[tuple[int, str], ...], tuple[str, ...]]:
    """Pages of the new set that nobody has yet, and those of the old that are of no use now."""
    had = {sheet.digest for sheet in old.sheets}
    reprint = tuple(
        (sheet.number, sheet.title) for sheet in new.sheets if sheet.digest not in had and sheet.key not in OF_REVISIONS
    )
    keys = {sheet.key for sheet in new.sheets}
    return reprint, tuple(sheet.title for sheet in old.sheets if sheet.key not in keys)
