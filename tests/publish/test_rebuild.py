"""A part made again from nothing but what its sheet says comes out the same, to the printed step.

The maker (`rebuilding/`) gets printed numbers, printed words and the order of the lines, never a coordinate, and works
with other solids than the model does. What it cannot make is a fault of the sheet, or stands here with its reason.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from manifold3d import Manifold
from rebuilding.bench import make
from rebuilding.laying_over import a_ball_fits, furthest_apart, middle_of
from rebuilding.part import NotTold, cylinder
from rebuilding.places import COUNT, places, size_of
from rebuilding.records import SheetRecords, records
from trials import edition_of

from model.piece import Item, Part
from plans.sides import AXIS_NUMBER, SIDE_AXIS, SIDE_SIGN
from plans.units import UNIT_MM
from publish.edition import Edition
from publish.version import Version

FACETS = 0.05  # mm, of round walls
ABOUT = 8.0  # mm left out round a hole that another part sets out

# told by the sheet of another part, or on the bench: each is left out of the comparison
ELSEWHERE = {"bored through another part"}
# not made again: a reason each
LEFT = {
    "marked from the tails": "pins are marked with the knife from the tails of their mate",
    "scribed to its neighbour": "an end is fitted to its neighbour, not to a number",
    "a batten is bent through points": "a fair curve is what a batten makes of its points",
    "turned to a template": "diameters are cut to a full-size template",
    "sawn when the corner is glued": "it is sawn into two parts at once",
    "a slot across a mitre": "not made here yet",
    "a moulding": "not made here yet",
    "walls that lean are not cut here yet": "a notch over a part that leans two ways",
}
# how many parts of each plan are not made again
COUNTS = {
    "Blanket chest": 4,
    "Hook rail": 0,
    "Night table": 3,
    "Open bookcase": 2,
    "Porch bench": 0,
    "Step stool": 2,
    "Trestle table": 0,
}


def by_its_sheet(edition: Edition, item: Item) -> tuple[SheetRecords, Manifold, set[str]]:
    """The records of a part, what is made of them, and the reasons for what is not."""
    sheet = records(edition, item)
    made = make(sheet, UNIT_MM[edition.units.name], float(edition.units.step_mm))
    return sheet, made.solid, {reason for _, reason in made.not_made}


def without_pilots(part: Part, solid: Manifold, middle: list[float]) -> Manifold:
    """A solid about its middle, less the places where holes are bored through another part."""
    for feature in (feature for feature in part.features if feature.kind == "pilot hole"):
        for callout in feature.callouts:
            axis, sign = AXIS_NUMBER[SIDE_AXIS[callout.face]], SIDE_SIGN[callout.face]
            deep, across = callout.values["deep"], callout.values["diameter"]
            assert isinstance(deep, float) and isinstance(across, float)
            for point in (callout.point, *callout.row):
                at = [p - m for p, m in zip(point, middle, strict=True)]
                start, end = at[axis] + sign * ABOUT, at[axis] - sign * (deep + ABOUT)
                solid -= cylinder(axis, at, start, end, across / 2 + ABOUT)
    return solid


def agree(edition: Edition, part: Part, made: Manifold) -> bool:
    """Whether no face is off by more than a printed step; a corner of three such faces is off by the root of three."""
    allowed = math.sqrt(3) * float(edition.units.step_mm) + FACETS
    true = part.own_mesh.manifold
    middle = middle_of(true)
    ours, theirs = (
        without_pilots(part, solid.translate([-at for at in middle_of(solid)]), middle) for solid in (true, made)
    )
    apart, _ = furthest_apart(ours, theirs)
    return apart <= allowed or not a_ball_fits(ours, theirs, allowed)


def test_parts_made_from_their_sheets_are_the_same(edition: Edition) -> None:
    """Held with the count of those that are not made again, so that none drops out unseen."""
    left = 0
    for item in edition.piece.items:
        _, made, reasons = by_its_sheet(edition, item)
        assert reasons <= set(LEFT) | ELSEWHERE, (item.name, reasons)
        if reasons & set(LEFT):
            left += 1
            continue
        assert agree(edition, edition.piece.parts[item.shown], made), item.name
    assert left == COUNTS[edition.piece.design.spec.plan]


# what is measured about its middle, and the far corner of an end that leans: both follow, and no dimension joins them
FOLLOWS = ("slot", "hand hold")


def not_joined(edition: Edition, item: Item, sheet: SheetRecords) -> list[str]:
    """Lines that no chain of dimensions joins to the overall size, and chains that do not close."""
    of = {
        (span.axis, rank): span.name
        for dimension in sheet.dimensions
        for span in dimension.spans
        for rank in (span.start, span.end)
    }
    leans = any("END at an angle" in callout.lines[0] for callout in sheet.callouts)
    found = []
    for one in places(sheet, UNIT_MM[edition.units.name])[1]:
        if "closes" not in one:
            axis, rank = (int(word) for word in one.replace(":", "").split() if word.isdigit())
            if of[axis, rank].startswith(FOLLOWS) or (leans and axis == sheet.runs):
                continue
        found.append(one)
    return found


def test_every_line_is_joined_to_the_overall_size(edition: Edition) -> None:
    """The dimensions of a part reach every line they run from, along each axis.

    Where they close a ring, walked either way a line is at one place: the printed numbers add up.
    """
    for item in edition.piece.items:
        assert not_joined(edition, item, records(edition, item)) == [], item.name


SLIGHT = "taper begins"  # where a slope of a few degrees begins moves its face by a twentieth of that


@pytest.mark.parametrize("said", ["MORTISE", "TENON"])
def test_a_number_misprinted_by_three_steps_shows(bench_versions: list[Version], said: str) -> None:
    """The comparison can fail: each size but the overall ones of a leg and a rail, one after the other."""
    edition = edition_of(bench_versions[0].piece)
    item = next(item for item in edition.piece.items if item.name == {"MORTISE": "leg", "TENON": "end rail"}[said])
    sheet = records(edition, item)
    step = float(edition.units.step_mm)
    whole = make(sheet, UNIT_MM["mm"], step)
    for n, dimension in enumerate(sheet.dimensions):
        if dimension.role not in ("size", "position") or SLIGHT in {span.name for span in dimension.spans}:
            continue
        count = COUNT.match(dimension.text)
        size = float(size_of(dimension, UNIT_MM["mm"])) + 3 * step
        wrong = replace(dimension, text=(count[0] if count else "") + f"{size:g}")
        misprinted = replace(sheet, dimensions=(*sheet.dimensions[:n], wrong, *sheet.dimensions[n + 1 :]))
        try:
            made = make(misprinted, UNIT_MM["mm"], step)
        except NotTold:
            continue  # the numbers no longer add up
        if made.not_made != whole.not_made:
            continue  # what its words say does not lie between its lines
        assert not agree(edition, edition.piece.parts[item.shown], made.solid), dimension
