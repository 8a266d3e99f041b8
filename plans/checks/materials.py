"""Woods, rough stock, sheet goods and materials that the tables know."""

from collections.abc import Iterator

from plans.checks.reading import Reading
from plans.library import (
    all_species,
    dressed,
    dressed_sizes,
    material,
    materials,
    rough_stock,
    rough_stocks,
    sheet,
    sheets,
    sheets_called,
    species,
)
from plans.problems import Problem
from plans.source import KeyPath
from plans.spec import PartSpec
from plans.suggest import closest, listed

NEAR = 0.01  # mm
THICKNESS_NOISE = 0.8  # mm; 1/32 in, by which plywood differs from sheet to sheet (common practice)


def check_materials(reading: Reading) -> Iterator[Problem]:
    """What every part is made of, and the stock it comes from.

    A wood that is nearly, or only the end of, a name of the table is an error; one that is like none is the maker's own
    business, and a warning says what cannot be worked out for it.
    """
    for name, part in reading.parts.items():
        said = [f"`{way}`" for way in ("wood", "sheet", "material") if getattr(part, way)]
        if len(said) != 1:
            message = f"it is made of {' and '.join(said)}" if said else "nothing says what it is made of"
            hint = "say one of `wood`, `sheet` and `material`"
            yield reading.problem("material-needs-one", ("parts", name), message, hint, key=True)
        elif part.sheet is not None:
            yield from _sheet(reading, name, part, part.sheet)
        elif part.material is not None:
            yield from _material(reading, name, part, part.material)
        else:
            yield from _wood(reading, name, part)


def _wood(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    if species(part.wood) is None:
        yield _unknown_wood(reading, name, part.wood)
    if dressed(part.stock) is not None:
        yield from _dressed(reading, name, part)
    elif part.stock is not None and rough_stock(part.stock) is None:
        sizes = [*(stock.name for stock in rough_stocks()), *(size.name for size in dressed_sizes())]
        yield reading.problem(
            "unknown-stock",
            ("parts", name, "stock"),
            f"'{part.stock}' is neither a rough thickness nor a dressed size of the table",
            f"write {listed(sizes)}",
        )


def _dressed(reading: Reading, name: str, part: PartSpec) -> Iterator[Problem]:
    """Planed stock yields no more than its own thickness and width; boards glued up yield more one way."""
    size = dressed(part.stock)
    assert size is not None
    joined = part.glued_up.joined if part.glued_up is not None else None
    limits = [] if joined == "face to face" else [("thickness", part.thickness, size.thickness)]
    limits += [] if joined == "edge to edge" else [("width", part.width, size.width)]
    for what, wanted, yielded in limits:
        if wanted is not None and wanted > yielded + NEAR:
            message = f"a {size.name} is dressed to a {what} of {reading.shown(yielded)}, and this part is "
            message += reading.shown(wanted)
            hint = f"take a larger stock, or a {what} of {reading.shown(yielded)} at most"
            yield reading.problem("stock-too-small", ("parts", name, what), message, hint)


def _sheet(reading: Reading, name: str, part: PartSpec, called: str) -> Iterator[Problem]:
    """Its name and nominal thickness, and a warning where the part is not as thick as the sheet."""
    path = ("parts", name, "sheet")
    known = sheets_called(called)
    if not known:
        hint = f"the table has {listed(dict.fromkeys(one.name for one in sheets()))}"
        yield reading.problem("unknown-sheet", path, f"no sheet goods are called '{called}'", hint)
        return
    bought = sheet(called, part.stock)
    if bought is None:
        where, key = ((*path[:2], "stock"), False) if part.stock is not None else (path, True)
        message = f"{called} is not sold as {part.stock}" if part.stock else f"which {called} it is, `stock` must say"
        yield reading.problem("unknown-sheet", where, message, f"write {listed(one.nominal for one in known)}", key=key)
    elif part.thickness is not None and abs(bought.true - part.thickness) > THICKNESS_NOISE:
        found, true = reading.shown(part.thickness), reading.shown(bought.true)
        message = f"{bought.nominal} {called} is {true} thick, and this part {found}"
        hint = "write the thickness of the sheet, or of the one you have measured"
        yield reading.problem("sheet-thickness", (*path[:2], "thickness"), message, hint, severity="warning")


def _material(reading: Reading, name: str, part: PartSpec, called: str) -> Iterator[Problem]:
    if part.density is None and material(called) is None:
        message = f"'{called}' is not in the table of materials; its weight will not be worked out"
        hint = f"add `density` in kg/m3; the table has {listed(one.name for one in materials())}"
        yield reading.problem("unknown-material", ("parts", name, "material"), message, hint, severity="warning")


def _unknown_wood(reading: Reading, name: str, wood: str) -> Problem:
    path: KeyPath = ("parts", name, "wood")
    if reading.source.written(path) is None:
        path = ("wood",)  # said once for all
    several = [known.name for known in all_species() if wood.lower() in known.name.lower()]
    if several:
        return reading.problem("unknown-wood", path, f"'{wood}' is not a whole name", f"write {listed(several)}")
    near = closest(wood, (known.name for known in all_species()))
    if near:
        return reading.problem("unknown-wood", path, f"no wood is called '{wood}'", f"did you mean '{near}'?")
    message = f"'{wood}' is not in the table of woods; its weight and movement will not be worked out"
    hint = f"the table has {listed(known.name for known in all_species())}"
    return reading.problem("unknown-wood", path, message, hint, severity="warning")
