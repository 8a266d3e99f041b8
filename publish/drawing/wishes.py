"""What a page wants said about its views: sizes, notes with a leader, angles. Where they go is settled elsewhere.

Points are in the coordinates of the view named by `view` (the key of a `PlacedView`), model mm. `also` is the same size
in the other unit, set smaller and grey after (a dimension) or under (a callout) the main text.

What a wish says of the part is carried beside its text, so that a part can be made again from its sheet alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from publish.drawing.box import Point

Role = Literal["overall", "size", "position", "reference"]
Place = tuple[float, float, float]  # of the part, in its standing frame


@dataclass(frozen=True)
class Measured:
    """What a dimension measures: a size called `name` of a feature of the part (by its number), along an axis."""

    feature: int
    name: str
    along: str
    start: Place
    end: Place


@dataclass(frozen=True)
class Pointed:
    """What a callout tells of: a feature of the part (by its number), on the side named, at each of some places."""

    feature: int
    side: str
    places: tuple[Place, ...]


@dataclass(frozen=True)
class DimensionWish:
    """The distance from `p0` to `p1` along the page's horizontal ("h") or vertical ("v"), said as `text`.

    Wishes of one `group` are kept together: chained ones in a row, those from one datum on one side. A "reference" is
    put in brackets. `measures`: every size of the part that it states; `3×` states three.
    """

    view: str
    p0: Point
    p1: Point
    direction: Literal["h", "v"]
    text: str
    role: Role = "size"
    group: str = ""
    also: str = ""
    measures: tuple[Measured, ...] = ()


@dataclass(frozen=True)
class CalloutWish:
    """A note of a few lines with a leader to `point`; the first line is set heavier.

    `others` are further points that say the same: along a groove, or on others of alike features. `tells`: every
    feature it speaks of.
    """

    view: str
    point: Point
    lines: tuple[str, ...]
    also: tuple[str, ...] = ()
    others: tuple[Point, ...] = ()
    tells: tuple[Pointed, ...] = ()


@dataclass(frozen=True)
class AngleWish:
    """The angle at `vertex` from direction `start` to `end`, degrees, counter-clockwise, said as `text`."""

    view: str
    vertex: Point
    start: float
    end: float
    text: str


Wish = DimensionWish | CalloutWish | AngleWish
