"""What coves and thumbnails have in common: a profile run along arrises, in both bodies."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import cadquery as cq

from model.body import Body
from model.frames import round_point
from model.kernel import KernelFault
from model.piece import Callout, Feature, Operation, Value
from model.shaping.arrises import Arris, arrises
from model.shaping.shaped import Shaped

SQUARE = 1e-3  # cosine between the faces of an arris that counts as square


def mould(
    body: Body, kind: str, wanted: Iterable[str], values: dict[str, Value], profile: Callable[[Arris], cq.Solid]
) -> Shaped:
    """A cutter of `profile` along each arris; the callout stands at the middle of the longest."""
    names = tuple(wanted)
    found = arrises(body, names)
    if not found:
        raise KernelFault(f"no arris of {body.name} is called {', '.join(names)}")
    if any(abs(float(arris.first @ arris.second)) > SQUARE for arris in found):
        raise KernelFault(f"the {kind} runs along an arris that is not square")
    said = {"arrises": "; ".join(names), **values}
    longest = max(found, key=lambda arris: arris.length)
    point = round_point(longest.middle)
    ends = round_point(longest.start), round_point(longest.end)
    fills = None if longest.curved else ends
    callout = Callout(kind, dict(said), point, body.datum_side(body.thick), fills)
    feature = Feature(kind, "shaping", (), (callout,), Operation(kind, dict(said)))
    return Shaped("easing", tuple(profile(arris) for arris in found), feature)
