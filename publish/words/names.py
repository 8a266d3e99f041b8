"""Names of parts and lists of them, as one says them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from model.piece import Item, Piece

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
IRREGULAR = {"shelf": "shelves", "knife": "knives", "foot": "feet", "brush": "brushes", "box": "boxes"}


def capital(text: str) -> str:
    """With its first letter large."""
    return text[:1].upper() + text[1:]


def plural(noun: str) -> str:
    """`seat slats` of `seat slat`."""
    *before, last = noun.split(" ")
    if last in IRREGULAR:
        last = IRREGULAR[last]
    elif last.endswith(("s", "x", "ch", "sh")):
        last += "es"
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        last = last[:-1] + "ies"
    else:
        last += "s"
    return " ".join([*before, last])


def number(count: int) -> str:
    """A small number as a word, a large one in figures."""
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def counted(count: int, noun: str) -> str:
    """`two rails`, `one rail`, `14 screws`."""
    return f"{number(count)} {noun if count == 1 else plural(noun)}"


def in_figures(count: int, noun: str) -> str:
    """`2 rails`, `1 rail`."""
    return f"{count} {noun if count == 1 else plural(noun)}"


def listed(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    every = list(words)
    if len(every) < 2:
        return "".join(every)
    return f"{', '.join(every[:-1])} and {every[-1]}"


def item_name(piece: Piece, item: Item) -> str:
    """The kind; where a kind comes out in more than one form, with the numbers or places of its parts."""
    if sum(other.name == item.name for other in piece.items) == 1:
        return item.name
    which = [name.removeprefix(item.name).strip() for name in (*item.parts, *item.mirrored)]
    return f"{item.name} {_run(which)}"


def _run(which: Sequence[str]) -> str:
    numbers = [int(w) for w in which if w.isdigit()]
    if len(numbers) == len(which) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return listed(which)


def quantity(item: Item) -> str:
    """`4`, or `2 + 2 mirrored`."""
    if not item.mirrored:
        return str(item.quantity)
    return f"{len(item.parts)} + {len(item.mirrored)} mirrored"


def marks(items: Iterable[Item]) -> str:
    """`A, B and C`."""
    return listed(item.mark for item in items)
