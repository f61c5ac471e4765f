"""Boats with a hidden cause, by plain statics of their own, that answer every question truly.

Nothing here comes from the engine but its questions: moments about the boat, tan(angle) = moment /
(mass · BG), Archimedes for the litres, and the free surface of a box. Figures are drawn at random.
"""

from dataclasses import dataclass
from math import atan, degrees, exp, radians, sin, tan

import numpy as np

WATER = 999.1  # fresh, 15 °C [kg/m³]
FOAM = 33.0  # extruded board [kg/m³]
LEAD = 11340.0  # [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """A boat as it truly is; moments positive by the bow."""

    cause: str
    mass: float
    tank: float
    length: float
    bg: float
    gm: float  # lengthways, afloat
    x_tank: float
    weight: float
    above: float
    bubble: float
    air: float
    need: float  # m³ of water at neutral, without trapped air
    slack: float
    heap: float
    heels: float
    hangs: float
    rides: float
    closed: bool

    @property
    def filling(self) -> float:
        """Return how full the tank is at neutral [-]."""
        return (self.need + self.air) / self.tank

    @property
    def dived(self) -> float:
        """Return the mass of boat and tank water [kg]."""
        return self.mass + WATER * min(self.need + self.air, self.tank)

    def angle(self, *, rocked: bool = False, full: bool = False) -> float:
        """Return how she hangs, bow down [rad]."""
        moment = self.weight + self.above + (0.0 if rocked else self.bubble)
        slack = 0.0 if full else self.slack
        if slack < self.bg:
            return atan(moment / (self.dived * (self.bg - slack)))
        run = self.heap if moment >= 0 else -self.heap
        return atan((moment + run) / (self.dived * self.bg))

    @property
    def afloat(self) -> float:
        """Return how much lower the bow lies than the stern, tank empty [m]."""
        return self.length * sin(atan(self.weight / (self.mass * self.gm)))


def hidden(rng: np.random.Generator, cause: str) -> Hidden:
    """Return a boat of 0.8 to 2.6 m that one cause ails."""
    length = rng.uniform(0.8, 2.6)
    mass = 4.4 * length**2.1 * exp(rng.normal(0, 0.15))
    tank = mass * rng.uniform(0.05, 0.10) / WATER
    bg = max(0.007 * length * (1 + rng.normal(0, 0.5 / 1.96)), 0.0015 * length)
    dived = mass * 1.07
    degree = dived * bg * tan(radians(1.0))
    side = rng.choice([-1.0, 1.0])
    turn = side * dived * bg * tan(radians(rng.uniform(3, 30)))
    need = tank * (1 - rng.uniform(0.04, 0.16))
    own = dict.fromkeys(("bubble", "air", "slack", "heap", "heels", "hangs", "rides"), 0.0)
    own |= {"weight": rng.normal(0, 0.25) * degree, "above": rng.normal(0, 0.4) * degree}
    x_tank = length * rng.uniform(0.45, 0.55)
    closed = False
    if cause == "weight":
        own["weight"] = turn
    elif cause == "tank":
        own["above"] = turn
    elif cause == "foam":
        own["above"] = turn
        need += abs(turn) / (length * rng.uniform(0.28, 0.42)) / WATER
        closed = True
    elif cause == "air":
        own["air"] = tank * rng.uniform(0.06, 0.18)
        own["bubble"] = side * own["air"] * WATER * length * rng.uniform(0.12, 0.40)
    elif cause == "slack":
        own["slack"] = bg * rng.uniform(1.1, 2.6)
        share = need / tank
        own["heap"] = WATER * tank * share * (1 - share) * length * rng.uniform(0.15, 0.35) / 2
    elif cause == "tank small":
        need = tank * rng.uniform(1.03, 1.2)
    elif cause == "tank large":
        need = tank * rng.uniform(0.4, 0.65)
    elif cause == "side weight":
        own["heels"] = side * radians(rng.uniform(4, 9))
        own["hangs"] = own["heels"]
    elif cause == "side foam":
        own["hangs"] = side * radians(rng.uniform(5, 14))
    elif cause in ("low", "high"):
        own["rides"] = (1 if cause == "low" else -1) * rng.uniform(6e-3, 14e-3)
    return Hidden(
        cause=cause, mass=mass, tank=tank, length=length, bg=bg, x_tank=x_tank, need=need,
        gm=0.15 * length * exp(rng.normal(0, 0.3)), closed=closed, **own,
    )  # fmt: skip


def _tipped(before: float, after: float, edge: float) -> str:
    """Return what a builder says of an angle before and after: right now, better or the same."""
    if abs(after) < edge:
        return "yes"
    return "better" if abs(after) < 0.75 * abs(before) else "no"


def _side(value: float, edge: float, words: tuple[str, str, str]) -> str:
    return words[0] if abs(value) < edge else words[1 if value > 0 else 2]


def answer(her: Hidden, key: str, rng: np.random.Generator, *, weights: bool) -> str:
    """Return what a builder types, read from the true boat with the errors of reading told in docs.

    ``weights``: whether the builder takes the trouble of small weights on deck.
    """
    angle = her.angle()
    low, high = ("bow", "stern") if angle > 0 else ("stern", "bow")
    read = abs(degrees(angle)) + rng.normal(0, 1.0 / 1.96)
    if key == "angle":
        is_level = abs(degrees(angle)) < 2
        return "level" if is_level else f"{low} down {max(read, 1.0):.1f}°"
    if key == "surfaced":
        words = ("level", "bow low", "stern low")
        return _side(her.afloat + rng.normal(0, 5e-4), 3e-3, words)
    if key in ("filling", "spare"):
        if her.filling > 1.003:
            grams = (her.need + her.air - her.tank) * WATER * 1e3
            return f"{grams:.0f} g light"
        return f"{min(her.filling, 1.0) * 100:.1f} %"
    if key == "ride":
        return _side(her.rides, 3e-3, ("right", "low", "high"))
    if key == "rides":
        return f"{abs(her.rides) * 1e3:.0f} mm"
    if key == "rock":
        if her.filling > 1.003 and her.need < her.tank and abs(her.angle(rocked=True)) < radians(2):
            return "yes"
        if abs(degrees(angle)) < 2:
            return "no"
        return _tipped(angle, her.angle(rocked=True), radians(2))
    if key == "full":
        return _tipped(angle, her.angle(full=True), radians(2))
    if key == "over":
        return "yes" if her.slack > her.bg else "no"
    if key == "closed":
        return "yes" if her.closed else "no"
    if key in ("list", "heel"):
        heel = her.heels if key == "list" else her.hangs
        side = _side(heel, radians(1.5), ("upright", "starboard", "port"))
        return side if side == "upright" else f"{abs(degrees(heel)):.0f}° to {side}"
    if key == "balance" and weights:
        return _balance(her, rng, high)
    if key == "place":
        x = her.x_tank + rng.normal(0, 0.01 / 1.96)
        return f"{x * 1e3:.0f} mm from the stern"
    return "no" if key == "way" else "skip"


def _balance(her: Hidden, rng: np.random.Generator, high: str) -> str:
    """Return the lead on deck that hangs her level, its reading off by 3 % or 5 g."""
    at = 0.12 * her.length
    x = at if high == "stern" else her.length - at
    moment = abs(her.weight + her.above + her.bubble)
    true = moment / abs(x - her.x_tank) / (1 - WATER / LEAD)
    grams = true * 1e3
    grams += rng.normal(0, max(5.0, 0.03 * grams) / 1.96)
    return f"{max(grams, 1):.1f} g at {at * 1e3:.0f} mm from the {high}"
