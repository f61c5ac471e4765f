"""The whole story of the tub: the list, the readings, what was wrong, and the boat corrected."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from math import atan

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import append, remove
from trimdive.boatfile.tub import FromTub
from trimdive.geometry.lines.mesh import Floats
from trimdive.trials.readings import (
    Fit,
    Lump,
    Off,
    Wrong,
    averaged,
    fit,
    listed,
    pieces,
    predicted,
    rooms,
    today,
    wrong,
)
from trimdive.uncertainty import WIDE, Figure, Source, Thing
from trimdive.units import unit_named, write

LIKELY = 0.25  # standard deviations: what is off by less is not told as likely [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A figure by the list and by the tub."""

    before: Figure
    value: float  # by the tub [as the figure]
    half: float  # how far that may be off, 95 % [as the figure]; an angle by its tangent


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """A thing that most likely carries some of what was wrong."""

    thing: Thing
    source: Source
    change: float  # what it is most likely off by [kg, m³ or m]
    half: float  # how far that may be off, 95 % [kg, m³ or m]
    share: float  # of all that was wrong, by standard deviations squared [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Net:
    """Weight less buoyancy that the list has too little of, with its place."""

    size: float  # [kg]
    half: float  # how far that may be off, 95 % [kg]
    moment: float  # about the middle of her, forward [kg m]
    turn: float  # how far that may be off, 95 % [kg m]


@dataclass(frozen=True, kw_only=True)
class Story:
    """A boat with readings; each answer is worked out when first asked for."""

    her: Assessment

    @cached_property
    def today(self) -> Assessment:
        """The boat as her list has her today."""
        return Assessment(boat=today(self.her.boat), files=self.her.files)

    @cached_property
    def fit(self) -> Fit:
        """The boat that the readings are of."""
        return fit(listed(self.her.boat, self.her.files))

    @cached_property
    def wrong(self) -> Wrong:
        """What was wrong in the list."""
        return wrong(self.fit, self.today.waterline, self.today.full_water)

    @cached_property
    def pieces(self) -> tuple[FromTub, ...]:
        """The pieces that make the list agree with the tub."""
        readings = self.her.boat.readings_now
        last = max(one.date for one in readings)
        floater = self.fit.her.floater
        count, line = len(readings), self.today.waterline
        return (
            *pieces(self.wrong, floater, line, last, count),
            *rooms(self.wrong, self.today.boat, last, count),
        )

    @cached_property
    def corrected(self) -> Assessment:
        """The boat as the tub has her today."""
        boat = self.today.boat.model_copy(
            update={"from_tub": (*self.today.boat.from_tub, *self.pieces)}
        )
        return Assessment(boat=boat, files=self.her.files)

    @cached_property
    def figures(self) -> tuple[Found, ...]:
        """Every figure by the list and by the tub."""
        before, after = self.today.uncertainty, self.corrected.uncertainty
        known = {(one.key, one.place): one for one in after.figures}
        found: list[Found] = []
        for one in before.figures:
            now = known.get((one.key, one.place))
            if now is not None:
                half = self._half(now.off)
                half = atan(half) if one.kind == "angle" else half
                found.append(Found(before=one, value=now.value, half=half))
        return tuple(found)

    def _half(self, row: Floats) -> float:
        """Return how far a figure may be off after the readings, 95 %.

        Args:
            row: What each source does to it, shape (s,) [as the figure].
        """
        return WIDE * float(max(row @ self.fit.spread @ row, 0.0)) ** 0.5

    @cached_property
    def carriers(self) -> tuple[Carrier, ...]:
        """What most likely carries what was wrong, the likeliest first."""
        found, whole = self.fit, max(float(self.fit.off @ self.fit.off), 1e-300)
        sizes = np.sqrt(np.maximum(np.diag(found.spread), 0.0))
        listed = [
            Carrier(
                thing=found.her.things[source.thing],
                source=source,
                change=far * source.half / WIDE,
                half=float(size) * source.half,
                share=far**2 / whole,
            )
            for source, far, size in zip(found.her.sources, found.off.tolist(), sizes, strict=True)
            if abs(far) > LIKELY
        ]
        return tuple(sorted(listed, key=lambda one: -one.share))

    @cached_property
    def heavy(self) -> Net:
        """What the list has too little of as she floats, about the middle of her."""
        found, rho = self.fit, self.fit.her.floater.density
        at = Off(her=found.her, off=found.off)
        one = self.her.boat.readings_now[0].model_copy(update=AFLOAT)
        answer = at.answer(one)
        force = answer.mass - rho * answer.volume
        moment = answer.weight[:, 0] - rho * answer.buoyancy[:, 0] - self.today.midships * force
        return self._net(self.wrong.surfaced, 1.0, force, moment)

    @cached_property
    def above(self) -> Net:
        """What the list has too little of above the waterline, less tank water, as it pulls."""
        found, rho = self.fit, self.fit.her.floater.density
        at = Off(her=found.her, off=found.off)
        up = at.answer(self.her.boat.readings_now[0].model_copy(update=AFLOAT))
        down = at.answer(self.her.boat.readings_now[0].model_copy(update=UNDER), level=True)
        force = (up.mass - rho * up.volume) - (down.mass - rho * down.volume)
        moment = (up.weight - rho * up.buoyancy - down.weight + rho * down.buoyancy)[:, 0]
        return self._net(self.wrong.above, rho, force, moment - self.today.midships * force)

    def _net(self, lump: Lump, density: float, force: Floats, moment: Floats) -> Net:
        """Return a lump about the middle of her, with its ±.

        Args:
            lump: What the list has too little of.
            density: By which it counts as mass [kg/m³], 1 for a mass.
            force: What each source does to it, shape (s,) [kg].
            moment: And to its moment about the middle of her, shape (s,) [kg m].
        """
        along = float(lump.moment[0]) - self.today.midships * lump.size
        return Net(
            size=density * lump.size,
            half=self._half(force),
            moment=density * along,
            turn=self._half(moment),
        )

    @cached_property
    def still_fits(self) -> bool:
        """Whether her file with its correction reads as the boat that the readings are of."""
        ready = listed(self.her.boat, self.her.files, corrected=True)
        at = Off(her=ready, off=np.zeros(len(ready.sources)))
        groups = averaged(self.her.boat.readings_now)
        values = [value for group in groups for value in predicted(at, group.one)]
        rows = zip(values, self.fit.by_tub, self.fit.rows, strict=True)
        return all(abs(value - by_tub) <= row.half for value, by_tub, row in rows)

    def written(self, text: str, note: Callable[[FromTub], str]) -> str:
        """Return the text of her file with the correction of these readings, and no older one.

        Args:
            text: Of her file.
            note: Returns the note that a piece has there, in words.
        """
        for number in range(len(self.her.boat.from_tub), 0, -1):
            if not self.her.boat.from_tub[number - 1].past:
                text = remove(text, f"from_tub[{number}]")
        for piece in self.pieces:
            text = append(text, "from_tub", _fields(self.her, piece, note(piece)))
        return text


AFLOAT: dict[str, object] = {
    "draught": 0.0, "freeboard": None, "pull_aft": None, "laid_aft": None, "moved": None,
    "mass": None, "litres": None, "tips": None, "leans": None, "dived": False, "tanks": "blown",
    "water": None, "temperature": None, "salt": None,
}  # fmt: skip
UNDER = AFLOAT | {"dived": True, "tanks": "full"}


def _fields(her: Assessment, piece: FromTub, note: str) -> dict[str, str | int]:
    """Return a piece as it is written into her file, measured as she is."""
    sizes = {
        name: _handy(her, value, name)
        for name, value in (("mass", piece.mass), ("volume", piece.volume))
        if value
    }
    if piece.tank:
        sizes |= {"tank": piece.tank, "room": _handy(her, piece.room, "volume")}
    places = {
        name: _handy(her, value, "length")
        for name, value in (("x", her.boat.along(piece.x)), ("y", piece.y), ("z", piece.z))
    }
    return {
        **sizes, **places, "date": piece.date.isoformat(), "readings": piece.readings, "note": note
    }  # fmt: skip


def _handy(her: Assessment, value: float, kind: str) -> str:
    """Return a figure as it is written: in her unit, finer than a builder would read."""
    unit = unit_named(her.boat.units.shown(kind), kind)
    return write(value, kind, unit.name, unit.decimals + 4)
