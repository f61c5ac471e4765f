"""Reads what is typed after --tanks."""

import difflib
import re
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import BoatFileError, UnitError
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State

WORDS = ("blown", "full", "neutral")
BETWEEN = re.compile(r",(?=[^,=]*=)")  # a comma before the next "name =", not a decimal one


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
        raise BoatFileError(f"'{found}' is there twice", "--tanks", "Keep one of them.")
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
        what = f"'{text.strip()}' is not a filling"
        mend = 'Write blown, full, neutral, a share as "60 %", or "name of a tank = 60 %".'
        raise BoatFileError(what, "--tanks", mend) from None
    if not 0 <= share <= 1:
        what = f"a tank cannot be {100 * share:.0f} % full"
        raise BoatFileError(what, "--tanks", "Write a share from 0 to 100 %.")
    return np.asarray(
        np.clip(share * her.floater.tanks.capacities, her.blown_water, her.full_water)
    )
