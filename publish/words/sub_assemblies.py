"""What a sub-assembly is called: as the design names it, else by the step that puts it together."""

from __future__ import annotations

from model.sub_assemblies import SubAssembly
from publish.edition import Edition
from publish.words.names import capital
from publish.words.stage_titles import stage_title


def sub_assembly_name(edition: Edition, group: SubAssembly) -> str:
    """`Drawer`; `Step 12: Glue up the frames of the end panels`."""
    parts = set(group.parts)
    named = next((made.kind for made in edition.piece.assemblies if set(made.parts) == parts), None)
    if named is not None:
        return capital(named)
    for number, step in enumerate(edition.steps, start=1):
        if step.stage is not None and any(set(one.parts) == parts for one in step.stage.every):
            return f"Step {number}: {stage_title(edition, step)}"
    return "Sub-assembly"
