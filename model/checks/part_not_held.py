"""Every part must hold on to the rest by a joint or a fixing."""

from __future__ import annotations

from model.checks.finding import finding
from model.grain import linked_pairs
from model.piece import Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Groups of parts that nothing joins to the first part; not judged while no joint and no fixing is said."""
    links = [tuple(pair) for pair in linked_pairs(piece)]
    if not links:
        return []
    held = _together(next(iter(links))[0], links)
    largest = max((_together(name, links) for name in piece.parts), key=len, default=held)
    kinds: dict[str, list[str]] = {}
    for name, part in piece.parts.items():
        if name not in largest:
            kinds.setdefault(part.kind, []).append(name)
    return [
        finding(
            "part-not-held",
            # a stone top lies by its own weight: that is said, and left to the maker
            "note" if piece.design.parts[kind].supplied else "warning",
            f"no joint and no fixing holds {', '.join(names)} to the rest",
            piece.design.place("parts", kind),
            "say the joint or the fixing that holds it",
            names,
            "nothing that holds it",
            "a joint or a fixing",
        )
        for kind, names in kinds.items()
    ]


def _together(first: str, links: list[tuple[str, ...]]) -> set[str]:
    seen, todo = set(), [first]
    while todo:
        name = todo.pop()
        if name not in seen:
            seen.add(name)
            todo += [other for link in links if name in link for other in link]
    return seen
