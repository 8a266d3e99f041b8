"""What a sub-assembly is called: as the design names it, else by the step that puts it together."""

from __future__ import annotations

from model.sub_assemblies import SubAssembly
from publish.edition import Edition
from publish.words.names import capital


def sub_assembly_name(edition: Edition, group: SubAssembly) -> str:
    """`Drawer`; `Assembly of step 12`, as the steps themselves call it."""
    parts = set(group.parts)
    named = next((made.kind for made in edition.piece.assemblies if set(made.parts) == parts), None)
    if named is not None:
        return capital(named)
    for number, step in enumerate(edition.steps, start=1):
        made = [set(one.parts) for one in step.stage.every] if step.stage is not None else []
        if parts in made:
            # a step may make several that are not quite alike, each shown by itself
            which = f", {made.index(parts) + 1} of {len(made)}" if len(group.copies) < len(made) else ""
            return f"Assembly of step {number}{which}"
    return "Sub-assembly"
