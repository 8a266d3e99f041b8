"""Which groups of parts come out alike once they are put together, and which of them the design gives a name."""

from __future__ import annotations

from collections.abc import Iterable

import cadquery as cq

from model.alike import TOLERANCE, fingerprint, match_fingerprints
from model.brep import compound
from model.kernel import placed
from model.piece import AssemblyMade, Piece
from model.stages import Stage


def wholes(piece: Piece, stage: Stage) -> tuple[AssemblyMade, ...]:
    """The assemblies that go in at a stage as they are; none where anything else goes in too."""
    by_parts = {frozenset(made.parts): made for made in piece.assemblies if len(made.parts) > 1}
    found = [by_parts.get(frozenset(move.parts)) for move in stage.moves]
    return tuple(made for made in found if made is not None) if stage.base and None not in found else ()


def finished(piece: Piece, stage: Stage) -> AssemblyMade | None:
    """The assembly that a stage completes, where the piece is more than that."""
    here = set(stage.parts)
    return next((m for m in piece.assemblies if set(m.parts) == here and here != set(piece.parts)), None)


def mirror_images(piece: Piece, stage: Stage) -> int:
    """How many copies of a stage come out as its mirror image, and not alike."""
    first = fingerprint(_together(piece, stage.parts))
    prints = [fingerprint(_together(piece, copy.parts)) for copy in stage.copies]
    matches = [match_fingerprints(first, other, TOLERANCE, None) for other in prints]
    return sum(match.same is None and match.mirrored is not None for match in matches)


def exchanged(piece: Piece, stage: Stage) -> dict[tuple[str, str], int]:
    """Parts of other kinds that stand in copies in the place of the first one's, and in how many copies."""
    found: dict[tuple[str, str], int] = {}
    for copy in stage.copies:
        for name, other in zip(stage.parts, copy.parts, strict=True):
            if piece.parts[name].kind != piece.parts[other].kind:
                found.setdefault((name, other), 0)
                found[name, other] += 1
    return found


def _together(piece: Piece, names: Iterable[str]) -> cq.Compound:
    parts = [piece.parts[name] for name in names]
    return compound([placed(part.sharp, part.at) for part in parts])
