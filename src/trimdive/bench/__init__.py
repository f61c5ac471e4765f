"""The bench: what cylinders bear, what seals them, what was found when they were tried."""

from trimdive.bench.cylinders import CapBench, CylinderBench, RingBench, Through, cylinders, worst
from trimdive.bench.entered import NotEntered, not_entered
from trimdive.bench.leaks import Leak, latest, leak, leaks
from trimdive.bench.tubes import Offer, what_tube

__all__ = [
    "CapBench",
    "CylinderBench",
    "Leak",
    "NotEntered",
    "Offer",
    "RingBench",
    "Through",
    "cylinders",
    "latest",
    "leak",
    "leaks",
    "not_entered",
    "what_tube",
    "worst",
]
