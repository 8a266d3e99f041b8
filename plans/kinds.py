"""Entries that are said by their kind: `{mortise and tenon: {...}}`, looked up in an explicit table."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from plans.suggest import did_you_mean, listed


@dataclass(frozen=True, eq=False)
class SaidByKind:
    """Annotation for a field whose entries are one-key mappings from a kind in `table` to its fields."""

    table: Mapping[str, type[BaseModel]]
    noun: str  # joint, shaping, fixing

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """One schema a kind; the kind becomes part of the path of every error."""
        choices: dict[Any, CoreSchema] = {
            kind: core_schema.no_info_before_validator_function(_fields, handler.generate_schema(entry))
            for kind, entry in self.table.items()
        }
        tagged = core_schema.tagged_union_schema(choices, discriminator=_kind)
        return core_schema.no_info_before_validator_function(self._one_kind, tagged)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """One of the kinds, each a mapping with that one key."""
        choices = schema["schema"]["choices"]
        return {
            "oneOf": [
                {
                    "type": "object",
                    "title": kind,
                    "properties": {kind: handler(choice["schema"])},
                    "required": [kind],
                    "additionalProperties": False,
                }
                for kind, choice in choices.items()
            ]
        }

    def _one_kind(self, raw: Any) -> Any:
        """Refuses what is not one known kind."""
        if isinstance(raw, BaseModel):
            return raw
        example = next(iter(self.table))
        if not isinstance(raw, dict) or len(raw) != 1:
            found = f"{len(raw)} keys stand" if isinstance(raw, dict) else "no `kind:` stands"
            message = f"each {self.noun} is one kind and its fields; {found} here"
            raise refused("one-kind-each", message, f"write `- {example}: {{...}}`, each on a line of its own")
        kind = _kind(raw)
        if kind not in self.table:
            hint = did_you_mean(kind, self.table) or f"there are {listed(self.table)}"
            raise refused("unknown-kind", f"'{kind}' is no kind of {self.noun}", hint)
        return raw


def kind_of(table: Mapping[str, type[BaseModel]], entry: BaseModel) -> str:
    """The words that an entry of a table is said with."""
    return next(kind for kind, made in table.items() if type(entry) is made)


def refused(code: str, message: str, hint: str = "", **more: Any) -> PydanticCustomError:
    """An error of ours, for pydantic to carry: code, sentence, hint, and what else the report needs."""
    return PydanticCustomError("ours", "{message}", {"code": code, "message": message, "hint": hint, **more})


def _kind(raw: Any) -> str:
    return str(next(iter(raw)))


def _fields(raw: dict[str, Any]) -> Any:
    return next(iter(raw.values()))
