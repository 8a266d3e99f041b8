"""A part made from its sheet: every callout read, its work done in the order of the bench."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from manifold3d import Manifold
from rebuilding.part import NotTold, Said, Work
from rebuilding.places import COUNT
from rebuilding.records import SheetRecords, Target
from rebuilding.works import RUN, WORKS, shoulders


@dataclass(frozen=True)
class Made:
    """What was made of a sheet, and what could not be, with the reason."""

    solid: Manifold
    not_made: tuple[tuple[str, str], ...]


def make(sheet: SheetRecords, unit: Fraction, step: float) -> Made:
    """The part as its sheet has it."""
    work = Work(sheet, unit, step)
    missed: list[tuple[str, str]] = []
    jobs = []
    for callout in sheet.callouts:
        lines = (COUNT.sub("", callout.lines[0]), *callout.lines[1:])
        by_feature: dict[int, list[Target]] = {}
        for target in callout.targets:
            by_feature.setdefault(target.feature, []).append(target)
        found = next(((stage, do) for pattern, stage, do in WORKS if re.search(pattern, lines[0])), None)
        if found is None:
            missed.append((lines[0], "no such work is known"))
            continue
        jobs += [(found[0], found[1], feature, Said(lines, tuple(targets))) for feature, targets in by_feature.items()]
    jobs.sort(key=lambda job: job[0])
    sawn = False
    for stage, do, feature, said in jobs:
        if stage >= RUN and not sawn:
            shoulders(work)
            sawn = True
        try:
            do(work, feature, said)
        except NotTold as reason:
            missed.append((said.lines[0], str(reason)))
    if not sawn:
        shoulders(work)
    for tool in work.later:
        work.solid -= tool
    return Made(work.solid, tuple(missed))
