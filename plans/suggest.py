"""Guessing what a mistyped word was meant to be."""

from collections.abc import Iterable
from difflib import get_close_matches

GUESS_AMONG = 300  # guessing among more would take too long


def closest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, or None when none is much like it."""
    known = list(known)
    if len(known) > GUESS_AMONG:
        return None
    by_small = {str(k).lower(): str(k) for k in known}
    found = get_close_matches(word[:80].lower(), list(by_small), n=1, cutoff=0.6)
    return by_small[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """`did you mean 'length'?`, or nothing."""
    found = closest(word, known)
    return f"did you mean '{found}'?" if found else ""


def listed(words: Iterable[str]) -> str:
    """`left, right or top`."""
    known = list(words)
    return known[0] if len(known) == 1 else f"{', '.join(known[:-1])} or {known[-1]}"
