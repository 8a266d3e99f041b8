"""The tables: woods, rough lumber, boards, screws. Each file says where every figure is from."""

from plans.library.board_sizes import BoardSizes, board_sizes
from plans.library.rough_stock import RoughStock, rough_stock, rough_stocks
from plans.library.screws import Drills, Screw, metric_screw, screw, screws
from plans.library.species import Species, all_species, species

__all__ = [
    "BoardSizes",
    "Drills",
    "RoughStock",
    "Screw",
    "Species",
    "all_species",
    "board_sizes",
    "metric_screw",
    "rough_stock",
    "rough_stocks",
    "screw",
    "screws",
    "species",
]
