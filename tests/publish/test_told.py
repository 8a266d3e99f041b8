"""Every size and every value of every feature of every part is said on its sheet, so that none can change unseen."""

from __future__ import annotations

from dataclasses import replace

from model.piece import Callout, Feature, Value
from publish.drawing.wishes import DimensionWish
from publish.edition import Edition
from publish.part_wishes import printed, wishes
from publish.printed_places import printed_places
from publish.words.callouts import CALLOUTS, said
from publish.words.notes import notes

# what follows from others that are told: (kind, value), and from which
FOLLOWS = {
    ("cut to", "tilt"): "mitre and slope",
    ("end cut", "tilt"): "mitre and slope",
    ("mitre", "tilt"): "mitre and slope",
    ("notch", "fit"): "the size of the notch",
    ("halving", "share"): "the depth of the halving",
    ("spline slot", "wide"): "the depth of the slot",
    ("bridle cheek", "thick"): "the depth of both cheeks",
    ("dovetail housing", "walls"): "its slope",
    ("groove", "walls"): "the end that it runs out at",
    ("rabbet", "walls"): "the end that it runs out at",
    ("housed end", "thick"): "the thickness of the part",
    ("rabbeted edge", "thick"): "the thickness of the part",
    ("panel edge", "thick"): "the thickness of the part",
    ("saw cut", "kerf"): "the saw that is used",
    ("screw hole", "head"): "told where it is countersunk",
    ("screw hole", "plug"): "told where it is plugged or sunk",
    ("peg hole", "nearer"): "told where the holes are round",
}
ANGLES = {"mitre", "slope", "turned", "off square", "walls", "floor", "angle"}
FIT = 0.25  # mm: a size drawn is larger than the one said by the room for the fit, on both sides


def changed(callout: Callout, key: str, by: float) -> dict[str, Value]:
    value = callout.values[key]
    assert isinstance(value, float)
    return {**callout.values, key: value + by}


def is_told(callout: Callout, key: str, feature: Feature, edition: Edition) -> bool:
    """Whether the words of a callout change with a value by one printed step (a degree), or a size is the value."""
    by = 1.0 if key in ANGLES else float(edition.units.step_mm)
    if said(callout.what, callout.values, edition) != said(callout.what, changed(callout, key, by), edition):
        return True
    value = callout.values[key]
    assert isinstance(value, float)
    return any(abs(size.value - value) <= FIT for size in feature.sizes)


def test_every_value_is_told(edition: Edition) -> None:
    """Also in brackets or as `3×`; the sheet's wishes are all placed, or publishing fails (`_sheets`)."""
    for item in edition.piece.items:
        part, drawn = edition.piece.parts[item.shown], edition.drawn.parts[item.mark]
        places = printed_places(part, edition.units)
        texts = [w.text for w in wishes(edition, part, drawn) if isinstance(w, DimensionWish)]
        on_sheet = {text.split("× ")[-1].removeprefix("Ø ") for text in texts}
        for feature in part.features:
            sizes = {printed(edition, places, size).removeprefix("Ø ") for size in feature.sizes if size.value > FIT}
            assert sizes <= on_sheet, (item.name, feature.kind, sizes - on_sheet)
            silent = {
                (feature.kind, key)
                for callout in feature.callouts
                for key, value in callout.values.items()
                if isinstance(value, float)
                and CALLOUTS[callout.what] is not None
                and not is_told(callout, key, feature, edition)
            }
            assert silent <= set(FOLLOWS), (item.name, silent - set(FOLLOWS))


def test_what_is_eased_is_told_in_the_notes(edition: Edition) -> None:
    for item in edition.piece.items:
        part, drawn = edition.piece.parts[item.shown], edition.drawn.parts[item.mark]
        for n, feature in enumerate(part.features):
            if feature.kind not in ("round over", "chamfer"):
                continue
            larger = tuple(
                replace(c, values=changed(c, "size", 2 * float(edition.units.step_mm))) for c in feature.callouts
            )
            features = (*part.features[:n], replace(feature, callouts=larger), *part.features[n + 1 :])
            parts = {**edition.piece.parts, item.shown: replace(part, features=features)}
            other = replace(edition, piece=replace(edition.piece, parts=parts))
            assert notes(other, item, drawn) != notes(edition, item, drawn), (item.name, feature.kind)
