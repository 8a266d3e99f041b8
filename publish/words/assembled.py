"""How the things of an assembly step are called: new parts by mark, what was made before by the step that made it."""

from __future__ import annotations

from collections import Counter

from model.piece import AssemblyMade
from model.steps import Step
from publish.edition import Edition
from publish.words.names import listed, number, plural


def said_of(edition: Edition, step: Step, names: list[str]) -> str:
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
    whole = _all_but_all(edition, step, set(names))
    if whole is not None:
        at, parts = whole
        return [*_made_before(edition, step, sorted(set(names) - parts)), f"the assembly of step {at}"]
    said, left = _named_before(edition, step, set(names))
    found: Counter[int] = Counter()
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        for single in earlier.every if earlier is not None else ():
            if left and set(single.parts) <= left:
                left -= set(single.parts)
                found[at + 1] += 1
    return said + [f"the {_what_was_made(edition, at, many)} of step {at}" for at, many in found.items()]


def _all_but_all(edition: Edition, step: Step, names: set[str]) -> tuple[int, set[str]] | None:
    """The latest step that made most of them, of several things that have names of their own; and what it made."""
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        made = set(earlier.parts) if earlier is not None and earlier.times == 1 else set()
        if made <= names and 2 * len(made) > len(names) and sum(set(a.parts) <= made for a in edition.piece.assemblies):
            if any(set(a.parts) == made for a in edition.piece.assemblies):
                return None
            return at + 1, made
    return None


def _what_was_made(edition: Edition, at: int, many: int) -> str:
    """What a step made, for which the design has no name: a row of boards by what is in it."""
    stage = edition.steps[at - 1].stage
    kinds = {edition.piece.parts[name].kind for name in (stage.parts if stage is not None else ())}
    if many == 1 and len(kinds) == 1:
        return plural(kinds.pop())
    return "assembly" if many == 1 else f"{number(many)} frames"


def _named_before(edition: Edition, step: Step, names: set[str]) -> tuple[list[str], set[str]]:
    """Assemblies that have a name, those of a kind together, with the step that made them; and the parts left over."""
    counted_by: Counter[tuple[str, int]] = Counter()
    left = set(names)
    for made in edition.piece.assemblies:
        at = _made_at(edition, step, made)
        if at and set(made.parts) <= left and set(made.parts) != set(edition.piece.parts):
            left -= set(made.parts)
            counted_by[made.kind, at] += 1
    said = [
        f"the {kind if many == 1 else f'{number(many)} {plural(kind)}'} of step {at}"
        for (kind, at), many in counted_by.items()
    ]
    return said, left


def _made_at(edition: Edition, step: Step, made: AssemblyMade) -> int:
    """The number of the step before this one that completed an assembly; 0 where there is none."""
    for at in range(edition.steps.index(step) - 1, -1, -1):
        earlier = edition.steps[at].stage
        if earlier is not None and any(set(single.parts) == set(made.parts) for single in earlier.every):
            return at + 1
    return 0
