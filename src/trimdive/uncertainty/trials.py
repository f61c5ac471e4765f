"""What could be read in the tub, and what each source does to such a reading."""

import numpy as np

from trimdive.data import row
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.uncertainty.figures import Figure, Uncertainty
from trimdive.uncertainty.worth import Trial
from trimdive.units import read

TILT = 4.0  # degrees to which a shift test turns her: 1 to 4 are usual
KINDS = {"mm": "length", "g": "mass", "°": "angle", "%": "percent"}


def reading_half(key: str) -> float:
    """Return how far a reading of a kind may be off, by the table [m, kg, rad or -].

    >>> reading_half("draught")
    0.001
    """
    entry = row("readings", key)
    return read(f"{entry['value']} {entry['unit']}", KINDS[entry["unit"]], None)


def trials(uncertainty: Uncertainty, ends: tuple[float, float]) -> list[Trial]:
    """Return what could be read in the tub.

    Args:
        uncertainty: How sure she is.
        ends: Where two scales would hold her dived, aft and fore [m].
    """
    draughts = [one for one in uncertainty.figures if one.key == "draught"]
    found: list[Trial] = []
    if len(draughts) > 1:
        pair = (draughts[0], draughts[-1])
        what = fact("read-draughts", one=pair[0].place, other=pair[1].place)
        found.append(_trial(what, [one.off for one in pair], reading_half("draught")))
    aft, fore = ends
    bow = (uncertainty.moment - aft * uncertainty.pull) / (fore - aft)
    found.append(_trial(fact("read-scales"), [uncertainty.pull - bow, bow], reading_half("pull")))
    mass = _only(uncertainty, "mass")
    if mass:
        half = reading_half("mass") * mass.value
        found.append(_trial(fact("read-mass"), [mass.off], half))
    for key, dived in (("gm", False), ("bg", True)):
        one = _only(uncertainty, key)
        if one and one.value > 0:
            half = one.value * reading_half("angle") / np.radians(TILT)
            found.append(_trial(fact("read-shift", dived=dived), [one.off], float(half)))
    heel = _only(uncertainty, "heel surfaced")
    if heel:
        found.append(_trial(fact("read-heel"), [heel.off], reading_half("angle")))
    return found


def _only(uncertainty: Uncertainty, key: str) -> Figure | None:
    return next((one for one in uncertainty.figures if one.key == key), None)


def _trial(what: Fact, rows: list[Floats], half: float) -> Trial:
    return Trial(what=what, rows=np.stack(rows), halves=np.full(len(rows), half))
