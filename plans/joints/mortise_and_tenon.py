"""A tenon on the end of one part, glued into a mortise in the side of another."""

from pydantic import Field

from plans.fields import Entry, Length, OneOrMore, PartName, PositiveCount, PositiveLength, Side


class MortiseAndTenon(Entry):
    """A blind mortise and tenon, square or leaning.

    Seen from above: the `of` part ends in a tongue, `thick` across its thickness and as wide as
    the part less its `shoulders`; it runs along the part and stops `long` past the face it meets,
    its end parallel to that face. The mortise is the tenon grown by `fit` on each cheek and made
    deeper by `relief`.
    """

    of: PartName
    into: PartName
    thick: PositiveLength
    long: PositiveLength
    shoulders: dict[Side, Length] = Field(
        default_factory=dict, description="stock left beside the tenon, by the side it is on"
    )
    fit: Length | None = Field(default=None, description="room for glue at each cheek; 0.1 mm unless said")
    relief: Length | None = Field(default=None, description="extra depth of the mortise; 1/16 in or 1.5 mm unless said")
    ends: OneOrMore[Side] = Field(default=(), description="only these ends of the part; both unless said")
    count: PositiveCount | None = None
