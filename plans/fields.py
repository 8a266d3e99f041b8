"""The kinds of value a design file may hold, and how each is read.

Every field is a formula text until it is read here against the design's scope (handed over as
pydantic's validation context); from then on it is a plain number in millimetres or degrees, a
name, or a `Position`.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    StringConstraints,
    ValidationInfo,
    WithJsonSchema,
)
from pydantic_core import CoreSchema, core_schema

from plans.kinds import refused
from plans.quantities import Refusal
from plans.readers import (
    CutTarget,
    Position,
    SizeOfPart,
    Term,
    read_angle,
    read_arrises,
    read_centred,
    read_corner,
    read_count,
    read_cut_target,
    read_day,
    read_density,
    read_gap,
    read_gaps,
    read_length,
    read_part_name,
    read_position,
    read_positive_length,
    read_ratio,
    read_size_of_part,
    read_swing,
)
from plans.scope import Scope
from plans.sides import SIDES, Axis, Side


class Entry(BaseModel):
    """Base of everything that is written in a design file: unknown keys are refused, nothing changes later."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=False)


Reader = Callable[[Scope, Any], Any]


def _reading(read: Reader) -> BeforeValidator:
    """A validator that reads what was written against the scope; a `Refusal` becomes an error pydantic can carry."""

    def before(raw: Any, info: ValidationInfo) -> Any:
        assert isinstance(info.context, Scope), "a design is read with its scope as context"
        try:
            return read(info.context, raw)
        except Refusal as refusal:
            raise refused(
                refusal.code,
                refusal.message,
                refusal.hint,
                offset=refusal.offset,
                member=refusal.member,
                chain=refusal.chain,
                told=refusal.told,
            ) from None

    return BeforeValidator(before)


def _named_values(raw: Any, info: ValidationInfo) -> Any:
    """The values of `lengths`, `angles` or `counts` (mm, degrees, whole numbers), from the opened scope."""
    assert isinstance(info.context, Scope)
    return info.context.worked_out(str(info.field_name)) if isinstance(raw, dict) else raw


@dataclass(frozen=True)
class _OneOrMore:
    """A single value stands for a list of one."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(_as_list, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        many = handler(schema["schema"])
        return {"anyOf": [many["items"], many]}


def _mark(raw: Any) -> Any:
    if isinstance(raw, str) and re.fullmatch("[A-Z]{1,2}", raw):
        return raw
    raise refused("wrong-value", "a mark is one or two large letters", "as in `leg: B`")


def _as_list(raw: Any) -> Any:
    items = raw if isinstance(raw, list | tuple) else [raw]
    if len({str(item) for item in items}) < len(items):
        raise refused("wrong-value", "the same word stands twice in this list", "say each once")
    return items


_NUMBER: dict[str, Any] = {"type": ["string", "number"]}
_PAIR: dict[str, Any] = {
    "type": "object",
    "description": "a value of its own for each system of units",
    "properties": {"inch": _NUMBER, "mm": _NUMBER},
    "required": ["inch", "mm"],
    "additionalProperties": False,
}
_NUMBER_OR_PAIR: dict[str, Any] = {"anyOf": [_NUMBER, _PAIR]}


def _formula(what: str) -> WithJsonSchema:
    return WithJsonSchema({**_NUMBER_OR_PAIR, "title": what})


def _word(what: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "title": what})


Length = Annotated[float, _reading(read_length), _formula("a length, or a formula for one")]  # mm
PositiveLength = Annotated[
    float, _reading(read_positive_length), _formula("a length above 0, or a formula for one")
]  # mm
Angle = Annotated[float, _reading(read_angle), _formula("an angle in degrees, or a formula for one")]  # degrees
PositiveCount = Annotated[int, _reading(read_count), _formula("a whole number from 1, or a formula for one")]
SwingAngle = Annotated[float, _reading(read_swing), _formula("an angle up to 270 degrees, or a formula for one")]
Ratio = Annotated[float, _reading(read_ratio), _formula("a share between 0 and 1")]
Density = Annotated[float, _reading(read_density), _formula("a density in kg/m3")]
PartName = Annotated[str, _reading(read_part_name), _word("the name of a part")]
WrittenPosition = Annotated[
    Position,
    _reading(read_position),
    _formula("a place: a length from the floor or the centre line, or from a side of a part"),
]
WrittenSize = Annotated[SizeOfPart, _reading(read_size_of_part), _word("a size of a part, as `leg.length`")]
WrittenCut = Annotated[CutTarget, _reading(read_cut_target), _formula("a part, the floor, or a place")]
Corner = Annotated[tuple[Side, Side], _reading(read_corner), _word("the two sides that meet at an arris")]
Gap = Annotated[float, _reading(read_gap), _formula("a length from 0, or a formula for one")]  # mm
Gaps = Annotated[
    dict[Side, Gap],
    _reading(read_gaps),
    WithJsonSchema(
        {
            "title": "a length for every cut, or one for each side",
            "anyOf": [
                *_NUMBER_OR_PAIR["anyOf"],
                {
                    "type": "object",
                    "properties": dict.fromkeys(SIDES, _NUMBER_OR_PAIR),
                    "additionalProperties": False,
                },
            ],
        }
    ),
]
Day = Annotated[
    date, _reading(read_day), WithJsonSchema({"type": "string", "format": "date", "title": "year-month-day"})
]
Arrises = Annotated[
    tuple[str, ...],
    _reading(read_arrises),
    WithJsonSchema(
        {
            "title": "long, ends, all, or arrises named by the two sides that meet there",
            "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}],
        }
    ),
]
Centred = Annotated[
    dict[Axis, PartName | None],
    _reading(read_centred),
    WithJsonSchema(
        {
            "title": "directions in which it is centred, on the piece or on a part",
            "anyOf": [
                {"enum": ["left-right", "front-back", "up-down"]},
                {"type": "array", "items": {"enum": ["left-right", "front-back", "up-down"]}},
                {"type": "object", "additionalProperties": {"type": ["string", "null"]}},
            ],
        }
    ),
]
NamedValues = Annotated[
    dict[str, float],
    BeforeValidator(_named_values),
    WithJsonSchema({"type": "object", "additionalProperties": _NUMBER_OR_PAIR, "title": "values by name"}),
]
Mark = Annotated[str, BeforeValidator(_mark), WithJsonSchema({"type": "string", "pattern": "^[A-Z]{1,2}$"})]
Line = Annotated[str, StringConstraints(min_length=1, max_length=120)]  # a name, a heading
Words = Annotated[str, StringConstraints(min_length=1, max_length=1000)]  # a sentence or a few
T = TypeVar("T")
OneOrMore = Annotated[tuple[T, ...], _OneOrMore()]  # a single value or a list in the file
__all__ = ["Axis", "CutTarget", "Position", "Side", "SizeOfPart", "Term"]
