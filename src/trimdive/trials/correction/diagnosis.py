"""Which pair of how she lies on the surface and dived means something; its words are in text.

Source: common practice, no source; the physics is in litres/need.py.
"""

from dataclasses import dataclass
from math import tan

from trimdive.assessment import Assessment
from trimdive.data import table
from trimdive.findings import limit_of

MOSTLY = 0.5  # of her trim dived: so much of it by weight is a matter of weight [-]
MEANT = 0.08  # of the tanks' room: so near to the filling meant is neutral; common practice [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What it means how she lies."""

    surfaced: str  # how she lies on the surface, in a word
    dived: str  # how she hangs

    @property
    def key(self) -> str:
        """Return what names the pair in the table."""
        return f"{self.surfaced} {self.dived}"


def meanings(her: Assessment) -> tuple[Meaning, ...]:
    """Return what it means how she lies; nothing where she lies as she should.

    Args:
        her: The boat, as the tub has her.
    """
    pairs = [(_trim(her, "surfaced"), _trim(her, "dived"))] if her.boat.tanks else []
    pairs += [(_floats(her), _hangs(her))] if her.boat.tanks else []
    pairs += [(_lean(her, "surfaced"), _lean(her, "dived"))]
    known = {entry["key"] for entry in table("diagnosis")}
    found = [Meaning(surfaced=up, dived=down) for up, down in pairs]
    return tuple(one for one in found if one.key in known)


def _trim(her: Assessment, where: str) -> str:
    """Return which end hangs down on the surface or dived, or level."""
    state = her.surfaced if where == "surfaced" else her.dived
    if abs(state.trim_angle) <= limit_of(f"trim-{where}", her.boat).value:
        return "level" if where == "dived" else _hardly(her)
    return "bow" if state.trim_angle > 0 else "stern"


def _hardly(her: Assessment) -> str:
    """Return which end weight pulls down where it hardly shows on the surface, or level.

    She is so much softer dived that a trim within its limit on the surface may be all of what she
    shows dived: as much as its stiffness there over that dived.
    """
    up, down = her.surfaced, her.dived
    if not her.full.rest.under or her.bg <= 0 or up.trim_angle * down.trim_angle <= 0:
        return "level"
    if abs(down.trim_angle) <= limit_of("trim-dived", her.boat).value:
        return "level"
    by_weight = tan(abs(up.trim_angle)) * up.gm_l / her.bg
    if by_weight < MOSTLY * tan(min(abs(down.trim_angle), 1.5)):
        return "level"
    return "bow" if up.trim_angle > 0 else "stern"


def _lean(her: Assessment, where: str) -> str:
    """Return whether she leans on the surface or dived."""
    state = her.surfaced if where == "surfaced" else her.dived
    return "leans" if abs(state.heel) > limit_of("heel", her.boat).value else "upright"


def _off(her: Assessment) -> float:
    """Return how far she floats too low amidships [m]; without a waterline meant, 0."""
    line = her.boat.waterline
    if line is None or her.surfaced.rest.under:
        return 0.0
    return her.surfaced.draught(her.midships) - line.height_at(her.midships)


def _floats(her: Assessment) -> str:
    """Return whether she floats low, high or right, by the middle of her."""
    if her.surfaced.rest.under:
        return "low"
    off = _off(her)
    if abs(off) <= limit_of("waterline-band", her.boat).value:
        return "right"
    return "low" if off > 0 else "high"


def _hangs(her: Assessment) -> str:
    """Return whether she is neutral dived at the filling meant, or heavy or light.

    Where she floats low or high, half of what she is too heavy or too light there is the bound:
    weight alone would be as much off dived.
    """
    floater, tanks = her.floater, her.boat.tanks
    meant = floater.tanks.capacities @ [tank.neutral for tank in tanks]
    heavy = floater.mass + floater.density * (float(meant) - floater.volume)
    bound = max(
        MEANT * floater.density * float(floater.tanks.capacities.sum()),
        limit_of("neutral-band", her.boat).value * floater.mass,
    )
    if _floats(her) != "right":
        below = floater.volume - her.need.volume - float(her.blown_water.sum())
        bound = abs(floater.mass - floater.density * below) / 2
    if abs(heavy) <= bound:
        return "neutral"
    return "heavy" if heavy > 0 else "light"
