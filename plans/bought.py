"""What every fixing may say of itself, being bought."""

from pydantic import Field

from plans.fields import Entry, Line


class Bought(Entry):
    """Its `finish` is what it is made of or coated with, as one asks for it: `stainless steel`, `brass`."""

    finish: Line | None = Field(default=None, description="stainless steel, brass, zinc-plated: as one asks for it")
