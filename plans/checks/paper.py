"""Revision and dates in step with each other."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.problems import Problem


def check_paper(reading: Reading) -> Iterator[Problem]:
    """The revision history against the revision and the date of the plan."""
    spec = reading.spec
    if spec is None:
        return
    seen: dict[int, int] = {}
    for number, note in enumerate(spec.revisions):
        path = ("revisions", number)
        if note.revision > spec.revision:
            message = f"revision {note.revision} is later than the plan, which is revision {spec.revision}"
            yield reading.problem(
                "revision-order", (*path, "revision"), message, "raise `revision` at the top, or correct the note"
            )
        if note.revision in seen:
            message = f"revision {note.revision} has a note already, revision note {seen[note.revision] + 1}"
            yield reading.problem("revision-order", (*path, "revision"), message, "put both into one note")
        if note.date > spec.date:
            message = f"{note.date} is later than the plan, which is of {spec.date}"
            yield reading.problem("revision-order", (*path, "date"), message, "correct one of the two dates")
        seen.setdefault(note.revision, number)
