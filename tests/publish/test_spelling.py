"""Every word on every page is in the dictionary or of the trade, and each edition reads as its reader spells and sizes.

The dictionary is that of pyspellchecker, which takes American and British forms alike; which of the two an edition is
held to, the pairs below say. The example designs are ours: the names and notes in them are judged as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

import pytest
from spellchecker import SpellChecker

from model.piece import Piece
from publish.drawing.records import Label, Sheet
from publish.edition import Edition
from publish.words.spelling import AMERICAN, spelt
from publish.words.tools import TOOLS

# what joiners and drawing offices say and a small dictionary lacks; British forms of what it has in American
TRADE = {
    *("arris", "arrises"),  # sharp edges where two faces meet
    *("halving", "halvings", "haunched", "offcut", "offcuts"),  # joints, a tenon with a step, what is left over
    *("millimetres", "mitre", "mitres", "mould", "moulding", "mouldings", "centres", "colour", "leveller", "levellers"),
    *("dxf", "pdf"),  # kinds of file
}
NAMES = {"saltmarsh"}  # of the invented workshop in the example designs
LEAST = 3  # letters: shorter ones are marks and units
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")

# British, American (from memory of the usual dictionaries); wider than what our words hold today
PAIRS = """
    aluminium aluminum, analyse analyze, bevelled beveled, callipers calipers, catalogue catalog, centre center,
    centres centers, centred centered, colour color, coloured colored, dowelling doweling, favour favor, fibre
    fiber, grey gray, judgement judgment, labour labor, leveller leveler, levellers levelers, levelled leveled,
    levelling leveling, licence license, litre liter, metre meter, metres meters, millimetre millimeter,
    millimetres millimeters, mitre miter, mitred mitered, mitres miters, mould mold, moulding molding, mouldings
    moldings, neighbour neighbor, neighbours neighbors, plough plow, ploughed plowed, towards toward, travelling
    traveling, vapour vapor
"""
BRITISH, AMERICANS = (frozenset(pair.split()[n] for pair in PAIRS.split(",")) for n in (0, 1))
BOTH = {"judgment", "meter", "meters", "license"}  # also British, of other things
STRANGE = {"inch": BRITISH, "mm": AMERICANS - BOTH}

# sizes of the other system
SIZES = {
    "inch": re.compile(r"\d\s?(?:mm|cm|kg|m²|m³)(?!\w)"),
    "mm": re.compile(r"\d⁄\d|\d/\d|\d[\"″]|(?<!step )\b\d+ in\b(?! (?:place|the|from)\b)|\d (?:ft|lb|sq ft)\b"),
}
# pages that tell the other system too: hardware with its counterpart, boards by the rate they are sold at, and how
# large a sheet of paper is
TWO_SYSTEMS = {"hardware", "lumber"}

dictionary = SpellChecker()


def misspelt(texts: Iterable[str]) -> set[str]:
    """Words that are neither in the dictionary nor of the trade."""
    words = {word.lower() for text in texts for word in WORD.findall(text) if len(word) >= LEAST}
    return set(dictionary.unknown(words)) - TRADE - NAMES


def foreign(texts: Iterable[str], system: str) -> set[str]:
    """Words spelt as the reader of the other edition spells them."""
    return {word.lower() for text in texts for word in WORD.findall(text)} & STRANGE[system]


def sized_otherwise(text: str, system: str, named: Iterable[str] = ()) -> bool:
    """Whether a text tells a size in the units of the other edition; names of things as they are sold do not count."""
    for name in named:
        text = re.sub(rf"{re.escape(name)}(?!\w)", "", text, flags=re.IGNORECASE)
    return bool(SIZES[system].search(text))


def texts_of(sheets: Sequence[Sheet]) -> list[str]:
    return [record.string for sheet in sheets for record in sheet.items if isinstance(record, Label)]


def test_every_word_is_spelt_right(set_sheets: Sequence[Sheet]) -> None:
    assert not misspelt([*texts_of(set_sheets), *(sheet.title for sheet in set_sheets)])


def test_an_edition_is_spelt_in_one_way(set_sheets: Sequence[Sheet], unit_system: str) -> None:
    """American beside inches, British beside millimetres."""
    assert not foreign([*texts_of(set_sheets), *(sheet.title for sheet in set_sheets)], unit_system)


def test_no_size_is_in_the_other_system(edition: Edition, set_sheets: Sequence[Sheet], unit_system: str) -> None:
    """Boards and sheets go by the name they are sold under in either."""
    stocks = {(part.spec.made_of, part.spec.stock) for part in edition.piece.parts.values()}
    sold = {f"{wood}{between}{stock}" for wood, stock in stocks for between in (", ", ", from ", " ")}
    wrong = [
        text
        for sheet in set_sheets
        if not sheet.key.startswith(tuple(TWO_SYSTEMS))
        for text in texts_of([sheet])
        if sized_otherwise(text, unit_system, sold)
    ]
    assert not wrong


@pytest.mark.parametrize("wrong", ["Cut the mortisses.", "Glue teh rail", "2 TENNONS"])
def test_a_misspelling_is_found(wrong: str) -> None:
    assert misspelt([wrong])
    assert not misspelt(["Cut the mortises, glue the rail, ease every arris. 2 TENONS"])


def test_the_spelling_and_the_sizes_of_the_other_edition_are_found() -> None:
    assert foreign(["Mark the Centre."], "inch") == {"centre"}
    assert foreign(["Miter saw"], "mm") == {"miter"}
    assert sized_otherwise("bored 12 mm deep", "inch") and not sized_otherwise("bored 1⁄2 in deep", "inch")
    assert sized_otherwise("bored 1⁄2 in deep", "mm") and sized_otherwise("cut 3 in off", "mm")
    assert not sized_otherwise("Set the till of step 30 in place, 12 mm deep", "mm")
    assert not sized_otherwise("White oak, 4/4", "mm", ["white oak, 4/4"])
    assert sized_otherwise("White oak, 3/4 thick", "mm", ["white oak, 4/4"])


def test_our_table_holds_what_the_dictionaries_say() -> None:
    """Each line of it is one of the pairs, and nothing is changed twice."""
    assert AMERICAN.items() <= dict(pair.split() for pair in PAIRS.split(",")).items()
    assert not set(AMERICAN) & set(AMERICAN.values())


def test_what_the_maker_wrote_is_not_spelt_anew(rail_piece: Piece) -> None:
    """A part called `centre rail` keeps its name in the inch edition; our own `mitre saw` does not."""
    spec = rail_piece.design.spec
    named = {"centre rail": next(iter(spec.parts.values())), **spec.parts}
    design = replace(rail_piece.design, spec=spec.model_copy(update={"parts": named}))
    edition = Edition(replace(rail_piece, design=design), (), None, design.units("inch"))  # type: ignore[arg-type]
    metric = replace(edition, units=design.units("mm"))
    assert spelt(edition, "Mitre the Centre rail. MITRE") == "Miter the Centre rail. MITER"
    assert spelt(metric, TOOLS["ends"][1]) == TOOLS["ends"][1] != spelt(edition, TOOLS["ends"][1])
