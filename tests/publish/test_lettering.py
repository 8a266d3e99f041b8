"""Lettering checked against the font files themselves, read by fontTools, and against its own promises."""

from __future__ import annotations

from pathlib import Path

import font_source_sans_pro
import pytest
from hypothesis import given
from hypothesis import strategies as st

from publish.drawing.lettering import INLINE, STACKED, fit, set_text, text_height, text_width, wrap
from publish.drawing.records import Label, Line, box_of
from publish.drawing.style import HOUSE
from publish.drawing.typeface import CAP_HEIGHT, FILES, FaceStyle, clean, unprintable

ttlib = pytest.importorskip("fontTools.ttLib")
bounds_pen = pytest.importorskip("fontTools.pens.boundsPen")

HOSTILE = st.text(max_size=30)


def font_of(style: FaceStyle):
    return ttlib.TTFont(Path(font_source_sans_pro.font_directory) / FILES[style])


@pytest.mark.parametrize("style", list(FILES))
def test_widths_are_the_advances_of_the_font_file(style: FaceStyle) -> None:
    font = font_of(style)
    cmap, advances, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    for string in ("Leg, front right", "Ø 45 × 45 mm — 6°", "Æble ″′"):
        expected = sum(advances[cmap[ord(c)]][0] for c in string) / em * 4.0
        assert text_width(string, 4.0, style) == pytest.approx(expected, abs=4.0 * 0.0011 * len(string))


def test_dimension_capitals_are_two_and_a_half_millimetres() -> None:
    """ISO 3098 has 2.5 mm as a nominal height (read second hand)."""
    cap = font_of("semibold")["OS/2"].sCapHeight / 1000
    assert pytest.approx(cap) == CAP_HEIGHT
    assert HOUSE.lettering.dimension * cap >= 2.5 - 1e-9


@pytest.mark.parametrize("style", list(FILES))
def test_label_boxes_hold_the_ink_of_every_letter(style: FaceStyle) -> None:
    font = font_of(style)
    glyphs, cmap = font.getGlyphSet(), font.getBestCmap()
    for code in [*range(0x21, 0x7F), *range(0xA1, 0x17F), *map(ord, "″′×°⁄·—–“”’½→✓•…−±")]:
        label = Label(0, 0, chr(code), 1.0, style)
        if code not in cmap or label.string != chr(code):
            continue
        pen = bounds_pen.BoundsPen(glyphs)
        glyphs[cmap[code]].draw(pen)
        if pen.bounds:
            assert label.box.bottom <= pen.bounds[1] / 1000 + 1e-6, chr(code)
            assert label.box.top >= pen.bounds[3] / 1000 - 1e-6, chr(code)


def figures(string: str) -> list[str]:
    return [r.string for r in set_text(string, 0, 0, 4.0) if isinstance(r, Label)]


@pytest.mark.parametrize(
    ("string", "parts"),
    [
        ("1 3⁄4″", ["1", "3", "4", "″"]),
        ("3⁄4", ["3", "4"]),
        ("1½″", ["1", "1", "2", "″"]),
        ("15⁄16″ × 7⁄8″", ["15", "16", "″ × ", "7", "8", "″"]),
        ("3/4 in", ["3/4 in"]),
        ("⁄4", ["⁄4"]),
        ("M6 × 40", ["M6 × 40"]),
    ],
)
def test_fractions_are_built_from_their_figures(string: str, parts: list[str]) -> None:
    assert figures(string) == parts


def test_a_fraction_is_stacked_about_the_middle_of_the_capitals() -> None:
    over, bar, under = set_text("3⁄4", 10.0, 20.0, 5.0)
    assert isinstance(over, Label) and isinstance(under, Label) and isinstance(bar, Line)
    assert over.size == under.size == pytest.approx(5.0 * 0.68)
    assert bar.y0 == bar.y1 == pytest.approx(20.0 + 0.66 * 5.0 / 2)
    assert over.y > bar.y0 > under.y + CAP_HEIGHT * under.size
    assert over.x == under.x == pytest.approx((bar.x0 + bar.x1) / 2)
    assert (over.reads, under.reads) == ("3/4", "")


def test_turned_text_is_the_same_text_a_quarter_turn_on() -> None:
    for flat, turned in zip(set_text("1 3⁄4″", 0, 0, 4.0), set_text("1 3⁄4″", 0, 0, 4.0, rotation=90), strict=True):
        assert turned.box.width == pytest.approx(flat.box.height)
        assert turned.box.bottom == pytest.approx(flat.box.left)
        assert turned.box.right == pytest.approx(-flat.box.bottom)


@given(HOSTILE, st.sampled_from(list(FILES)))
def test_any_string_is_safe_and_its_width_is_what_is_set(string: str, style: FaceStyle) -> None:
    records = set_text(string, 5.0, 5.0, 4.0, style)
    known = font_of_cached(style)
    for r in records:
        if isinstance(r, Label):
            assert all(ord(c) in known for c in r.string)
            assert not any(ord(c) < 32 for c in r.string)
    if records:
        assert box_of(records).right == pytest.approx(5.0 + text_width(string, 4.0, style), abs=1e-6)


_CMAPS: dict[str, set[int]] = {}


def font_of_cached(style: FaceStyle) -> set[int]:
    if style not in _CMAPS:
        _CMAPS[style] = set(font_of(style).getBestCmap())
    return _CMAPS[style]


def test_characters_the_face_lacks_are_replaced_and_reported() -> None:
    assert clean("a\u200ab\u2009c") == "a b c"
    assert clean("a\u202eb\x00c\x1bd\ud800") == "abcd"
    assert clean("木 leg?") == "? leg?"
    assert unprintable("木 leg 木卓?") == "木卓"


WORDS = st.lists(st.text("abcdefghi⁄123 ″", min_size=1, max_size=12), max_size=12).map(" ".join)


@given(WORDS, st.floats(8.0, 80.0))
def test_wrapped_lines_are_no_wider_than_asked_and_lose_nothing(string: str, width: float) -> None:
    lines = wrap(string, width, 3.0)
    assert all(text_width(line, 3.0) <= width + 1e-9 or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(string.split())


def test_a_mixed_number_is_not_broken_over_two_lines() -> None:
    for width in range(14, 60):
        for line in wrap("plane the rail to 1 3⁄4″ thick and 1 7⁄8″ wide", float(width), 3.0):
            assert not line.endswith(" 1") and not line.startswith("3⁄4")


@given(HOSTILE, st.floats(6.0, 60.0))
def test_fit_never_runs_over(string: str, width: float) -> None:
    said, size = fit(string, width, 5.0, 2.5)
    assert 2.5 <= size <= 5.0
    assert text_width(said, size) <= width + 1e-9 or said == "…"


def test_inline_fractions_stay_within_the_leading_of_body_text() -> None:
    size = HOUSE.lettering.body
    assert text_height("3⁄4", size, INLINE) < size * HOUSE.lettering.leading * 0.75
    assert text_height("3⁄4", size, STACKED) > text_height("3⁄4", size, INLINE)
