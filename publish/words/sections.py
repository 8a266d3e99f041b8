"""What is said on a sheet of sections."""

from __future__ import annotations

from collections.abc import Sequence

from publish.edition import Edition
from publish.section_views import SectionView
from publish.words.names import listed


def section_title(letter: str) -> str:
    """`A–A`."""
    return f"{letter}–{letter}"


def view_title(letter: str) -> str:
    """Over what is seen along an arrow of that letter."""
    return f"VIEW {letter}"


def section_words(edition: Edition, section: SectionView, unmarked: Sequence[str]) -> str:
    """How to read the hatching, of what is there to be seen; and what is cut but has no room for its mark."""
    faces = section.faces
    said = []
    if any(face.part.spec.wood and face.shows_end_grain for face in faces):
        said.append("Hatched at 45°: end grain.")
    if any(face.part.spec.wood and not face.shows_end_grain for face in faces):
        said.append("Hatched along the part: long grain.")
    if any(face.part.spec.sheet for face in faces):
        said.append("Hatched across: sheet goods.")
    if any(face.part.spec.material for face in faces):
        said.append("Other materials are hatched at 45° too.")
    on_wall = edition.piece.design.spec.stands == "on the wall"
    said.append(f"Heights are from {'its lowest point' if on_wall else 'the floor'}.")
    if unmarked:
        said.append(f"Cut too: {listed(unmarked)}.")
    return " ".join(said)
