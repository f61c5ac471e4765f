"""Ballast plant: how tanks fill and empty, what it takes, and whether she comes home without it."""

from trimdive.plant.answer import DEPTHS, PlantAnswer, Trouble, answer
from trimdive.plant.blows import Blow, blow, blows, blows_in
from trimdive.plant.build import battery_of, rooms, system, systems
from trimdive.plant.electric import Electric, Wire, electric, fuse_for, wire_drop, wire_for, wires
from trimdive.plant.figures import Figure
from trimdive.plant.fill import PRESSED, Fill, begins, emptied, fill, fullest
from trimdive.plant.gases import Gas, amount, bottle_gives, gas, too_weak_at, vapour_pressure
from trimdive.plant.home import Home, Lift, home
from trimdive.plant.lost import does, leak_flow, unpowered
from trimdive.plant.state import Point, dry_space, fills_to, inside, point
from trimdive.plant.system import Bottle, Piston, System
from trimdive.plant.usual import usual

__all__ = [
    "DEPTHS",
    "PRESSED",
    "Blow",
    "Bottle",
    "Electric",
    "Figure",
    "Fill",
    "Gas",
    "Home",
    "Lift",
    "Piston",
    "PlantAnswer",
    "Point",
    "System",
    "Trouble",
    "Wire",
    "amount",
    "answer",
    "battery_of",
    "begins",
    "blow",
    "blows",
    "blows_in",
    "bottle_gives",
    "does",
    "dry_space",
    "electric",
    "emptied",
    "fill",
    "fills_to",
    "fullest",
    "fuse_for",
    "gas",
    "home",
    "inside",
    "leak_flow",
    "point",
    "rooms",
    "system",
    "systems",
    "too_weak_at",
    "unpowered",
    "usual",
    "vapour_pressure",
    "wire_drop",
    "wire_for",
    "wires",
]
