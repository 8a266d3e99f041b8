"""A tenon on the end of one part, glued into a mortise in the side of another."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PartName, PositiveCount, PositiveLength, Side
from plans.pegs import Pegs


class Wedges(Entry):
    """Wedges driven into saw cuts in the end of a through tenon.

    The mortise is `flare` wider at each end on its far side; the cuts run two thirds of the way to
    the shoulder.
    """

    count: PositiveCount = 2
    flare: PositiveLength


class MortiseAndTenon(Entry):
    """A mortise and tenon, square or leaning.

    Seen from above: the `of` part ends in a tongue, `thick` across its thickness and as wide as
    the part less its `shoulders`; it runs along the part and stops `long` past the face it meets,
    its end parallel to that face, or goes `through` and stands `proud` of the far face. The mortise
    is the tenon grown by `fit` on each cheek and, where it is blind, made deeper by `relief`.

    A `haunch` is a stub of that length that fills the shoulder on its side. `twin` makes two tenons
    that far apart across the thickness, `split` two that far apart in the width.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    long: PositiveLength | None = None
    through: bool = False
    proud: PositiveLength | None = None
    shoulders: dict[Side, Length] = Field(
        default_factory=dict, description="stock left beside the tenon, by the side it is on"
    )
    haunch: dict[Side, PositiveLength] = Field(
        default_factory=dict, max_length=1, description="length of a stub that fills the shoulder on that side"
    )
    twin: PositiveLength | None = Field(default=None, description="two tenons, this far apart across the thickness")
    split: PositiveLength | None = Field(default=None, description="two tenons, this far apart in the width")
    pegs: Pegs | None = None
    wedges: Wedges | None = None
    fit: Length | None = Field(default=None, description="room for glue at each cheek; 0.1 mm unless said")
    relief: Length | None = Field(default=None, description="extra depth of the mortise; 1/16 in or 1.5 mm unless said")
    ends: OneOrMore[Side] = Field(default=(), description="only these ends of the part; both unless said")
    count: PositiveCount | None = None
