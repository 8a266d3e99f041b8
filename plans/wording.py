"""From errors of the schema and of formulas to problems a maker understands."""

import re
from collections.abc import Callable, Iterable
from typing import Any

from pydantic_core import ErrorDetails

from plans.fields import Entry
from plans.fixings import FIXINGS
from plans.glued_up import GluedUp
from plans.house import HouseColours, HouseSpec
from plans.joints import JOINTS
from plans.joints.mitre import MitreKeys, Spline
from plans.joints.mortise_and_tenon import Wedges
from plans.measured import DidDifferently, Measured
from plans.own_steps import OwnStep
from plans.pegs import Pegs
from plans.placing import Assembly, Lean, Opens, Repeat, SetBy, Where
from plans.problems import Place, Problem
from plans.quantities import Refusal
from plans.shaping import SHAPINGS
from plans.source import KeyPath, Source
from plans.spec import (
    Air,
    BoardSpec,
    Climate,
    Defect,
    DesignSpec,
    Finish,
    Load,
    Moisture,
    PartSpec,
    RevisionNote,
    Saw,
    Supply,
)
from plans.suggest import did_you_mean, listed

_ENTRIES: dict[KeyPath, type[Entry]] = {
    (): DesignSpec,
    ("parts", "*"): PartSpec,
    ("parts", "*", "where"): Where,
    ("parts", "*", "lean"): Lean,
    ("parts", "*", "repeat"): Repeat,
    ("parts", "*", "glued up"): GluedUp,
    ("assemblies", "*"): Assembly,
    ("assemblies", "*", "where"): SetBy,
    ("assemblies", "*", "repeat"): Repeat,
    ("assemblies", "*", "opens"): Opens,
    ("supplies", "*"): Supply,
    ("steps", "*"): OwnStep,
    ("revisions", "*"): RevisionNote,
    ("measured", "*"): Measured,
    ("did differently", "*"): DidDifferently,
    ("finish",): Finish,
    ("house",): HouseSpec,
    ("house", "colours"): HouseColours,
    ("saw",): Saw,
    ("boards", "*"): BoardSpec,
    ("boards", "*", "defects", "*"): Defect,
    ("moisture",): Moisture,
    ("climate",): Climate,
    ("climate", "dry"): Air,
    ("climate", "damp"): Air,
    ("loads", "*"): Load,
    **{("joints", "*", kind): entry for kind, entry in JOINTS.items()},
    **{("joints", "*", kind, "pegs"): Pegs for kind in ("mortise and tenon", "breadboard end")},
    ("joints", "*", "mortise and tenon", "wedges"): Wedges,
    ("joints", "*", "mitre", "spline"): Spline,
    ("joints", "*", "mitre", "keys"): MitreKeys,
    **{("fixings", "*", kind): entry for kind, entry in FIXINGS.items()},
    **{("parts", "*", "shaping", "*", kind): entry for kind, entry in SHAPINGS.items()},
}
_ONE_OF = {
    "joints": "joint",
    "fixings": "fixing",
    "supplies": "supply",
    "steps": "step",
    "boards": "board",
    "revisions": "revision note",
    "loads": "load",
}


def spoken(path: KeyPath) -> str:
    """A path as a maker would say it: `rail.length`, `joint 2 (bridle).thick`."""
    words: list[str] = []
    after_number = False
    for item in path[1:] if path[:1] in (("parts",), ("assemblies",)) and len(path) > 1 else path:
        if isinstance(item, int) and words:
            words[-1] = f"{_ONE_OF.get(words[-1], words[-1])} {item + 1}"
        elif after_number and (item in JOINTS or item in FIXINGS or item in SHAPINGS):
            words[-1] += f" ({item})"
        else:
            words.append(str(item))
        after_number = isinstance(item, int)
    return ".".join(words)


def refusal_problem(source: Source, path: KeyPath, refusal: Refusal) -> Problem:
    """The problem of a formula that could not be worked out."""
    if refusal.at_key:
        return _problem(source.key_place(path), refusal.code, path, refusal.message, refusal.hint)
    path = (*path, refusal.member) if refusal.member else path
    place = source.text_place(path, refusal.offset)
    return _problem(place, refusal.code, path, refusal.message, refusal.hint, refusal.chain)


def schema_problems(source: Source, errors: Iterable[ErrorDetails], prefix: KeyPath = ()) -> list[Problem]:
    """The problems behind the errors of the schema, without those that are told elsewhere."""
    problems: list[Problem] = []
    for error in errors:
        path = (*prefix, *error["loc"])
        context = error.get("ctx", {})
        if error["type"] == "ours":
            if not context.get("told"):
                problems.append(_ours(source, path, context))
        elif path and path[-1] == "[key]":
            problems.append(_wrong_key(source, path[:-1], context))
        else:
            problems.append(_WORDED.get(error["type"], _other)(source, path, context))
    return problems


def _problem(
    place: Place, code: str, path: KeyPath, message: str, hint: str = "", formulas: tuple[str, ...] = ()
) -> Problem:
    where = spoken(path)
    parts = (str(path[1]),) if len(path) > 1 and path[0] == "parts" else ()
    told = f"{where}: {message}" if where else message
    return Problem(code, "error", told, place, hint, parts, formulas=formulas)


def _ours(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    if context.get("member"):
        path = (*path, context["member"])
    place = source.text_place(path, context.get("offset", 0))
    return _problem(place, context["code"], path, context["message"], context["hint"], tuple(context.get("chain", ())))


def _expected(context: dict[str, Any]) -> list[str]:
    return re.findall(r"'([^']*)'", str(context.get("expected", "")))


def _wrong_key(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    words = _expected(context)
    hint = did_you_mean(str(path[-1]), words) or f"there are {listed(words)}"
    return _problem(source.key_place(path), "unknown-word", path[:-1], f"'{path[-1]}' cannot stand here", hint)


def _missing(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    entry = entry_at(path[:-1])
    hint = ""
    for name, field in (entry.model_fields if entry else {}).items():
        if (field.alias or name) == path[-1] and field.description:
            hint = f"say {field.description}"
    return _problem(
        source.place(path[:-1]), "missing-key", path[:-1], f"`{path[-1]}` is missing", hint or f"add `{path[-1]}:`"
    )


def _extra(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    entry = entry_at(path[:-1])
    known = [field.alias or name for name, field in entry.model_fields.items()] if entry else []
    hint = did_you_mean(str(path[-1]), known) or (f"there are {listed(known)}" if known else "take it out")
    return _problem(source.key_place(path), "unknown-key", path[:-1], f"`{path[-1]}` has no meaning here", hint)


def _literal(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    words = _expected(context)
    written = source.written(path) or ""
    hint = did_you_mean(written, words) or f"write {listed(words)}"
    return _problem(
        source.place(path),
        "unknown-word",
        path,
        f"'{written}' cannot stand here" if written else "a word is needed here",
        hint,
    )


def _sentence(code: str, message: str, hint: str) -> Callable[[Source, KeyPath, dict[str, Any]], Problem]:
    def worded(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
        return _problem(source.place(path), code, path, message, hint)

    return worded


def _too_many(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    message = f"only {context['max_length']} can stand here, and there are more"
    return _problem(source.place(path), "wrong-value", path, message, "take some out")


def _too_few(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    listed_here, least = context["actual_length"], context["min_length"]
    message = f"{listed_here or 'nothing'} is listed here" if listed_here < 2 else f"{listed_here} are listed here"
    return _problem(
        source.place(path), "wrong-value", path, message, f"write at least {'one' if least == 1 else least}"
    )


def _too_long(source: Source, path: KeyPath, context: dict[str, Any]) -> Problem:
    message = f"this text is longer than {context['max_length']} characters"
    return _problem(source.place(path), "wrong-value", path, message, "make it shorter")


_other = _sentence("wrong-value", "this cannot stand here", "compare it with an example design")
_mapping = _sentence("not-a-mapping", "keys and values are needed here", "write `key: value` lines, or `{key: value}`")
_list = _sentence("wrong-value", "a list is needed here", "begin each item with `- `, or write `[one, two]`")
_text = _sentence("wrong-value", "a text is needed here", "write it, in quotes if need be")
_WORDED: dict[str, Callable[[Source, KeyPath, dict[str, Any]], Problem]] = {
    "missing": _missing,
    "extra_forbidden": _extra,
    "literal_error": _literal,
    "string_type": _text,
    "string_too_short": _text,
    "string_too_long": _too_long,
    "dict_type": _mapping,
    "model_type": _mapping,
    "model_attributes_type": _mapping,
    "tuple_type": _list,
    "too_short": _too_few,
    "too_long": _too_many,
    "bool_type": _sentence("wrong-value", "yes or no is needed here", "write `true` or `false`"),
    "bool_parsing": _sentence("wrong-value", "yes or no is needed here", "write `true` or `false`"),
}


def entry_at(path: KeyPath) -> type[Entry] | None:
    """What stands at a path of a design file: which entry, by its class."""
    names = {*("parts", "assemblies", "joints", "fixings", "supplies", "steps", "revisions", "shaping", "loads")}
    names |= {"measured", "did differently"}
    pattern = tuple("*" if number and path[number - 1] in names else item for number, item in enumerate(path))
    return _ENTRIES.get(pattern)
