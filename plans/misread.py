"""Formulas that are refused before or while they are parsed, told to a maker."""

import re

from lark import Token, UnexpectedCharacters, UnexpectedEOF, UnexpectedInput, UnexpectedToken

from plans.quantities import Refusal

LENGTH_LIMIT = 500  # characters
DEPTH_LIMIT = 30  # brackets
DIGIT_LIMIT = 15


def check_text(text: str) -> None:
    """Refuses what is too long, too deep, or can be read in two ways, before anything is parsed."""
    if len(text) > LENGTH_LIMIT:
        raise Refusal(
            "formula-too-long",
            f"a formula may have {LENGTH_LIMIT} characters; this one has {len(text)}",
            "give parts of it names",
        )
    depth = 0
    for offset, character in enumerate(text):
        depth += (character == "(") - (character == ")")
        if depth > DEPTH_LIMIT:
            raise Refusal(
                "formula-too-long",
                f"brackets are nested more than {DEPTH_LIMIT} deep",
                "give parts of it names",
                offset,
            )
    if long := re.search(rf"\d{{{DIGIT_LIMIT + 1},}}", text):
        raise Refusal("number-too-large", f"a number may have {DIGIT_LIMIT} digits", "check the number", long.start())
    if hyphen := re.search(r"(?<![\w.])(\d+)-(\d+[/⁄]\d+)", text):
        whole, fraction = hyphen.groups()
        message = f"`{hyphen[0]}` can be read as a mixed number or as a subtraction"
        raise Refusal("two-readings", message, f"write `{whole} {fraction}` or `{whole} - {fraction}`", hyphen.start())


_FOREIGN_UNITS = (
    "cm",
    "m",
    "inch",
    "inches",
    "foot",
    "feet",
    "yd",
    "yard",
    "dm",
    "degree",
    "degrees",
    "rad",
    "millimetre",
    "millimetres",
)


def misread(text: str, error: UnexpectedInput) -> Refusal:
    """The refusal of a formula that does not parse, at the place where it goes wrong."""
    if isinstance(error, UnexpectedToken) and error.token.type != "$END":
        return _misread_token(text, error.token)
    if isinstance(error, UnexpectedCharacters):
        return _misread_character(text, error.pos_in_stream or 0)
    assert isinstance(error, UnexpectedEOF | UnexpectedToken)
    return _broken_off(text)


def _broken_off(text: str) -> Refusal:
    if text.count("(") > text.count(")"):
        opened: list[int] = []
        for offset, character in enumerate(text):
            if character == "(":
                opened.append(offset)
            elif character == ")" and opened:
                opened.pop()
        return Refusal("formula-syntax", "this bracket is not closed", "add `)`", opened[-1])
    if bare := re.search(r"(?:ft|['′]) *([\d½¼¾⅛⅜⅝⅞./⁄ ]+)$", text):
        return Refusal(
            "formula-syntax", "the inches after the feet need their unit", "write them as in `3' 6\"`", bare.start(1)
        )
    message = "this breaks off; a value is missing at its end" if text.strip() else "a value is missing"
    return Refusal("formula-syntax", message, "finish the formula", max(len(text.rstrip()) - 1, 0))


def _misread_token(text: str, token: Token) -> Refusal:
    offset = token.start_pos or 0
    before = text[:offset].rstrip()
    after_number = bool(before) and (before[-1].isdigit() or before[-1] in "½¼¾⅛⅜⅝⅞")
    if token.type == "COMMA" and after_number and text[offset + 1 : offset + 2].isdigit():
        return _decimal_comma(text, offset)
    if after_number and str(token) in _FOREIGN_UNITS:
        hint = "lengths are in `in`, `ft` or `mm`, angles in `deg`"
        return Refusal("unknown-unit", f"`{token}` is not a unit that is known here", hint, offset)
    if token == "*" and text[:offset].endswith("*"):
        return _no_powers(offset)
    if token.type in ("NAME", "REFERENCE", "NUMBER", "LPAR"):
        hint = "put `+`, `-`, `*` or `/` between them; text that is no formula does not belong here"
        return Refusal("formula-syntax", f"nothing joins `{token}` to what stands before it", hint, offset)
    return Refusal("formula-syntax", f"`{token}` cannot stand here", "check the formula", offset)


def _misread_character(text: str, offset: int) -> Refusal:
    character = text[offset]
    if character == "," and offset and text[offset - 1].isdigit():
        return _decimal_comma(text, offset)
    if character == "^":
        return _no_powers(offset)
    return Refusal(
        "formula-syntax",
        f"`{character}` has no meaning in a formula",
        "use numbers, names, `+ - * /` and brackets",
        offset,
    )


def _no_powers(offset: int) -> Refusal:
    return Refusal("formula-syntax", "formulas have no powers", "write the product out, as in `a * a`", offset)


def _decimal_comma(text: str, offset: int) -> Refusal:
    return Refusal(
        "decimal-comma",
        "a comma cannot stand inside a number",
        "use a decimal point, as in `1.5`, and none for thousands",
        offset,
    )
