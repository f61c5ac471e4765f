"""``pond`` as text and JSON, what is typed for the water, and the card written into a new file."""

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, heading, labelled, line, table
from trimdive.errors import BoatFileError, UnitError
from trimdive.pond import (
    GAPS,
    MEASURED,
    SURE,
    Chosen,
    card,
    chosen,
    measured,
    own_water,
    paper_card,
    phone_card,
    refused,
    refusing,
    today,
)
from trimdive.pond.card import lifting_words
from trimdive.pond.words import WORDS
from trimdive.text import words
from trimdive.text.deep import may_go_json
from trimdive.text.documents import common, finding_document
from trimdive.text.gaps import gap
from trimdive.text.held import WAY_UP, way_up
from trimdive.text.layout import Document
from trimdive.text.sentence import sentence
from trimdive.text.water_asked import water_of
from trimdive.uncertainty import halves
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

NOTHING = WORDS["nothing"]
SUFFIXES = (".html", ".pdf")


def water_of_day(text: str, her: "Assessment") -> Chosen:
    """Return the water that was typed: a water, or a density as measured.

    Raises:
        TrimdiveError: It is no water.
    """
    if "/" in text and "g/kg" not in text:
        try:
            density = read(text, "density", where="--water")
        except UnitError as error:
            raise BoatFileError(error.what, "--water", error.mend) from None
        return measured(density, her.water.celsius, "--water")
    found = water_of(text)
    return chosen(found.kind, found.celsius, found.salt)


def pond_text(her: "Assessment", day: Chosen | None, file: Path | None) -> Iterator[Block]:
    """Yield what ``pond`` prints.

    Args:
        her: The boat.
        day: The water of the day; None: her own.
        file: The card, where it was written.
    """
    yield line(words.title(her))
    yield line()
    if reasons := refused(her):
        yield line("No card yet. Put these right first:")
        yield labelled(("-", sentence(reason)) for reason in reasons)
        return
    found = card(her, day)
    yield line(f"Today: {_water(her, found.water)}.")
    if found.words.ask == NOTHING:
        yield line(f"{NOTHING.capitalize()}.")
    else:
        yield line(f"{found.words.ask.capitalize()}: {found.place}; {found.trimmed}.")
    yield heading("If nothing is changed she")
    told = (found.words.full, found.words.neutral, found.words.rides, found.words.hangs)
    yield labelled(("-", text) for text in told if text)
    yield heading("Waters by name")
    rows = ((one.name, f"{one.water.density:.1f}", one.words.ask) for one in found.named)
    yield table(["water", "kg/m³", "to keep her in trim"], rows, right=(1,))
    for head, texts in (
        (SURE, found.sure),
        (GAPS, found.not_entered),
        (WAY_UP, found.way_up),
        ("How deep", found.depth),
        ("Lifting", found.lifting),
    ):
        if texts:
            yield heading(head)
            yield labelled(("-", text) for text in texts)
    if file is not None:
        yield line()
        yield line(f"The card is in {file}. Its checks and cautions are on it too.")


def _water(her: "Assessment", water: Chosen) -> str:
    if water.kind == MEASURED:
        return f"measured, {water.density:.1f} kg/m³"
    units = her.boat.units
    salt = f", {units.write(water.salt, 'salt', 1)} of salt" if water.salt else ""
    warm = units.write(water.celsius, "temperature")
    return f"{water.kind} water, {warm}{salt}, {water.density:.1f} kg/m³"


def pond_json(her: "Assessment", day: Chosen | None, file: Path | None) -> Document:
    """Return what ``pond --json`` prints.

    Args:
        her: The boat.
        day: The water of the day; None: her own.
        file: The card, where it was written.
    """
    water = day or own_water(her)
    one = None if refused(her) or not her.boat.tanks else today(her, water.density)
    return {
        **common(her),
        "refused": list(refused(her)),
        "findings": [finding_document(her.boat, one) for one in refusing(her)],
        "not_entered": [gap(one).what for one in her.not_entered],
        "way_up": list(way_up(her)),
        "today": {
            "kind": water.kind,
            "temperature_celsius": None if water.kind == MEASURED else water.celsius,
            "salt_g_kg": None if water.kind == MEASURED else water.salt,
            "density_kg_m3": water.density,
        },
        "weight_half_kg": halves(her, her.full).excess,
        "lead_kg": one and one.lead,
        "foam_m3": one and one.foam,
        "x_m": float(her.masses.gravity[0]),
        "neutral_m3": one and one.neutral,
        "rises_m": one and one.rises,
        "trim_bow_down_rad": one and one.trim,
        "lift_left_kg": one and one.short,
        **may_go_json(her),
        "hovers_m": her.depths.hovers,
        "returns_m": her.depths.returns,
        "lifted_kg": her.surfaced.displacement_mass,
        "lifting": list(lifting_words(her)),
        "file": file and str(file),
    }


def written(her: "Assessment", day: Chosen | None, out: Path) -> Path:
    """Return the card's file, written where there was none.

    Raises:
        BoatFileError: She must be put right first, the name does not say which card, or it cannot
            be written.
    """
    if out.suffix.lower() not in SUFFIXES:
        mend = "End it in .html for the phone, or in .pdf for paper."
        raise BoatFileError("its name does not show which card", str(out), mend)
    if out.exists():
        raise BoatFileError("there is such a file already", str(out), "Name another.")
    found, date = card(her, day), _date(datetime.date.today())
    is_paper = out.suffix.lower() == ".pdf"
    make = paper_card if is_paper else phone_card
    data = make(her, found, date)
    try:
        with out.open("xb") as stream:
            stream.write(data if isinstance(data, bytes) else data.encode())
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(out), "Choose another file.") from None
    return out


def _date(day: datetime.date) -> str:
    return f"{day.day} {day:%B %Y}"
