"""Reads what is typed after --water and --tanks."""

import difflib
import re
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import BoatFileError, TrimdiveError, UnitError
from trimdive.units import read
from trimdive.water import Water, water, waters

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.lines.mesh import Floats
    from trimdive.rest import State

FRESH = "pond"  # the water of the table that "fresh" alone means
WORDS = ("blown", "full", "neutral")
FIGURE = re.compile(r"[-+−]?\d+(?:[.,]\d+)?\s*[^\d\s,;]+(?:/[a-z]+)?", re.IGNORECASE)
BETWEEN = re.compile(r",(?=[^,=]*=)")  # a comma before the next "name =", not a decimal one


def water_of(text: str) -> Water:
    """Return the water named as "sea", "fresh 6 °C" or "pool 28 °C 3 g/kg".

    Raises:
        BoatFileError: There is no such water.
        UnitError: A figure in it is no temperature and no salt.

    >>> water_of("pool 28 °C 3 g/kg").salt
    3.0
    """
    typed = " ".join(text.split())
    names = {"fresh": FRESH, **{name: name for name in waters()}}
    found = [name for name in names if re.match(rf"{name}\b", typed, re.IGNORECASE)]
    if not found:
        raise BoatFileError(f"'{text}' is no water", "--water", _known_waters(typed))
    name = max(found, key=len)
    base = waters()[names[name]]
    celsius, salt = base.celsius, base.salt
    rest = typed[len(name) :].strip(" ,;")
    if FIGURE.sub("", rest).strip(" ,;"):
        raise BoatFileError(f"'{rest}' after '{name}' is not clear", "--water", EXAMPLES)
    for figure in FIGURE.findall(rest):
        if "/" in figure or "%" in figure or "‰" in figure:
            salt = read(figure, "salt", where="--water")
        else:
            celsius = read(figure, "temperature", where="--water")
    try:
        return water(base.kind, celsius, salt)
    except TrimdiveError as error:
        raise BoatFileError(error.what, "--water", error.mend) from None


EXAMPLES = 'Write it as "sea", "fresh 6 °C" or "pool 28 °C 3 g/kg".'


def _known_waters(typed: str) -> str:
    near = difflib.get_close_matches(typed.lower(), ["fresh", *waters()], n=1)
    return f"Did you mean '{near[0]}'?" if near else f"Known: fresh, {', '.join(waters())}."


def state_of(text: str, her: "Assessment") -> "State":
    """Return her at rest with her tanks as typed after --tanks.

    Raises:
        BoatFileError: There is no such tank, or it cannot be so full.
        UnitError: A share cannot be read.
    """
    waters = tank_water_of(text, her)
    return her.dived if text.strip().casefold() == "neutral" else her.at(waters)


def tank_water_of(text: str, her: "Assessment") -> "Floats":
    """Return the water in each tank as typed after --tanks, shape (t,) [m³].

    Raises:
        BoatFileError: There is no such tank, or it cannot be so full.
        UnitError: A share cannot be read.
    """
    if not her.boat.tanks:
        raise BoatFileError("she has no tank", "--tanks", "Leave it out.")
    if "=" not in text:
        return _filled(text, her)
    waters_now = her.blown_water.copy()
    names = [tank.name for tank in her.boat.tanks]
    seen: set[str] = set()
    for part in BETWEEN.split(text):
        name, _, filling = part.rpartition("=")
        name = _tank(name.strip(), names, seen)
        seen.add(name)
        k = names.index(name)
        waters_now[k] = _filled(filling, her)[k]
    return waters_now


def _tank(name: str, names: list[str], seen: set[str]) -> str:
    """Return the name of a tank as the boat file has it, given once."""
    found = next((one for one in names if one.casefold() == name.casefold()), None)
    if found is None:
        near = difflib.get_close_matches(name, names, n=1)
        mend = f"Did you mean '{near[0]}'?" if near else f"Her tanks: {', '.join(names)}."
        raise BoatFileError(f"there is no tank '{name}'", "--tanks", mend)
    if found in seen:
        raise BoatFileError(f"'{found}' stands there twice", "--tanks", "Keep one of them.")
    return found


def _filled(text: str, her: "Assessment") -> "Floats":
    """Return the water in every tank at one filling, shape (t,) [m³]."""
    word = text.strip().casefold()
    if word in WORDS:
        return {
            "blown": lambda: her.blown_water,
            "full": lambda: her.full_water,
            "neutral": lambda: her.dived.rest.waters,
        }[word]()
    try:
        share = read(text.strip(), "percent", "%")
    except UnitError:
        what = f"'{text.strip()}' is no filling"
        mend = 'Write blown, full, neutral, a share as "60 %", or "name of a tank = 60 %".'
        raise BoatFileError(what, "--tanks", mend) from None
    if not 0 <= share <= 1:
        what = f"a tank cannot be {share:.0%} full"
        raise BoatFileError(what, "--tanks", "Write a share from 0 to 100 %.")
    return np.asarray(
        np.clip(share * her.floater.tanks.capacities, her.blown_water, her.full_water)
    )
