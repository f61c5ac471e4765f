"""The first figures of a boat in no file, as they are typed at the tub."""

from collections.abc import Mapping

from trimdive.estimates.wethands import Known, begun
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.text.water_asked import water_of
from trimdive.text.wethands_quantities import figure_of
from trimdive.text.wethands_words import Shown, shown_in

FIRST = {  # what must be told to begin: kind, big words, example
    "mass": ("mass", "Her dry mass, tank empty, drained", "30 kg"),
    "tank": ("volume", "Water the tank takes, from blown to full", "2.1 L"),
    "length": ("length", "Her length over all", "2 m"),
}


def begun_with(first: Mapping[str, str | None]) -> tuple[Known, Shown]:
    """Return what is known from the first figures, and the units to tell it in.

    Raises:
        TrimdiveError: A figure cannot be read, or no such boat has it.
    """
    off = {"mass": "mass-off", "tank": "tank-off", "length": "mass-off"}
    read = {key: figure_of(first[key] or "", FIRST[key][0], None, f"--{key}") for key in FIRST}
    entered = {
        key: Figure(one.value, one.spread or usual_of(off[key]) * abs(one.value))
        for key, one in read.items()
    }
    bg = figure_of(first["bg"], "length", "mm", "--bg") if first["bg"] else None
    if bg:
        bg = Figure(bg.value, bg.spread or 0.1 * abs(bg.value))
    water = water_of(first["water"] or "pond").density
    shown = shown_in(first["length"] or "")
    return begun(entered["mass"], entered["tank"], entered["length"], water, bg), shown
