"""The tables: woods, rough lumber, screws. Each file says where every figure is from."""

from plans.library.boards import BoardSold, boards_sold
from plans.library.rough_stock import RoughStock, rough_stock, rough_stocks
from plans.library.screws import Drills, Screw, metric_screw, screw, screws
from plans.library.species import Species, all_species, species

__all__ = [
    "BoardSold",
    "Drills",
    "RoughStock",
    "Screw",
    "Species",
    "all_species",
    "boards_sold",
    "metric_screw",
    "rough_stock",
    "rough_stocks",
    "screw",
    "screws",
    "species",
]
