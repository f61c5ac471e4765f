"""The card on one sheet of paper: waters by name and by the thermometer, depth, checks, a log."""

from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import is_zero, mass
from trimdive.pond.card import CHECKS, GAPS, KINDS, MEASURED, SURE, Card, Chosen, chosen
from trimdive.pond.today import today
from trimdive.pond.words import WORDS
from trimdive.sheets import pond_sheet
from trimdive.text.care import LAST_WORD
from trimdive.text.held import WAY_UP

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

WARMTHS = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0)  # heads of the table [°C]
SALTS = (0.0, 8.0, 16.0, 24.0, 32.0, 36.0)  # its rows [g/kg]
LOG_ROWS = 4  # where nothing is to be minded on the way up, and nothing is not entered [-]
LOG = ["date and water", "°", "lead or foam in or out", "how she floated and dived"]


def paper_card(her: "Assessment", found: Card, date: str = "") -> bytes:
    """Return the card as a tagged PDF of one page.

    Args:
        her: The boat.
        found: Her card.
        date: When it was made, in words; "" for no date.
    """
    about = ", ".join(part for part in (found.scale, date and f"made {date}") if part)
    is_same = found.words.ask == WORDS["nothing"]
    return pond_sheet(
        {
            "title": f"{found.name} at the pond",
            "about": about,
            "water": _water_words(her, found.water),
            "ask": found.words.ask,
            "place": "" if is_same else f"{found.place}; {found.trimmed}",
            "left": [one for one in _left(found) if one],
            "named": [
                [one.name, f"{one.water.density:.1f}", one.words.ask, one.words.neutral]
                for one in found.named
            ],
            "by_warmth": _by_warmth(her),
            "sure": {"head": SURE, "lines": list(found.sure)},
            "gaps": {"head": GAPS, "lines": list(found.not_entered)},
            "way_up": {"head": WAY_UP, "lines": list(found.way_up)},
            "depth": list(found.depth),
            "lifting": list(found.lifting),
            "checks": list(CHECKS),
            "cautions": list(found.cautions),
            "log": {"heads": LOG, "rows": rows_left(found)},
            "footer": f"trimdive pond. {LAST_WORD}",
        }
    )


def rows_left(found: Card) -> int:
    """Return how many rows of the log stay on the page: each sentence more takes one."""
    gaps = len(found.not_entered) + 1 if found.not_entered else 0  # with their heading
    return max(LOG_ROWS - len(found.way_up) - gaps, 0)


def _left(found: Card) -> tuple[str, ...]:
    """Return what happens if nothing is changed."""
    words = found.words
    return words.full, words.neutral, words.rides, words.hangs


def _water_words(her: "Assessment", water: Chosen) -> str:
    """Return a water in words."""
    units = her.boat.units
    if water.kind == MEASURED:
        return f"{KINDS[MEASURED]}, {water.density:.1f} kg/m³"
    salt = f", {units.write(water.salt, 'salt', 1)} of salt" if water.salt else ""
    warm = units.write(water.celsius, "temperature")
    return f"{KINDS[water.kind]}, {warm}{salt}, {water.density:.1f} kg/m³"


def _by_warmth(her: "Assessment") -> dict[str, object]:
    """Return the lead to add by salt and temperature: heads and rows."""
    write = her.boat.units.write
    rows = [
        [write(salt, "salt", 0) if salt else "fresh", *(_lead(her, salt, warm) for warm in WARMTHS)]
        for salt in SALTS
    ]
    return {"heads": ["salt", *(write(warm, "temperature", 0) for warm in WARMTHS)], "rows": rows}


def _lead(her: "Assessment", salt: float, celsius: float) -> str:
    """Return the lead to add, with its sign.

    Args:
        her: The boat.
        salt: Dissolved salt [g/kg].
        celsius: Temperature [°C].
    """
    water = chosen("sea" if salt else "fresh", celsius, salt)
    lead = today(her, water.density).lead
    text = mass(her.boat, abs(lead))
    return text if is_zero(text) else f"{'+' if lead > 0 else '−'}{text}"
