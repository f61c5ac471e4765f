"""A boat that was built otherwise than her file says."""

import shutil
from functools import cache
from pathlib import Path

import numpy as np

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import append
from trimdive.uncertainty import WIDE
from trimdive.units import exact

ROOT = Path(__file__).parents[2]
HEAVIER, BIGGER = (
    0.060,
    25e-6,
)  # hidden: the servos weigh so much more, a foam block is so much more


@cache
def grebe() -> Assessment:
    return assess(ROOT / "boats" / "grebe" / "boat.toml")


@cache
def true() -> Assessment:
    """Grebe as she really is: servos 60 g heavier, the tenth block of foam 25 cm³ larger."""
    boat = grebe().boat
    parts = tuple(
        part.model_copy(update={"mass": part.mass + HEAVIER}) if part.name == "servos" else part
        for part in boat.parts
    )
    foam = list(boat.foam)
    foam[9] = foam[9].model_copy(update={"volume": foam[9].volume + BIGGER})
    changed = boat.model_copy(update={"parts": parts, "foam": tuple(foam)})
    return Assessment(boat=changed, files=grebe().files)


def guessed() -> str:
    """Return Grebe's file with the servos guessed and the foam's volumes as eyed."""
    text = (ROOT / "boats" / "grebe" / "boat.toml").read_text("utf-8")
    old = 'name = "servos"\ninside = "cylinder"\nmass = "165 g"\nknown = "weighed"'
    assert old in text
    text = text.replace(old, old.replace('"weighed"', '"guess"\nspread = "± 80 g"'))
    return text + '\n[spreads]\ntold = "15 %"\n'


def readings(seed: int | None = 8) -> list[dict[str, str]]:
    """Return what is read of the true boat, each off by chance by a part of its ±.

    It is worked here from her states alone: draughts by the water's plane, two scales by levers.
    """
    her, chance = true(), np.random.default_rng(seed)

    def off(half: float) -> float:
        return 0.0 if seed is None else half / WIDE * chance.standard_normal()

    force = her.full.rest.excess
    lift = her.floater.density * her.floater.volume
    moment = float(her.full.displacement_mass * her.full.lcg)
    moment -= lift * float(her.floater.buoyancy[0] + her.floater.tree.centre[0])
    fore = (moment - 0.1 * force) / 1.1
    found = [
        {"at": name, "draught": exact(her.surfaced.draught(x) + off(1e-3), "length", "mm")}
        for name, x in (("bow", 1.235), ("middle", 0.65), ("stern", 0.07))
    ]
    found.append(
        {
            "pull_aft": exact(force - fore + off(5e-3), "mass", "g"), "x_aft": "100 mm",
            "pull_fore": exact(fore + off(5e-3), "mass", "g"), "x_fore": "1200 mm",
        }
    )  # fmt: skip
    found.append({"mass": exact(her.masses.mass * (1 + off(2e-3)), "mass", "g")})
    return found


def copy(folder: Path) -> Path:
    """Return a copy of Grebe's file with the readings of the true boat."""
    shutil.copytree(ROOT / "boats" / "grebe", folder / "grebe")
    text = guessed()
    for one in readings():
        text = append(text, "reading", {"date": "2026-11-25", **one})
    file = folder / "grebe" / "boat.toml"
    file.write_text(text, "utf-8")
    return file
