"""The notes at the head of a part's sheet."""

from __future__ import annotations

from model.glued_up import part_boards
from model.piece import Item, Part, Value
from plans.sides import SIDES, sides_of, third_axis
from plans.spec import PartSpec
from publish.edition import Edition
from publish.part_views import DrawnPart
from publish.words.names import listed, number
from publish.words.templates import on_the_sheet

ARRIS_WORDS = {"long": "the long arrises", "ends": "the arrises round the ends", "all": "all arrises"}
SIDE_WORDS = {"top": "from above", "bottom": "from below", "left": "from the left", "right": "from the right"}


def notes(edition: Edition, item: Item, drawn: DrawnPart) -> list[str]:
    """What holds for the whole part, each a sentence or two."""
    part = edition.piece.parts[item.shown]
    found = [_seen(edition, drawn, part)]
    if item.mirrored:
        found.append(
            f"Make {number(len(item.parts))} as drawn ({listed(item.parts)}) "
            f"and {number(len(item.mirrored))} as the mirror image."
        )
    found += _easing(edition, part)
    found += _rests(part)
    if part.spec.show_face is not None:
        found.append(f"The {part.spec.show_face} shows: keep the best face of the board for it.")
    found += glued_up_words(edition, part)
    if part.spec.rings != "any":
        found.append(RING_WORDS[part.spec.rings])
    found += on_the_sheet(edition.piece, item.mark)
    if part.spec.note:
        found.append(part.spec.note)
    return found


def glued_up_words(edition: Edition, part: Part) -> list[str]:
    """How a part is made of boards: how many, how they are laid, and their sizes in order."""
    made, boards = part.spec.glued_up, part_boards(part)
    if made is None:
        return []
    across = part.spec.thick if made.joined == "face to face" else third_axis(part.spec.runs, part.spec.thick)
    sizes = [edition.number(b.width if made.joined == "edge to edge" else b.thickness) for b in boards]
    called = "wide" if made.joined == "edge to edge" else "thick"
    laid = "heart side up and down by turns" if made.rings == "alternating" else "growth rings all the same way"
    same = f"each {sizes[0]}" if len(set(sizes)) == 1 else listed(sizes)
    start = f"counted from the {sides_of(across)[0]}"
    return [f"Glued up {made.joined} from {number(len(boards))} boards, {start}: {same} {called}, {laid}."]


RING_WORDS = {
    "flat": "Flat-sawn stock will do.",
    "rift": "Rift-sawn: growth rings at about 45° on the end, so that all four faces match.",
    "quarter": "Quarter-sawn: growth rings square to the face.",
}


def _seen(edition: Edition, drawn: DrawnPart, part: Part) -> str:
    face = SIDE_WORDS.get(drawn.face, f"from the {drawn.face}")
    edge = SIDE_WORDS.get(drawn.edge, f"from the {drawn.edge}")
    where = "over" if (drawn.views.edge_from == "above") == (edition.projection == "third") else "under"
    return f"Main view {face}; the view {where} it {edge}.{_grain(part.spec)}"


def _grain(spec: PartSpec) -> str:
    """Only wood has a grain, and plywood on its faces."""
    if spec.wood:
        return " The grain runs with the length."
    return " The grain of the faces runs with the length." if spec.has_face_grain else ""


def _easing(edition: Edition, part: Part) -> list[str]:
    found = []
    for feature in part.features:
        if feature.kind not in ("round over", "chamfer"):
            continue
        values = feature.callouts[0].values
        size = values["size"]
        assert isinstance(size, float)
        act = "Round over" if feature.kind == "round over" else "Chamfer"
        arrises = arris_words(str(values["arrises"]).split("; "))
        stop = stop_words(values, edition)
        found.append(f"{act} {arrises} {edition.measure(size)}{', ' + stop if stop else ''}; drawn sharp.")
    return found


def arris_words(names: list[str]) -> str:
    """`the long arrises`, `the top front and bottom front arrises`."""
    plain = [ARRIS_WORDS[name] for name in names if name in ARRIS_WORDS]
    pairs = [name for name in names if name not in ARRIS_WORDS]
    if pairs:
        plain.append(f"the {listed(pairs)} {'arris' if len(pairs) == 1 else 'arrises'}")
    return listed(plain)


def stop_words(values: dict[str, Value], edition: Edition) -> str:
    """`stopped 40 mm from the left end`, of work that stays short of an end; empty where it runs right through."""
    stops = [
        (edition.measure(short), values[f"stop {n} from"])
        for n in (1, 2)
        if isinstance(short := values.get(f"stop {n}"), float)
    ]
    if len(stops) == 2 and stops[0][0] == stops[1][0]:
        return f"stopped {stops[0][0]} from both ends"
    return "stopped " + listed(f"{short} from the {end} end" for short, end in stops) if stops else ""


def channel_stop(values: dict[str, Value], edition: Edition) -> str:
    """Where a groove, rabbet or housing stays short of an end: by how much, or at the part that closes it."""
    if values.get("stopped"):
        return f"stopped at the {listed(str(values['stopped']).split(', '))}"
    return stop_words(values, edition)


def _rests(part: Part) -> list[str]:
    """Sides that are glued to another part: all of a side is left bare, or just the place where it is glued."""
    glued = dict.fromkeys(
        (feature.callouts[0].values["side"], feature.callouts[0].values["for"], feature.callouts[0].values["whole"])
        for feature in part.features
        if feature.kind == "glued face"
    )
    return [
        f"The {side} is glued to the {other}: leave it flat and unfinished."
        if whole
        else f"The {other} is glued to the {side}: leave the wood bare there."
        for side, other, whole in glued
        if side in SIDES
    ]
