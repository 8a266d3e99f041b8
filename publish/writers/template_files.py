"""The files of templates in a published set: tiled for each paper, whole on large sheets, and a DXF of each."""

from __future__ import annotations

from pathlib import Path

from model.templates import templates
from plans.units import System
from publish.drawing.records import Sheet
from publish.edition import Edition
from publish.templates.file import tiled, whole
from publish.words.templates import PAPER_WORDS, dxf_name, dxf_words, file_name
from publish.writers.dxf import write_dxf
from publish.writers.manifest import Published
from publish.writers.pdf import Document, write_pdf

LANGUAGES: dict[System, str] = {"inch": "en-US", "mm": "en-GB"}


def tiled_templates(edition: Edition, folder: Path) -> list[Published]:
    """Write the sheets to tape together, in the edition's paper; no file where no part wants a template."""
    return _written(edition, folder, PAPER_WORDS[edition.units.name], tiled(edition))


def whole_templates(edition: Edition, folder: Path) -> list[Published]:
    """Write each template whole on a large sheet, and each as DXF."""
    files = _written(edition, folder, "whole", whole(edition))
    for template in templates(edition.piece):
        name = dxf_name(edition.piece, template)
        write_dxf(folder / name, template, dxf_words(edition.piece, template))
        files.append(Published(name, "template drawing", "mm", None))
    return files


def _written(edition: Edition, folder: Path, form: str, sheets: list[Sheet]) -> list[Published]:
    if not sheets:
        return []
    spec, system = edition.piece.design.spec, edition.units.name
    title = f"{spec.plan}, full-size templates"
    document = Document(title, spec.maker, spec.about.strip(), "template, woodworking", LANGUAGES[system])
    name = file_name(edition.piece, form)
    write_pdf(folder / name, sheets, document)
    return [Published(name, "full-size templates", system, len(sheets))]
