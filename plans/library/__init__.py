"""The tables: woods, rough lumber, screws, hardware. Each file says where every figure is from."""

from plans.library.hardware import Bought, bought, hardware, sizes_of
from plans.library.rough_stock import RoughStock, rough_stock, rough_stocks
from plans.library.screws import Drills, Screw, metric_screw, screw, screws
from plans.library.species import Species, all_species, species

__all__ = [
    "Bought",
    "Drills",
    "RoughStock",
    "Screw",
    "Species",
    "all_species",
    "bought",
    "hardware",
    "metric_screw",
    "rough_stock",
    "rough_stocks",
    "screw",
    "screws",
    "sizes_of",
    "species",
]
