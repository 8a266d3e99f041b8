"""A corner in which both parts are cut at half its angle."""

from plans.fields import Entry, PartName, PositiveCount, PositiveLength


class Spline(Entry):
    """A strip let into both faces of a mitre: `wide` across the joint, half in each part."""

    thick: PositiveLength
    wide: PositiveLength


class MitreKeys(Entry):
    """Thin keys let into the outside of the corner, evenly spaced, `deep` measured square from its arris."""

    number: PositiveCount
    thick: PositiveLength
    deep: PositiveLength


class Mitre(Entry):
    """A mitre: plain, splined or keyed; flat as in a picture frame, or upright as in a box.

    Both parts are written to the outside of the corner, and so lie through each other there. Each is cut from the
    inner arris to the outer one. In a flat frame the spline lies along the mitre in the middle of the thickness; in
    a box it runs across the width, a third of the way out from the inner arris.
    """

    of: PartName
    into: PartName
    spline: Spline | None = None
    keys: MitreKeys | None = None
    count: PositiveCount | None = None
