"""What a cylinder is made of, as far as its strength goes: stiffness, and what it bears.

Sources: data/elastic.csv, strengths.csv, derating.csv and safety.csv, row by row.
"""

from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal, cast

import numpy as np

from trimdive.data import Row, row, table
from trimdive.errors import StrengthError
from trimdive.fact import Fact, fact
from trimdive.units import read

Kind = Literal["brittle", "tough", "metal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A material at one temperature, under a load that stays or passes."""

    name: str
    kind: Kind
    modulus: float  # [Pa]
    poisson: float  # [-]
    limit: float  # yield, proof or breaking stress, whichever comes first [Pa]
    held: bool  # whether modulus and limit are those for a load that stays
    doubts: tuple[Fact, ...]  # what of it is from memory, or not known


def safety(key: str) -> float:
    """Return a row of ``safety.csv``.

    Raises:
        DataError: There is no such row.
    """
    return float(row("safety", key)["value"])


def warm_share(material: str, celsius: float) -> float | None:
    """Return what share of its strength a material keeps; None where no table tells.

    Between the rows of the table straight lines; beyond its cold end the last row.

    Args:
        material: A name of ``derating.csv``.
        celsius: Temperature [°C].

    Raises:
        StrengthError: It is warmer than the table goes.

    Source:
        [machinery-handbook] page 2770; [acrylic-windows].
    """
    rows = [entry for entry in table("derating") if entry["material"] == material]
    if not rows:
        return None
    warmth = [read(f"{entry['temperature']} {entry['unit']}", "temperature") for entry in rows]
    if celsius > warmth[-1]:
        what = f"at {celsius:g} °C nothing is known of the strength of {material}"
        raise StrengthError(what, "temperature", f"Stay below {warmth[-1]:.0f} °C.")
    return float(np.interp(celsius, warmth, [float(entry["share"]) for entry in rows]))


def _row(name: str, material: str) -> Row:
    rows = {entry["material"]: entry for entry in table(name)}
    if material not in rows:
        near = get_close_matches(material, rows, n=1, cutoff=0.5)
        mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(rows)}."
        raise StrengthError(f"nothing is known of the strength of '{material}'", "material", mend)
    return rows[material]


def _doubts(stiff: Row, strong: Row, creeps: bool) -> tuple[Fact, ...]:
    """Return which figures of a material are from memory, as their rows tell."""
    ranges = {
        "stiffness": stiff["status"],
        "strength": strong["held_status" if creeps else "status"],
        "held stiffness": "from memory" if creeps else "",
    }
    return tuple(
        fact("from-memory", figure=figure, material=strong["material"])
        for figure, status in ranges.items()
        if status == "from memory"
    )


def material(name: str, celsius: float = 20.0, *, held: bool = False) -> Material:
    """Return a material of the tables.

    Args:
        name: As in ``strengths.csv``.
        celsius: How warm it is [°C].
        held: Whether the load stays for hours; metals do not care.

    Raises:
        StrengthError: Nothing is known of it, or not at this temperature.

    Source:
        ``elastic.csv`` and ``strengths.csv``.
    """
    strong, stiff = _row("strengths", name), _row("elastic", name)
    kind = cast("Kind", strong["kind"])
    creeps = held and kind != "metal"
    doubts = _doubts(stiff, strong, creeps)
    share = 1.0 if kind == "metal" else warm_share(name, celsius)
    if share is None:
        share = 1.0
        doubts = (*doubts, fact("unknown-when-warm", material=name))
    limit = read(f"{strong['held' if creeps else 'limit']} {strong['unit']}", "pressure")
    return Material(
        name=name,
        kind=kind,
        modulus=read(f"{stiff['modulus']} {stiff['unit']}", "pressure")
        * share
        * (safety("held-modulus") if creeps else 1.0),
        poisson=float(stiff["poisson"]),
        limit=limit * share,
        held=creeps,
        doubts=doubts,
    )
