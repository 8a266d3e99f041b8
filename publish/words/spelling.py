"""Our words as the reader of an edition spells them: as in America beside inches, as in Britain beside millimetres.

The words are written once, in British spelling. Sentences pass through `spelt` as they leave `publish/words`.
What the maker wrote stands as it is: a word that is in a name of the design file is spelt so in all of its set.
"""

from __future__ import annotations

import re
from re import Match

from model.once import once
from model.piece import Piece
from publish.edition import Edition

# from memory of the usual dictionaries of both
AMERICAN: dict[str, str] = {
    "bevelled": "beveled",
    "callipers": "calipers",
    "centre": "center",
    "centres": "centers",
    "colour": "color",
    "dowelling": "doweling",
    "grey": "gray",
    "leveller": "leveler",
    "levellers": "levelers",
    "levelling": "leveling",
    "licence": "license",
    "millimetre": "millimeter",
    "millimetres": "millimeters",
    "mitre": "miter",
    "mould": "mold",
    "moulding": "molding",
    "mouldings": "moldings",
    "neighbour": "neighbor",
    "plough": "plow",
    "towards": "toward",
}
_WORD = re.compile(rf"\b(?:{'|'.join(sorted(AMERICAN, key=len, reverse=True))})\b", re.IGNORECASE)


def spelt(edition: Edition, text: str) -> str:
    """The text, in the spelling of the edition."""
    if edition.units.name != "inch":
        return text
    kept = _makers(edition.piece)
    return _WORD.sub(lambda found: found[0] if found[0].lower() in kept else _american(found), text)


@once
def _makers(piece: Piece) -> frozenset[str]:
    """The words of the design file that come into sentences of ours: names of parts, woods, glue, finish, supplies."""
    spec = piece.design.spec
    names = [*spec.parts, *spec.assemblies, *(part.made_of for part in spec.parts.values()), spec.glue]
    names += [joint.adhesive for joint in piece.joints if joint.adhesive]
    names += [word for supply in spec.supplies for word in (supply.item, supply.note)]
    names += [spec.finish.name, spec.finish.note] if spec.finish is not None else []
    return frozenset(word for name in names for word in re.findall(r"[^\W\d_]+", name.lower()))


def _american(found: Match[str]) -> str:
    word = AMERICAN[found[0].lower()]
    if found[0].isupper():
        return word.upper()
    return word.capitalize() if found[0][0].isupper() else word
