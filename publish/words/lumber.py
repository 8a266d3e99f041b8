"""What to ask for at the yard, and what to look for in each board."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from model.buying import Purchase
from model.cut_list import CutRow
from model.movement import moisture_range
from model.takeoff import LumberRow
from plans.library import dressed, rough_stock
from plans.library.board_sizes import board_sizes
from publish.edition import Edition
from publish.words.lists import matched_marks
from publish.words.names import capital, counted, listed
from publish.words.spelling import spelt

SLENDER = 10.0  # times as long as wide or thick: grain that runs out of it weakens it (judgement)
BEARING = {"tenon", "taper", "bridle cheek", "bridle slot", "dovetail tongue"}
RINGS: dict[str, str] = {
    "rift": "rift-sawn for {marks}: on the end, rings at about 45° to the faces, so that all four look alike",
    "flat": "flat-sawn for {marks}: on the end, rings that lie flat, with arched figure on the face",
    "quarter": "quarter-sawn for {marks}: on the end, rings square to the face, with straight figure on it",
}


def boards_words(edition: Edition, purchase: Purchase | None) -> str:
    """`3 boards: 1 of 6 × 96 in, 2 of 8 × 120 in`; nothing where no stock is stated."""
    if purchase is None:
        return ""
    buy = [one for one in purchase.boards if not one.on_hand]
    have = [one for one in purchase.boards if one.on_hand]
    noun = purchase.plan.of

    def sizes(found: Iterable[object]) -> str:
        return ", ".join(
            f"{one.count} of {edition.number(one.width)} × {edition.measure(one.length)}"  # type: ignore[attr-defined]
            for one in found
        )

    said = [f"{counted(purchase.count, noun)}: {sizes(buy)}"] if buy else []
    said += [f"on hand: {sizes(have)}"] if have else []
    return capital("; ".join(said))


def look_for(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    """One sentence after another on the boards of one wood and thickness; `rows` are the lines cut from them."""
    found = [say(edition, row, rows) for say in LOOKS]
    return spelt(edition, " ".join(f"{capital(words)}." for words in found if words))


def _marks(rows: Iterable[CutRow]) -> str:
    return listed(sorted({row.item.mark for row in rows}, key=lambda mark: (len(mark), mark)))


def _thick(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    stock = rough_stock(row.stock)
    if stock is None:
        return ""
    finished = max(min(one.thickness, one.width) if one.on_edge else one.thickness for one in rows)
    return f"sawn {edition.measure(stock.rough)} thick, it must plane to {edition.measure(finished)}"


def _rings(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    said = [
        words.format(marks=_marks(one for one in rows if one.rings == rings))
        for rings, words in RINGS.items()
        if any(one.rings == rings for one in rows)
    ]
    return "; ".join(said)


def _straight(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    """Where grain that runs out at an edge would break."""
    bearing = [one for one in rows if one.board is None and _bears(edition, one)]
    return f"straight grain from end to end for {_marks(bearing)}: they are slender or carry joints" if bearing else ""


def _bears(edition: Edition, row: CutRow) -> bool:
    part = edition.piece.parts[row.item.shown]
    done = {feature.operation.name for feature in part.features if feature.operation is not None}
    return bool(done & BEARING) or row.length > SLENDER * max(row.width, row.thickness)


def _wide(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    if dressed(row.stock) is not None:
        return ""
    usual = board_sizes(row.stock)
    wide = [one for one in rows if one.rough_width > usual.usual_width]
    long = [one for one in rows if one.rough_length > usual.usual_length]
    said = [f"wide boards for {_marks(wide)}, at least {edition.measure(row.widest)}"] if wide else []
    said += [f"long boards for {_marks(long)}, at least {edition.measure(row.longest)}"] if long else []
    return "; ".join(said)


def _matched(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    words = dict.fromkeys(one.one_board for one in rows if one.one_board is not None)
    return "; ".join(f"one board that holds {listed(matched_marks(edition, word))} together" for word in words)


def _panels(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    panels = [one for one in rows if one.board is not None]
    return f"boards alike in colour and figure for the panels {_marks(panels)}" if panels else ""


def _best_face(edition: Edition, row: LumberRow, rows: list[CutRow]) -> str:
    shown = [one for one in rows if edition.piece.parts[one.item.shown].spec.show_face is not None]
    return f"one clear face for {_marks(shown)}" if shown else ""


LOOKS: tuple[Callable[[Edition, LumberRow, list[CutRow]], str], ...] = (
    _thick,
    _rings,
    _straight,
    _wide,
    _matched,
    _panels,
    _best_face,
)


def dryness(edition: Edition) -> str:
    """How dry the wood should be when it is worked."""
    driest, dampest = moisture_range(edition.piece)
    return (
        f"Buy kiln-dried wood. In use it will hold from {driest:.0f} to {dampest:.0f} % of moisture: let it come to "
        "something between the two in your shop before you mill it. Leave boards that are cupped, twisted or split; "
        "a tight knot does no harm where it does not show and no joint is cut."
    )
