"""What every set says to its reader."""

from __future__ import annotations

from publish.edition import Edition
from publish.words.spelling import spelt
from publish.words.templates import where_to_find

READING = (
    "Read the whole set once before you buy wood. Then work through the steps in order: each says which parts it "
    "needs, "
    "by the letter that marks them on every page.",
)

CAUTIONS = (
    (
        "CAUTION",
        "Woodworking tools can maim. Wear eye and hearing protection, keep guards in place, tie back hair and "
        "sleeves, and "
        "do no operation that you are not sure of. Your tools' own instructions come before these plans.",
    ),
    (
        "CAUTION",
        "Dust, glue, finish and oily rags are hazards of their own: read the labels, ventilate, and keep rags from "
        "heaping.",
    ),
)

# of a piece that is re-made in the other units: its two editions are no translations of each other
NATURAL = {
    "inch": "This piece is made in inches throughout. Plans of it in millimetres are of a slightly different one: keep "
    "their sheets, lists and templates apart from these.",
    "mm": "This piece is made in millimetres throughout. Plans of it in inches are of a slightly different one: keep "
    "their sheets, lists and templates apart from these.",
}

RESPONSIBILITY = (
    "You build, fix and use the piece at your own judgment and risk. Sizes are checked against a solid model, but "
    "wood "
    "moves and shops differ: measure twice, and fit each part to the one you have made. Follow local rules, and ask a "
    "qualified person wherever strength, wall fixing or the safety of children matters."
)


def reading(edition: Edition) -> tuple[str, ...]:
    """How the drawings are to be read, in this edition."""
    spec = edition.piece.design.spec
    projection = {
        "third": "third angle: a view stands on the side it is seen from",
        "first": "first angle: a view stands on the far side from where it is seen",
    }[edition.projection]
    if edition.units.name == "inch":
        sizes = f"All sizes are in inches, to the nearest {spec.finest}; drills to the nearest 1/64."
    else:
        sizes = f"All sizes are in millimetres, to the nearest {spec.finest_mm}."
    templates = where_to_find(edition)
    return (
        sizes,
        f"Views are drawn in {projection}.",
        "Sizes along a part are measured from one end, the one to hook the tape on. A size in brackets follows from "
        "others "
        "and is there to check by.",
        "Dashed lines are hidden edges. Small rounds are drawn sharp and given in the notes.",
        "Do not measure from the paper: the figures hold. Print at 100 % if you want the scales to be true.",
        "Left, right, front and back are those of the piece as you stand before it.",
        "Cut a mortise first and fit its tenon to it. Make one joint of each kind in scrap before the real one.",
        *([templates] if templates else []),
        *([spelt(edition, NATURAL[edition.units.name])] if len(edition.piece.design.printed_in) == 1 else []),
    )
