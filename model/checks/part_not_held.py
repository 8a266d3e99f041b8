"""Every part must hold on to the rest by a joint or a fixing."""

from __future__ import annotations

from collections.abc import Iterable

from model.checks.finding import finding
from model.grain import linked_pairs
from model.piece import AssemblyMade, Piece
from plans.problems import Problem


def check(piece: Piece) -> list[Problem]:
    """Groups of parts that nothing joins to the rest; not judged while no joint and no fixing is said.

    An assembly that hangs together stands in the piece by itself: a drawer, a till, a loose shelf.
    """
    links = [tuple(pair) for pair in linked_pairs(piece) if len(pair) == 2]
    if not links:
        return []
    *apart, _ = sorted(_groups(list(piece.parts), links), key=len)
    # of an assembly that stands by itself the most is where it should be; what has come off it is not
    standing = [
        max((group for group in apart if group & set(made.parts)), key=len, default=None) for made in _whole(piece)
    ]
    loose = [group for group in apart if group not in standing]
    return [
        _problem(piece, kind, [name for name in names if piece.parts[name].kind == kind], names)
        for names in (sorted(group, key=list(piece.parts).index) for group in loose)
        for kind in dict.fromkeys(piece.parts[name].kind for name in names)
    ]


def _whole(piece: Piece) -> list[AssemblyMade]:
    return [made for made in piece.assemblies if len(made.parts) > 1]


def _groups(names: list[str], links: list[tuple[str, ...]]) -> list[frozenset[str]]:
    """The parts in groups that hang together by the links."""
    group = {name: frozenset((name,)) for name in names}
    for one, other in links:
        both = group[one] | group[other]
        group.update(dict.fromkeys(both, both))
    return list(dict.fromkeys(group.values()))


def _problem(piece: Piece, kind: str, names: list[str], group: Iterable[str]) -> Problem:
    lies = any(piece.design.parts[piece.parts[name].kind].supplied for name in group)
    return finding(
        "part-not-held",
        # a stone top lies by its own weight, and so does what is stuck to it: that is said, and left to the maker
        "note" if lies else "warning",
        f"no joint and no fixing holds {', '.join(names)} to the rest",
        piece.design.place("parts", kind),
        "say the joint or the fixing that holds it, or make it an assembly of its own if it stands there loose",
        names,
        "nothing that holds it",
        "a joint or a fixing",
    )
