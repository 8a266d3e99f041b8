"""The tables: woods, rough lumber, boards, screws, hardware. Each file says where every figure is from."""

from plans.library.biscuits import BiscuitSize, biscuit_size, biscuit_sizes
from plans.library.board_sizes import BoardSizes, board_sizes
from plans.library.boards import BoardSold, boards_sold
from plans.library.dressed import Dressed, dressed, dressed_sizes
from plans.library.hardware import Bought, bought, hardware, sizes_of
from plans.library.materials import Material, material, materials
from plans.library.rough_stock import RoughStock, rough_stock, rough_stocks
from plans.library.screws import Drills, Screw, metric_screw, screw, screws
from plans.library.sheets import Sheet, sheet, sheets, sheets_called
from plans.library.species import Species, all_species, species

__all__ = [
    "BiscuitSize",
    "BoardSizes",
    "BoardSold",
    "Bought",
    "Dressed",
    "Drills",
    "Material",
    "RoughStock",
    "Screw",
    "Sheet",
    "Species",
    "all_species",
    "biscuit_size",
    "biscuit_sizes",
    "board_sizes",
    "boards_sold",
    "bought",
    "dressed",
    "dressed_sizes",
    "hardware",
    "material",
    "materials",
    "metric_screw",
    "rough_stock",
    "rough_stocks",
    "screw",
    "screws",
    "sheet",
    "sheets",
    "sheets_called",
    "sizes_of",
    "species",
]
