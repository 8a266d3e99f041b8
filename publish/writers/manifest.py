"""What a published set holds: each file with its checksum, and the counts every page agrees with."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path


@dataclass(frozen=True)
class Published:
    """One file of a set; `units` and `pages` are None where they mean nothing."""

    name: str
    kind: str
    units: str | None
    pages: int | None


@dataclass(frozen=True)
class Counts:
    """What was counted from the piece."""

    parts: int
    marks: int
    joints: int
    fixings: int  # those driven, counted singly
    boards: int  # to buy, by the layouts
    sheets: int
    problems: int


def manifest(
    folder: Path, design: str, revision: int, version: str, files: list[Published], counts: Sequence[Counts]
) -> str:
    """The manifest's text (JSON); reads the files in `folder` for their checksums.

    `counts`: of the piece, then of the one that it is re-made as in the other units.
    """
    listed = [
        {**asdict(file), "sha256": hashlib.sha256((folder / file.name).read_bytes()).hexdigest()} for file in files
    ]
    whole = {
        "design": design,
        "revision": revision,
        "plansheaf": version,
        "files": listed,
        "counts": asdict(counts[0]),
    }
    if len(counts) > 1:
        whole["counts re-made"] = asdict(counts[1])
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"
