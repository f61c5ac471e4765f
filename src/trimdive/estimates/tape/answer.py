"""From readings to litres, their ±, and what to measure next.

Source: the litres are the volume above the waterline (trimdive.ballast.need). Spreads: common
practice, no source.
"""

from dataclasses import dataclass
from math import hypot

import numpy as np

from trimdive.data import constant
from trimdive.errors import fence
from trimdive.estimates.tape.area import SLIM, gaps
from trimdive.estimates.tape.doubts import Doubt, odd, refuse
from trimdive.estimates.tape.model import Piece, Skin, hull_piece, moves, standing_piece
from trimdive.estimates.tape.readings import Readings, figure
from trimdive.estimates.tape.size import Band, size_of
from trimdive.fact import Fact, fact


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one thing adds."""

    name: Fact | str  # part of the hull, or the name of a thing
    volume: float  # [m³]
    spread: float  # 95 %, to either side [m³]
    x: float  # its middle [m]
    mass: float  # [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Why the litres are not surer, and what would make them so."""

    group: str  # of readings, or the name of a thing that stands on her
    share: float  # of the variance [-]
    spread: float  # it alone leaves so much open [m³]
    advice: Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeResult:
    """Litres of ballast water by tape, before there is any hull."""

    readings: Readings
    volume: float  # above the waterline: the ballast water needed [m³]
    spread: float  # 95 %, to either side [m³]
    x: float  # its middle, where the tank water's must be [m]
    x_spread: float  # 95 %, to either side [m]
    shares: tuple[Share, ...]
    mass_above: float  # the rule of thumb's kilograms [kg]
    causes: tuple[Cause, ...]  # largest first
    lift_out: Band  # mass lifted out, guessed from length and kind [kg]
    doubts: tuple[Doubt, ...]

    @property
    def rule_litres(self) -> float:
        """Return the litres by the rule of thumb, one a kilogram above the waterline [m³]."""
        return self.mass_above / constant("rule-of-thumb")

    @property
    def next_measurement(self) -> Fact:
        """Return what would help most."""
        return self.causes[0].advice


def tape_litres(readings: Readings) -> TapeResult:
    """Return the litres of ballast water that a hull needs, by tape.

    Raises:
        TapeError: Readings contradict each other.
    """
    refuse(readings)
    mend = "Look at the readings again: one of them is far from what is usual."
    with fence("no litres come out of these readings", "the readings", mend):
        return _litres(readings)


def _litres(readings: Readings) -> TapeResult:
    pieces = [hull_piece(readings), *(standing_piece(thing) for thing in readings.standing)]
    sums = [piece.sums({one.key: one.value for one in piece.inputs}) for piece in pieces]
    volume, moment = (float(sum(one[k] for one in sums)) for k in (0, 1))
    x = moment / volume
    groups: dict[str, list[float]] = {}
    shifts: list[float] = []
    for piece in pieces:
        for one, dv, dm in moves(piece):
            groups.setdefault(one.group, []).append(dv)
            shifts.append((dm - x * dv) / volume)
    shares = tuple(_share(piece, sums) for piece, sums in zip(pieces, sums, strict=True))
    return TapeResult(
        readings=readings,
        volume=volume,
        spread=hypot(*(dv for dvs in groups.values() for dv in dvs)),
        x=x,
        x_spread=hypot(*shifts),
        shares=shares,
        mass_above=sum(share.mass for share in shares),
        causes=_causes(readings, groups),
        lift_out=size_of(readings.length, readings.kind).mass,
        doubts=(*odd(readings), *_walls_apart(readings)),
    )


def _share(piece: Piece, sums: tuple[float, float]) -> Share:
    volume, moment = sums
    return Share(
        name=piece.name,
        volume=volume,
        spread=hypot(*(dv for _, dv, _ in moves(piece))),
        x=moment / volume if volume else 0.0,
        mass=piece.mass or volume * piece.density,
    )


def _causes(readings: Readings, groups: dict[str, list[float]]) -> tuple[Cause, ...]:
    whole = sum(dv**2 for dvs in groups.values() for dv in dvs)
    found = [
        Cause(
            group=group,
            share=sum(dv**2 for dv in dvs) / whole,
            spread=hypot(*dvs),
            advice=_advice(readings, group),
        )
        for group, dvs in groups.items()
        if any(dvs)
    ]
    return tuple(sorted(found, key=lambda cause: -cause.spread))


def _advice(readings: Readings, group: str) -> Fact:
    """Return what to measure."""
    plain = {
        "girths": fact("tape-girths-twice"),
        "waterline": fact("tape-waterline-again"),
        "density": fact("tape-offcut"),
        "scale": fact("tape-finer-scale"),
        "slope": fact("tape-near-ends"),
        "section": fact("tape-section-card"),
    }
    if group == "wall":
        return fact("tape-walls", spots=len(readings.walls), weigh=not readings.moulding)
    if group in AT:
        return fact("tape-girth-at", x=readings.along(AT[group](readings)), end=_end(readings))
    return plain.get(group) or fact("tape-hang", name=group)


def _end(readings: Readings) -> str:
    return "bow" if readings.from_bow else "stern"


def _emptiest(readings: Readings) -> float:
    """Return the middle of the gap that leaves most open [m]."""
    x = np.array([one.x for one in readings.girths])
    adds, _ = gaps(x, np.array([one.girth for one in readings.girths]))
    k = int(np.abs(adds).argmax()) + 1
    low, high = (k - 1, k) if x[k] - x[k - 1] >= x[k + 1] - x[k] else (k, k + 1)
    return float(x[low] + x[high]) / 2


def _outermost(readings: Readings) -> float:
    """Return the middle of the end that leaves most open [m]."""
    x = np.array([0.0, *(one.x for one in readings.girths), readings.length])
    g = np.array([0.0, *(one.girth for one in readings.girths), 0.0])
    low, high = np.minimum(g[:-1], g[1:]), np.maximum(g[:-1], g[1:])
    open_area = np.where(low < SLIM * high, high * np.diff(x), 0.0)
    k = int(open_area.argmax())
    return float(x[k] + x[k + 1]) / 2


AT = {"places": _emptiest, "ends": _outermost}  # where one more girth helps, by what is open


def _walls_apart(readings: Readings) -> list[Doubt]:
    """Return a doubt where the wall as measured and the moulding on the scale do not agree."""
    if readings.kind == "dry" or not readings.walls or not readings.moulding:
        return []
    volumes: list[float] = []
    for trust in (1.0, 0.0):
        skin = Skin(readings=readings, trust=trust)
        volumes.append(skin.sums({one.key: one.value for one in skin.inputs()})[0])
    off = volumes[1] / volumes[0] - 1
    if abs(off) <= figure("wall-mismatch"):
        return []
    wall = float(np.mean(readings.walls))
    what = fact("tape-walls-apart", measured=wall, by_scale=wall * (1 + off))
    return [Doubt(path="moulding", what=what, mend=fact("tape-walls-mend"))]
