"""The card for the pond: water of the day, what to change, depth, checks; phone and paper."""

from trimdive.pond.card import (
    CHECKS,
    GAPS,
    KINDS,
    MEASURED,
    SURE,
    Card,
    Chosen,
    Named,
    card,
    chosen,
    measured,
    own_water,
    refused,
    refusing,
)
from trimdive.pond.dial import Dial, Grid, dial, grid
from trimdive.pond.html import asset, dial_html, named_value, phone_card
from trimdive.pond.paper import paper_card
from trimdive.pond.today import Today, today
from trimdive.pond.words import WaterWords, water_words

__all__ = [
    "CHECKS",
    "GAPS",
    "KINDS",
    "MEASURED",
    "SURE",
    "Card",
    "Chosen",
    "Dial",
    "Grid",
    "Named",
    "Today",
    "WaterWords",
    "asset",
    "card",
    "chosen",
    "dial",
    "dial_html",
    "grid",
    "measured",
    "named_value",
    "own_water",
    "paper_card",
    "phone_card",
    "refused",
    "refusing",
    "today",
    "water_words",
]
