"""A published set on disk, every file of it: written beside, then moved into place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path

from model.buying import purchases
from model.piece import Piece
from model.steps import plan_of
from publish.changed_numbers import changed_numbers
from publish.drawn import draw_all
from publish.edition import Edition, Leaf, sheets
from publish.fit_report import fit_report
from publish.house import style_of
from publish.in_place import written_beside
from publish.looks import tint_of
from publish.pages import leaves
from publish.record import FILE, SetRecord, record, written
from publish.version import Version
from publish.writers.archive import write_archive
from publish.writers.cut_list_csv import cut_list_csv
from publish.writers.manifest import Counts, Published, manifest
from publish.writers.pdf import Document, write_pdf
from publish.writers.step import write_step
from publish.writers.template_files import LANGUAGES, tiled_templates, whole_templates

Progress = Callable[[str], None]
Editions = list[tuple[Edition, list[Leaf]]]


def publish(versions: Sequence[Version], out: Path, progress: Progress = lambda _: None) -> Path:
    """Write the set of a design under `out` and give its folder. OSError where that cannot be done.

    `versions`: one piece that all editions show, or one for each unit system, the design's own first.
    """
    design = versions[0].piece.design
    place = out / design.stem / f"r{design.spec.revision}"
    with written_beside(place) as made:
        _write(versions, made, progress)
    return place


def _write(versions: Sequence[Version], folder: Path, progress: Progress) -> None:
    design = versions[0].piece.design
    editions = [_editions(one, progress) for one in versions]
    files: list[Published] = []
    for one, found in zip(versions, editions, strict=True):
        files += _version(one, found, folder, progress)
    systems = sorted(system for one in versions for system in one.systems)
    archive = write_archive(folder, design, systems, files)
    files.append(Published(archive, "archive", "+".join(systems), None))
    (folder / FILE).write_text(written(_record(versions, editions)), encoding="utf-8")
    files.append(Published(FILE, "record", None, None))
    for one in versions:
        files += _reports(one, folder)
    counts = [_counts(one) for one in versions]
    text = manifest(folder, design.spec.plan, design.spec.revision, version("plansheaf"), files, counts)
    (folder / "manifest.json").write_text(text, encoding="utf-8")


def _version(one: Version, editions: Editions, folder: Path, progress: Progress) -> list[Published]:
    """The files for the buyer that one piece gives: its editions, templates and solid model."""
    piece, design = one.piece, one.piece.design
    files: list[Published] = []
    for edition, content in editions:
        files += _edition(edition, content, folder)
        files += tiled_templates(edition, folder)
    progress("drawing the templates")
    files += whole_templates(replace(editions[0][0], units=design.units()), folder)
    progress("writing the solid model")
    name = f"{design.file_stem}.step"
    write_step(piece, folder / name, {part.spec.made_of: tint_of(part.spec) for part in piece.parts.values()})
    return [*files, Published(name, "solid model", "mm", None)]


def _reports(one: Version, folder: Path) -> list[Published]:
    """What is for the maker's own file."""
    design = one.piece.design
    name = f"{design.file_stem}-fit-report.pdf"
    files = [Published(name, "fit report", design.system, fit_report(folder / name, one.piece, one.problems))]
    if design.changes:
        name = f"{design.file_stem}-changed-numbers.pdf"
        files.append(Published(name, "changed numbers", design.system, changed_numbers(folder / name, design)))
    return files


def _counts(one: Version) -> Counts:
    piece = one.piece
    return Counts(
        len(piece.parts),
        len(piece.items),
        len(piece.joints),
        sum(len(fixing.points) for fixing in piece.fixings),
        _to_buy(piece, "board"),
        _to_buy(piece, "sheet"),
        len(one.problems),
    )


def record_of(versions: Sequence[Version], progress: Progress = lambda _: None) -> SetRecord:
    """The record of the set that would be written, without writing it."""
    return _record(versions, [_editions(one, progress) for one in versions])


def _record(versions: Sequence[Version], editions: Sequence[Editions]) -> SetRecord:
    own, *others = (record(one.piece, found) for one, found in zip(versions, editions, strict=True))
    return replace(own, remade=others[0]) if others else own


def _editions(one: Version, progress: Progress) -> Editions:
    """Every edition of a piece with its pages; what does not depend on the unit system is made once."""
    piece, design = one.piece, one.piece.design
    progress("finding the order of the steps")
    steps = plan_of(piece).steps
    drawn = draw_all(piece, progress)
    made = []
    for system in one.systems:
        progress(f"setting the pages in {system}")
        edition = Edition(piece, steps, drawn, design.units(system), style_of(design), one.offered)
        made.append((edition, leaves(edition)))
    return made


def _to_buy(piece: Piece, of: str) -> int:
    return sum(purchase.count for purchase in purchases(piece) if purchase.plan.of == of)


def _edition(edition: Edition, content: list[Leaf], folder: Path) -> list[Published]:
    """The PDF and the cut list in one unit system."""
    design, system = edition.piece.design, edition.units.name
    made = sheets(edition, content)
    spec = design.spec
    document = Document(
        f"{spec.plan}, plan set, {system} edition",
        spec.maker,
        spec.about.strip(),
        "plan, woodworking",
        LANGUAGES[system],
    )
    pdf = f"{design.stem}-{system}.pdf"
    write_pdf(folder / pdf, made, document)
    table = f"{design.stem}-cut-list-{system}.csv"
    (folder / table).write_bytes(cut_list_csv(edition).encode("utf-8"))
    return [Published(pdf, "plan set", system, len(made)), Published(table, "cut list", system, None)]
