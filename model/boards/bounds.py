"""How few boards can do: bounds from area and from dual-feasible functions.

A dual-feasible function f maps shares of a board's size to [0, 1] such that any parts which fit together
still sum to at most 1 (Fekete & Schepers 1998). So the sum of f(length) g(width) over all parts is a bound.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import ceil

Share = Callable[[int, int], Fraction]  # (size, whole) -> weight


def _plain(size: int, whole: int) -> Fraction:
    return Fraction(size, whole)


def _rounded(k: int) -> Share:
    """u(k): x stays if (k + 1) x is whole, else floor((k + 1) x) / k."""

    def weight(size: int, whole: int) -> Fraction:
        steps, rest = divmod((k + 1) * size, whole)
        return Fraction(size, whole) if rest == 0 else Fraction(steps, k)

    return weight


def _large_first(share: int) -> Share:
    """U(e): more than 1 - e counts whole, less than e counts nothing; e is a length of the whole."""

    def weight(size: int, whole: int) -> Fraction:
        if size > whole - share:
            return Fraction(1)
        return Fraction(size, whole) if size >= share else Fraction(0)

    return weight


def _halves(share: int) -> Share:
    """phi(e): the larger ones by how often e fits into what they leave, the small ones by how often e fits in."""

    def weight(size: int, whole: int) -> Fraction:
        fits = whole // share
        if 2 * size > whole:
            return 1 - Fraction((whole - size) // share, fits)
        if 2 * size == whole:
            return Fraction(1, 2)
        return Fraction(size // share, fits) if size >= share else Fraction(0)

    return weight


def shares(sizes: Sequence[int], whole: int) -> list[Share]:
    """The functions worth trying for these sizes."""
    cuts = sorted({size for size in sizes if 0 < 2 * size <= whole})
    spread = cuts if len(cuts) <= 12 else [cuts[i * (len(cuts) - 1) // 11] for i in range(12)]
    found: list[Share] = [_plain, *(_rounded(k) for k in range(1, 6))]
    return found + [_large_first(share) for share in spread] + [_halves(share) for share in spread]


def fewest_boards(parts: Sequence[tuple[int, int, int, bool]], whole: tuple[int, int]) -> int:
    """Least number of boards of one size for parts (length, width, count, may be turned), all in grown ticks."""
    turned = any(turn for *_, turn in parts)
    lengths = [length for length, *_ in parts] + ([width for _, width, *_ in parts] if turned else [])
    widths = [width for _, width, *_ in parts] + ([length for length, *_ in parts] if turned else [])
    along = [_weights(f, lengths, whole[0]) for f in shares(lengths, whole[0])]
    across = [_weights(f, widths, whole[1]) for f in (shares(widths, whole[1]) if whole[1] > 1 else [_plain])]
    best = max((sum(_least(part, whole, f, g) for part in parts) for f in along for g in across), default=0.0)
    return ceil(best - 1e-9)


def _weights(share: Share, sizes: Sequence[int], whole: int) -> dict[int, float]:
    return {size: float(share(size, whole)) for size in sizes if size <= whole}


def _least(
    part: tuple[int, int, int, bool], whole: tuple[int, int], along: dict[int, float], across: dict[int, float]
) -> float:
    """What a part counts at the least, whichever way it lies."""
    length, width, count, turn = part
    ways = [(length, width), (width, length)] if turn else [(length, width)]
    return count * min((along[x] * across[y] for x, y in ways if x <= whole[0] and y <= whole[1]), default=0.0)
