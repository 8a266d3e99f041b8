"""Boards: those a part is glued up from, those that several parts come out of, and those the maker lists."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.problems import Problem

NOISE = 0.01  # mm


def check_glued_up(reading: Reading) -> Iterator[Problem]:
    """The boards of every part that is made of several."""
    for name, part in reading.parts.items():
        made = part.glued_up
        if made is None:
            continue
        path = ("parts", name, "glued up")
        if (made.boards is None) == (not made.sizes):
            said = "both `boards` and `sizes` are said" if made.sizes else "nothing says how many boards there are"
            yield reading.problem("wrong-value", path, said, "say `boards: 4`, or list the `sizes` in order", key=True)
        elif max(len(made.sizes), made.boards or 0) < 2:
            where = (*path, "sizes" if made.sizes else "boards")
            yield reading.problem("wrong-size", where, "one board is not glued up", "take `glued up` out")
        elif made.sizes:
            size, called = (part.width, "wide") if made.joined == "edge to edge" else (part.thickness, "thick")
            total = sum(made.sizes)
            if size is None:
                message = f"how {called} {name} is follows from what it is cut to, and its boards are listed"
                yield reading.problem("wrong-value", (*path, "sizes"), message, "say how many `boards` there are")
            elif abs(total - size) > NOISE:
                message = f"the boards come to {reading.shown(total)}, and {name} is {reading.shown(size)} {called}"
                hint = "change one of them; what a joint adds at an edge is not counted here"
                yield reading.problem("wrong-size", (*path, "sizes"), message, hint)


def check_from_one_board(reading: Reading) -> Iterator[Problem]:
    """Parts that are to match in grain can come out of one board."""
    first: dict[str, str] = {}
    for name, part in reading.parts.items():
        word = part.from_one_board
        if word is None:
            continue
        path = ("parts", name, "from one board")
        other = reading.parts[first.setdefault(word, name)]
        if not part.wood and not part.sheet:
            message = f"{name} is neither of wood nor of sheet goods"
            yield reading.problem("not-one-board", path, message, "take this out", key=True)
        elif (part.made_of, part.stock) != (other.made_of, other.stock):
            message = f"{name} and {first[word]} are not of the same wood and stock"
            yield reading.problem("not-one-board", path, message, "give them one stock, or another word to each")


def check_board_list(reading: Reading) -> Iterator[Problem]:
    """Defects lie on their boards."""
    for number, board in enumerate(reading.spec.boards if reading.spec else ()):
        for defect, stretch in enumerate(board.defects):
            path: tuple[str | int, ...] = ("boards", number, "defects", defect)
            reaches = [(path, stretch.start, stretch.end, board.length, "long")]
            if stretch.across is not None:
                across = stretch.across
                reaches.append(((*path, "across"), across.start, across.end, board.width, "wide"))
            for where, start, end, size, called in reaches:
                if not 0 <= start < end <= size:
                    said = f"it runs from {reading.shown(start)} to {reading.shown(end)}"
                    message = f"{said}, and the board is {reading.shown(size)} {called}"
                    hint = "say where it begins and ends, within the board"
                    yield reading.problem("wrong-size", (*where, "to"), message, hint)
