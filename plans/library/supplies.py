"""How far glue and finish go, and how long glue can be worked: by a word in their name."""

from dataclasses import dataclass
from functools import cache

from plans.library.tables import rows


@dataclass(frozen=True)
class Adhesive:
    """`spread` in ml on a square metre of joint; `opening` and `clamping` in minutes, at 20 °C."""

    word: str
    spread: float
    opening: float
    clamping: float
    source: str


@dataclass(frozen=True)
class FinishCover:
    """`cover`: square metres of one coat from a litre."""

    word: str
    cover: float
    source: str


@cache
def adhesive_table() -> tuple[Adhesive, ...]:
    """Every line of the table."""
    return tuple(
        Adhesive(
            row["word"],
            float(row["grams_per_m2"]) / float(row["grams_per_ml"]),
            float(row["open_minutes"]),
            float(row["clamp_minutes"]),
            row["source"],
        )
        for row in rows("adhesives")
    )


@cache
def finish_table() -> tuple[FinishCover, ...]:
    """Every line of the table."""
    return tuple(FinishCover(row["word"], float(row["m2_per_litre"]), row["source"]) for row in rows("finishes"))


def adhesive(name: str) -> Adhesive | None:
    """The line of the table whose word stands in the name; of several, the last one named there. None for others."""
    found = [(name.lower().rfind(one.word.lower()), one) for one in adhesive_table()]
    at, best = max(found, key=lambda pair: pair[0])
    return best if at >= 0 else None


def finish_cover(name: str) -> FinishCover | None:
    """The first line of the table whose word stands in the name (`hard-wax oil` is a wax), or None."""
    return next((one for one in finish_table() if one.word in name.lower()), None)
