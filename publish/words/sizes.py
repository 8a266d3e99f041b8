"""Words of the table of sizes."""

from __future__ import annotations

from collections.abc import Sequence

from model.sizes import SizeMade
from plans.design import Design
from plans.units import degrees
from publish.edition import Edition
from publish.words.names import capital, listed, plural

AS_DRAWN = "as designed"


def name_of(made: SizeMade, drawn: Design) -> str:
    """What a row is called; the size this set is for says so."""
    name = capital(made.name or AS_DRAWN)
    return f"{name} (this set)" if made.design is drawn else name


def changed(sizes: Sequence[SizeMade]) -> list[str]:
    """The named values that are not the same in all sizes, in the order written."""
    every = [_values(made.design) for made in sizes]
    return [name for name in every[0] if len({values.get(name) for values in every}) > 1]


def value_of(edition: Edition, made: SizeMade, name: str) -> str:
    """A named value of one size, as it is printed."""
    spec = made.design.spec
    if name in spec.lengths:
        return edition.number(spec.lengths[name])
    if name in spec.angles:
        return degrees(spec.angles[name])
    return f"{spec.counts[name]:g}"


def about(edition: Edition) -> list[str]:
    """What the table does not show: parts that a size does without, and what this set holds."""
    every = dict.fromkeys(kind for made in edition.sizes for kind in made.design.parts)
    told = []
    for made in edition.sizes:
        missing = [kind for kind in every if kind not in made.design.parts]
        if missing:
            told.append(f"{capital(made.name or AS_DRAWN)}: without the {listed(_several(edition, missing))}.")
    told.append("Every other page of this set is for the one size named as its own; the others have sets of theirs.")
    return told


def _several(edition: Edition, kinds: Sequence[str]) -> list[str]:
    """Kinds of part, as many of them as there are."""
    return [plural(kind) if max(made.count(kind) for made in edition.sizes) > 1 else kind for kind in kinds]


def _values(design: Design) -> dict[str, float]:
    spec = design.spec
    return {**spec.lengths, **spec.angles, **spec.counts}
