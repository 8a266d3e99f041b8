"""Rounded and chamfered arrises: room for them on the stock."""

from collections.abc import Iterable, Iterator

from plans.checks.reading import Reading
from plans.kinds import kind_of
from plans.problems import Problem
from plans.shaping import SHAPINGS, Chamfer, Cove, RoundOver, Thumbnail
from plans.sides import SIDE_AXIS, SIDES, Axis, sides_of
from plans.source import KeyPath
from plans.spec import PartSpec

LEFT_BETWEEN = 0.1  # mm of flat that must stay between two eased arrises, so that the solid can be made


def check_edges(reading: Reading) -> Iterator[Problem]:
    """Easing that is larger than half of what it eases, of every part."""
    for name, part in reading.parts.items():
        for number, shaping in enumerate(part.shaping):
            path = ("parts", name, "shaping", number, kind_of(SHAPINGS, shaping))
            if isinstance(shaping, RoundOver):
                yield from _room(reading, part, (*path, "radius"), shaping.radius, shaping.arrises)
            elif isinstance(shaping, Chamfer):
                yield from _room(reading, part, (*path, "size"), shaping.size, shaping.arrises)
            elif isinstance(shaping, Cove):
                yield from _room(reading, part, (*path, "radius"), shaping.radius, shaping.arrises)
            elif isinstance(shaping, Thumbnail):
                yield from _deep(reading, part, (*path, "radius"), shaping)


def _deep(reading: Reading, part: PartSpec, path: KeyPath, thumbnail: Thumbnail) -> Iterator[Problem]:
    """A thumbnail must leave something of the edge below it."""
    most = part.thickness_at_most if SIDE_AXIS[thumbnail.face] == part.thick else part.width_at_most
    if thumbnail.step < 0 or thumbnail.radius + thumbnail.step > most - LEFT_BETWEEN:
        message = f"with its step it is deeper than the {reading.shown(most)} there are"
        yield reading.problem("edge-too-large", path, message, "make the radius or the step less")


def _room(reading: Reading, part: PartSpec, path: KeyPath, size: float, arrises: Iterable[str]) -> Iterator[Problem]:
    """Two arrises of one face share what there is across it; one alone has it all to itself."""
    for called, axis, most in (
        ("thickness", part.thick, part.thickness_at_most),
        ("width", part.wide, part.width_at_most),
    ):
        both = _on_both_sides(arrises, axis)
        share = most / 2 if both else most
        if size > share - LEFT_BETWEEN:
            message = f"{reading.shown(size)} leaves nothing flat on a {called} of {reading.shown(most)}"
            yield reading.problem(
                "edge-too-large",
                path,
                message,
                f"make it less than {'half of ' if both else ''}the {called}",
                found=reading.shown(size),
                wanted=f"less than {reading.shown(share)}",
            )
            return


def _on_both_sides(arrises: Iterable[str], axis: Axis) -> bool:
    """Whether some face has eased arrises at both of its sides along `axis`."""
    named = [frozenset(arris.split()) for arris in arrises]
    if any(len(pair) == 1 for pair in named):
        return True  # long, ends, all
    low, high = sides_of(axis)
    return any(frozenset((face, low)) in named and frozenset((face, high)) in named for face in SIDES)
