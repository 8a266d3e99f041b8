"""Board layouts against published classes and a general packing library. Run: python -m tests.benchmark_boards [n].

Sheets: the ten classes of two-dimensional bin packing, made by the rules of Berkey & Wang (1987; classes 1-6) and
Martello & Vigo (1998; classes 7-10), rules from memory, seeds our own. The library `rectpack` may neither be held to
stages nor counts kerf, so kerf is 0; it is given its three guillotine packers and all sort orders, the best counts.
Parts keep their grain. Ours is cut in at most 3 stages; `bound` is proven, and holds for any layout at all, cut from
edge to edge or not. On the published instances of these classes the best known totals are about 1 % above the best
known bounds (from memory). 2026-11-25, two seeds each: 855 sheets for a bound of 843, 1.4 % over it.
"""

from __future__ import annotations

import sys
from random import Random
from time import process_time

import rectpack

from model.boards.lengths import lay_out_lengths
from model.boards.pieces import Board, Layout, Rules, Wanted
from model.boards.sheets import lay_out_sheets

Sizes = list[tuple[int, int]]
UNIFORM = {1: (10, 10), 2: (10, 30), 3: (35, 40), 4: (35, 100), 5: (100, 100), 6: (100, 300)}  # largest part, sheet
MIXED = 100  # sheet of classes 7 to 10
# (least, most) length and width of the four types of part, as shares of the sheet
TYPES = (((2 / 3, 1), (0, 1 / 2)), ((0, 1 / 2), (2 / 3, 1)), ((1 / 2, 1), (1 / 2, 1)), ((0, 1 / 2), (0, 1 / 2)))


def instance(group: int, parts: int, seed: int) -> tuple[int, Sizes]:
    """Sheet (square) and parts of one instance."""
    chance = Random(f"{group}-{parts}-{seed}")
    if group in UNIFORM:
        largest, sheet = UNIFORM[group]
        return sheet, [(chance.randint(1, largest), chance.randint(1, largest)) for _ in range(parts)]
    own = group - 7
    return MIXED, [_mixed(chance, own) for _ in range(parts)]


def _mixed(chance: Random, own: int) -> tuple[int, int]:
    """70 % of a class are of its own type, 10 % of each other."""
    kind = own if chance.random() < 0.7 else chance.choice([k for k in range(4) if k != own])
    (a, b), (c, d) = TYPES[kind]
    return (
        chance.randint(max(1, int(a * MIXED)), int(b * MIXED)),
        chance.randint(max(1, int(c * MIXED)), int(d * MIXED)),
    )


def ours(sheet: int, sizes: Sizes) -> Layout:
    parts = [Wanted(str(i), length, width) for i, (length, width) in enumerate(sizes)]
    return lay_out_sheets(parts, [Board("sheet", sheet, sheet)], Rules(kerf=0))


def theirs(sheet: int, sizes: Sizes) -> int:
    packers = (rectpack.GuillotineBssfSas, rectpack.GuillotineBafMinas, rectpack.GuillotineBlsfLas)
    orders = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI)
    return min(_packed(sheet, sizes, packer, order) for packer in packers for order in orders)


def _packed(sheet: int, sizes: Sizes, packer: type, order: object) -> int:
    job = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.Global,
        pack_algo=packer,
        sort_algo=order,
        rotation=False,
    )
    for length, width in sizes:
        job.add_rect(length, width)
    job.add_bin(sheet, sheet, count=float("inf"))
    job.pack()
    return len(job)


def sheets(seeds: int) -> None:
    print(f"{'class':>5} {'parts':>5} {'theirs':>7} {'ours':>6} {'bound':>6} {'s, most':>8}")
    total = [0, 0, 0]
    for group in range(1, 11):
        for parts in (20, 60, 100):
            row, slowest = [0, 0, 0], 0.0
            for seed in range(seeds):
                sheet, sizes = instance(group, parts, seed)
                started = process_time()
                layout = ours(sheet, sizes)
                slowest = max(slowest, process_time() - started)
                row = [a + b for a, b in zip(row, (theirs(sheet, sizes), layout.used, layout.bound), strict=True)]
            total = [a + b for a, b in zip(total, row, strict=True)]
            print(f"{group:5} {parts:5} {row[0]:7} {row[1]:6} {row[2]:6} {slowest:8.1f}", flush=True)
    print(f"{'all':>11} {total[0]:7} {total[1]:6} {total[2]:6}   ours over bound {total[1] / total[2] - 1:.1%}")


def lengths() -> None:
    print(f"{'parts':>5} {'from':>5} {'to':>5} {'used':>5} {'bound':>6} {'proven':>7} {'s':>6}")
    chance = Random("lengths")
    for parts, least, most in ((60, 200, 1800), (60, 400, 1000), (250, 200, 1800), (250, 300, 1000), (250, 600, 1100)):
        wanted = [Wanted(str(i), round(chance.uniform(least, most), 1)) for i in range(parts)]
        started = process_time()
        layout = lay_out_lengths(wanted, [Board("bar", 2440)], Rules(kerf=3.2))
        spent = process_time() - started
        print(f"{parts:5} {least:5} {most:5} {layout.used:5} {layout.bound:6} {layout.proven!s:>7} {spent:6.1f}")


if __name__ == "__main__":
    lengths()
    sheets(int(sys.argv[1]) if len(sys.argv) > 1 else 1)
