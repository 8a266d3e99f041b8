"""What the fit report estimates: how much the wood moves, how the piece stands.

Apart from the words of the findings, which are told without the geometry kernel too.
"""

from __future__ import annotations

from model.movement import SOUND
from model.stability import Stand
from plans.units import System, shown


def movement_words(low: float, high: float) -> str:
    """What the movement table shows, from `low` to `high` % of moisture."""
    told = (
        f"From {low:.1f} to {high:.1f} % moisture every part grows by this much across its grain, and shrinks by as "
        "much on the way back; along the grain next to nothing. Rings that are not said are taken as flat-sawn, the "
        "worst both ways. Coefficients: Wood Handbook, table 13-5."
    )
    least, most = SOUND
    return told if least <= low and high <= most else f"{told} They hold from {least:.0f} to {most:.0f} %."


def standing_words(standing: Stand, system: System) -> str:
    """How heavy the piece is and how firmly it stands."""
    return (
        f"It weighs about {standing.mass:.1f} kg at 12 % moisture; its centre of mass is "
        f"{shown(float(standing.centre[2]), system)} above the floor and {shown(standing.least, system)} "
        f"inside the nearest edge of its feet. Some {standing.push:.0f} N sideways at the top begins to tip it."
    )
