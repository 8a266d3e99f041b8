"""A step along an edge."""

from pydantic import Field

from plans.fields import Entry, PositiveLength, Side


class Rabbet(Entry):
    """A step cut out of the corner where `side` and `edge` meet: the back edge of a case, the lip of a lid.

    It opens on `side`, `deep` into it, and reaches `wide` in from `edge`. It runs right through;
    `stop` says how far short of an end it stays.
    """

    side: Side
    edge: Side
    wide: PositiveLength
    deep: PositiveLength
    stop: dict[Side, PositiveLength] = Field(default_factory=dict, max_length=2)
