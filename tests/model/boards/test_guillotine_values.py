import pytest

from model.boards.value import Valued, most_valuable

# Christofides & Whitlock 1977 (cgcut1), Beasley 1985 (gcut1), Cung, Hifi & Le Cun 2000 (CHL5): sheet, parts as
# (length, width, value, most), optimum without turning; with turning as re-solved by another program
CGCUT1 = [(8, 4, 66, 2), (3, 7, 35, 1), (8, 2, 24, 3), (3, 4, 17, 5), (3, 3, 11, 2), (3, 2, 8, 2), (2, 1, 2, 1)]
GCUT1 = [
    (167, 184),
    (114, 118),
    (167, 152),
    (83, 140),
    (70, 86),
    (143, 166),
    (120, 160),
    (66, 148),
    (87, 141),
    (69, 165),
]
CHL5 = [
    (14, 2, 1),
    (1, 5, 1),
    (20, 4, 2),
    (12, 3, 3),
    (11, 8, 2),
    (11, 6, 2),
    (7, 9, 1),
    (17, 5, 1),
    (7, 14, 2),
    (1, 7, 3),
]
CASES = {
    "cgcut1": ((15, 10), CGCUT1, 244, 260),
    "gcut1": ((250, 250), [(a, b, a * b, 1) for a, b in GCUT1], 48368, 58136),
    "CHL5": ((20, 20), [(a, b, a * b, n) for a, b, n in CHL5], 390, 400),  # 400: the whole sheet
}


def guillotine(lays, axis=0, stuck=False) -> bool:
    """Whether boxes can be parted one from another by cuts from edge to edge."""
    if len(lays) == 1:
        return True
    lays = sorted(lays, key=lambda box: box[axis])
    for i in range(1, len(lays)):
        if max(box[axis + 2] for box in lays[:i]) <= lays[i][axis]:
            return guillotine(lays[:i], 1 - axis) and guillotine(lays[i:], axis)
    return not stuck and guillotine(lays, 1 - axis, True)


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("turn", [False, True])
def test_published_guillotine_optima(name, turn) -> None:
    (length, width), parts, straight, turned = CASES[name]
    best = most_valuable([Valued(*part, turn) for part in parts], length, width)
    assert best.value == best.top == (turned if turn else straight)
    counts = [sum(number == i for number, _, _ in best.lays) for i in range(len(parts))]
    assert all(n <= most for n, (*_, most) in zip(counts, parts, strict=True))
    assert sum(n * part[2] for n, part in zip(counts, parts, strict=True)) == best.value
    boxes = [box for _, box, _ in best.lays]
    assert all(x1 <= length and y1 <= width for _, _, x1, y1 in boxes)
    assert guillotine(boxes)


def test_gives_a_ceiling_when_effort_runs_out() -> None:
    (length, width), parts, optimum, _ = CASES["CHL5"]
    best = most_valuable([Valued(*part) for part in parts], length, width, effort=5)
    assert best.value < optimum <= best.top
