"""How to look after what has been built."""

from __future__ import annotations

from publish.edition import Edition


def care(edition: Edition) -> list[str]:
    """A few sentences for the finished piece."""
    finish = edition.piece.design.spec.finish
    text = []
    if finish is not None:
        text.append(
            f"The piece has {finish.name}. Renew it when the surface looks dry: clean, sand lightly with the grain, "
            f"and "
            "put on a thin coat."
        )
    text.append(
        "Wipe up water soon, keep the piece off wet ground and out of standing damp, and use felt or glides on floors."
    )
    text.append(
        "Wood swells and shrinks with the seasons; small changes in the gaps are no fault. Tighten screws once a year."
    )
    return text
