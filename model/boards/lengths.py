"""Layouts along one dimension: sticks and boards cut to length."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from model.boards.columns import Bar, CutPlan, Pattern, Task, plan_cuts
from model.boards.costs import Costs, costs_of
from model.boards.pieces import Board, LaidBoard, Layout, Rules, Wanted
from model.boards.sequence import Rect, laid_board
from model.boards.ticks import face_of, ticks


@dataclass(frozen=True)
class _Run:
    """A clear run of a board between defects: which board, where it starts, how long (grown ticks)."""

    board: int
    start: int
    length: int


@dataclass(frozen=True)
class _Chunk:
    """What must come off one run together: marks and grown lengths, longest first."""

    parts: tuple[tuple[int, str], ...]

    @property
    def length(self) -> int:
        return sum(length for length, _ in self.parts)


def lay_out_lengths(wanted: Sequence[Wanted], boards: Sequence[Board], rules: Rules) -> Layout:
    """Parts cut to length from boards; widths play no part (a part is as wide as its board).

    Parts that must come from one board are cut side by side from one clear run of it. Proven optimal or,
    as a rule, one board over at most; `bound` is the linear programme's, rounded up.
    """
    chunks = _chunks(wanted, ticks(rules.kerf))
    runs = [run for number, board in enumerate(boards) for run in _runs(number, board, rules)]
    longest = max((run.length for run in runs), default=0)
    fitting = {chunk: n for chunk, n in chunks.items() if chunk.length <= longest}
    missing = Counter({chunk: n for chunk, n in chunks.items() if chunk.length > longest})
    if not fitting:
        return Layout((), 0, not missing, _marks(missing))
    costs = costs_of(boards)
    task = _task(fitting, runs, boards, costs)
    plan = plan_cuts(task)
    missing.update({chunk: n for chunk, n in zip(fitting, plan.missing, strict=True) if n})
    laid = _laid(tuple(fitting), runs, boards, plan, rules)
    layout = Layout(laid, 0, False, _marks(missing))
    split = any(len(chunk.parts) > 1 for chunk in fitting) and any(board.defects for board in boards)
    least = 0.0 if split or any(plan.missing) else plan.least
    return costs.judged(layout, boards, least)


def _chunks(wanted: Sequence[Wanted], kerf: int) -> dict[_Chunk, int]:
    """Chunks and how many of each, longest first."""
    together: dict[str, list[tuple[int, str]]] = {}
    chunks: Counter[_Chunk] = Counter()
    for part in wanted:
        one = (ticks(part.length) + kerf, part.mark)
        if part.same_board is None:
            chunks[_Chunk((one,))] += part.count
        else:
            together.setdefault(part.same_board, []).extend([one] * part.count)
    for parts in together.values():
        chunks[_Chunk(tuple(sorted(parts, reverse=True)))] += 1
    return {chunk: n for chunk, n in sorted(chunks.items(), key=lambda pair: (-pair[0].length, pair[0].parts)) if n}


def _runs(number: int, board: Board, rules: Rules) -> list[_Run]:
    face = face_of(board, rules)
    start, _, last, _ = face.clear
    runs = []
    for low, _, high, _ in [*face.defects, (last, 0, last, 0)]:
        if low - start > face.kerf:
            runs.append(_Run(number, start, low - start))
        start = max(start, high)
    return runs


def _marks(missing: Counter[_Chunk]) -> tuple[tuple[str, int], ...]:
    count: Counter[str] = Counter()
    for chunk, n in missing.items():
        for _, mark in chunk.parts:
            count[mark] += n
    return tuple(sorted(count.items()))


def _task(chunks: dict[_Chunk, int], runs: list[_Run], boards: Sequence[Board], costs: Costs) -> Task:
    """Each run is a bar; it bears its share of its board's cost."""
    clear = Counter[int]()
    for run in runs:
        clear[run.board] += run.length
    bars = tuple(
        Bar(run.length, costs.each[run.board] * run.length / clear[run.board], boards[run.board].available)
        for run in runs
    )
    bought = [run.board for run in runs if costs.counted[run.board]]
    split = len(bought) > len(set(bought))  # then what is bought costs no multiple of the unit
    return Task(
        tuple(chunk.length for chunk in chunks),
        tuple(chunks.values()),
        bars,
        replace(costs, unit=0.0) if split else costs,
    )


def _laid(
    chunks: tuple[_Chunk, ...], runs: list[_Run], boards: Sequence[Board], plan: CutPlan, rules: Rules
) -> tuple[LaidBoard, ...]:
    """Patterns onto boards: the n-th board of a kind takes the n-th pattern of each of its runs."""
    alike: Counter[tuple[int, tuple[Pattern, ...]]] = Counter()
    for number in range(len(boards)):
        queues = [[(p, n) for p, n in plan.uses if p.bar == j] for j, run in enumerate(runs) if run.board == number]
        while any(queues):
            times = min(queue[0][1] for queue in queues if queue)
            alike[number, tuple(queue[0][0] for queue in queues if queue)] += times
            queues = [_without(queue, times) for queue in queues]
    laid = []
    for (number, patterns), times in alike.items():
        rects = [rect for pattern in patterns for rect in _rects(chunks, runs[pattern.bar], pattern, boards, rules)]
        one = laid_board(boards[number], rects, rules, ("crosscut",))
        laid.append(LaidBoard(one.board, one.placed, one.cuts, one.offcuts, times))
    return tuple(laid)


def _without(queue: list[tuple[Pattern, int]], times: int) -> list[tuple[Pattern, int]]:
    if not queue:
        return []
    (pattern, n), *others = queue
    return [(pattern, n - times), *others] if n > times else others


def _rects(
    chunks: tuple[_Chunk, ...], run: _Run, pattern: Pattern, boards: Sequence[Board], rules: Rules
) -> list[Rect]:
    _, low, _, high = face_of(boards[run.board], rules).clear
    parts = [part for chunk, n in zip(chunks, pattern.counts, strict=True) for part in chunk.parts * n]
    rects, x = [], run.start
    for length, mark in parts:
        rects.append(Rect(mark, (x, low, x + length, high)))
        x += length
    return rects
