"""The litres as a function of everything that was read, and how each reading's error moves them.

Every reading, and every allowance for what was not read, is an input with a 95 % spread. Inputs
err independently; what errs alike everywhere (the pencilled waterline, the calipers) is one
input. The spread of the sum is that of its linear part.

Source: Evaluation of measurement data, Guide to the expression of uncertainty in measurement, from
memory. Spreads: common practice, no source.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import hypot, sqrt

import numpy as np

from trimdive.boatfile.piece import HUNG_DENSITY
from trimdive.estimates.tape.area import Area, enclosed, ends, gaps, tapers, under_curve
from trimdive.estimates.tape.readings import Readings, Standing, figure
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats

Values = Mapping[str, float]
TURN = np.pi / 2  # from waterline over the deck to waterline the skin turns by twice this [rad]
PRIOR = 4  # the usual spread between spots counts as much as so many readings [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """A reading or an allowance."""

    key: str
    group: str  # readings of one kind, for asking which kind matters most
    value: float  # [SI]
    spread: float  # 95 %, to either side [SI]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Something above the waterline: its inputs, and its volume and moment by them."""

    name: Fact | str  # part of the hull, or the name of a thing
    inputs: tuple[Input, ...]
    sums: Callable[[Values], tuple[float, float]]  # volume [m³] and its moment about the stern [m⁴]
    density: float  # for the rule of thumb; nought where only the mass is known [kg/m³]
    mass: float  # as weighed; nought where only the volume is known [kg]


def wall_of(walls: tuple[float, ...]) -> tuple[float, float]:
    """Return the mean wall and its 95 % spread [m].

    The spread between spots is that of the readings, steadied by what is usual: two readings that
    happen to agree prove little.

    Args:
        walls: Readings at spots, at least one [m].
    """
    mean, count = float(np.mean(walls)), len(walls)
    usual = figure("wall-spots") * mean / 2
    between = sqrt(
        (PRIOR * usual**2 + float(np.sum((np.array(walls) - mean) ** 2))) / (PRIOR + count - 1)
    )
    return mean, hypot(2 * between / sqrt(count), figure("wall-reading"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Skin:
    """The skin of the hull above the waterline, by its girths."""

    readings: Readings
    trust: float  # share of the volume that is taken from wall and area, not from the scale [-]

    @property
    def x(self) -> Floats:
        """Return the places of the girths, shape (n,) [m]."""
        return np.array([one.x for one in self.readings.girths])

    @property
    def g(self) -> Floats:
        """Return the girths, shape (n,) [m]."""
        return np.array([one.girth for one in self.readings.girths])

    def inputs(self) -> tuple[Input, ...]:
        """Return what the volume of the skin hangs on."""
        read, share = figure("girth-reading"), figure("girth-share")
        found = [
            Input(key=f"girth {i}", group="girths", value=g, spread=hypot(read, share * g))
            for i, g in enumerate(self.g)
        ]
        found += _gap_inputs(self.x, self.g)
        found += [
            _allowance("waterline", "waterline", 0.0, 2 * figure("waterline-mark")),
            _allowance("end", "ends", figure("end-share"), figure("end-share-off")),
            _allowance("slope", "slope", 1.0, figure("slope-share")),
            _allowance("taper", "taper", 0.0, figure("wall-taper")),
        ]
        return (*found, *_material_inputs(self.readings, self.trust))

    def area(self, values: Values, wall: float) -> tuple[Area, float]:
        """Return the area halfway through the wall, and its second moment about its middle [m⁴].

        Args:
            values: The inputs by key [SI].
            wall: Its thickness [m].
        """
        x, read = self.x, self.g > 0
        g = np.array([values[f"girth {i}"] for i in range(len(x))]) + values["waterline"]
        g = np.where(read, np.maximum(g - TURN * wall, 0.0), 0.0)
        inner = under_curve(x, g, values["slope"])
        outer = ends(x, g, self.readings.length, values["end"])
        more, at = _gaps_filled(x, values)
        area, moment = inner.area + outer.area + more, inner.moment + outer.moment + at
        about = moment / area
        return Area(area=area, moment=moment), float(np.trapezoid(g * (x - about) ** 2, x))

    def sums(self, values: Values) -> tuple[float, float]:
        """Return volume [m³] and moment [m⁴] of the skin."""
        readings = self.readings
        volume, wall = 0.0, values.get("wall", 0.0)
        if not wall:
            rough, _ = self.area(values, 0.0)
            wall = values["moulding"] / values["density"] / rough.area
        skin, second = self.area(values, wall)
        if self.trust > 0:
            volume += self.trust * wall * skin.area
        if self.trust < 1:
            strip = 2 * readings.length * wall * values["edge"]
            volume += (1 - self.trust) * (values["moulding"] / values["density"] + strip)
        moment = volume * skin.moment / skin.area
        moment += volume / skin.area * values["taper"] * second / (readings.length / 2)
        return volume, moment


def _gap_inputs(x: Floats, g: Floats) -> list[Input]:
    """Return what the gaps between girths leave open, each beside an inner girth."""
    adds, open_area = gaps(x, g)
    each = np.abs(adds) * open_area / max(float(np.linalg.norm(adds)), 1e-12)
    found = [_allowance(f"between {i}", "places", 0.0, float(one)) for i, one in enumerate(each, 1)]
    aft, fore = tapers(x, g)
    return [*found, _allowance("aft", "ends", 0.0, aft), _allowance("fore", "ends", 0.0, fore)]


def _gaps_filled(x: Floats, values: Values) -> tuple[float, float]:
    """Return what the gaps add beyond the curve, and its moment about the stern.

    Args:
        x: Places of the readings, shape (n,) [m].
        values: The inputs by key [SI].
    """
    between = np.array([values[f"between {i}"] for i in range(1, len(x) - 1)])
    aft, fore = values["aft"], values["fore"]
    moment = between @ x[1:-1] + aft * (x[0] + x[1]) / 2 + fore * (x[-1] + x[-2]) / 2
    return float(between.sum()) + aft + fore, float(moment)


def _allowance(key: str, group: str, value: float, spread: float) -> Input:
    return Input(key=key, group=group, value=value, spread=spread)


def _material_inputs(readings: Readings, trust: float) -> list[Input]:
    """Return the inputs of the wall, or of the moulding on the scale, or of both."""
    found: list[Input] = []
    if readings.walls:
        wall, spread = wall_of(readings.walls)
        found.append(_allowance("wall", "wall", wall, spread))
    if readings.moulding and trust < 1:
        mass, material = readings.moulding.mass, readings.material
        found += [
            _allowance("moulding", "scale", mass, figure("scale-reading") * mass),
            _allowance("density", "density", material.density, material.spread),
            _allowance("edge", "waterline", readings.moulding.edge, figure("waterline-mark")),
        ]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealed:
    """A dry hull above the waterline: all that its sections hold."""

    readings: Readings

    def _sections(self) -> tuple[Floats, Floats, Floats]:
        girths = self.readings.girths
        b = np.array([one.breadth or 0.0 for one in girths])
        g = np.array([one.girth for one in girths])
        return np.array([one.x for one in girths]), *enclosed(b, g)

    def inputs(self) -> tuple[Input, ...]:
        """Return what the volume hangs on."""
        x, area, open_area = self._sections()
        wide = max(one.breadth or 0.0 for one in self.readings.girths)
        read = figure("girth-reading")
        found = [
            Input(key=f"girth {i}", group="girths", value=0.0, spread=read * (one.breadth or 0) / 2)
            for i, one in enumerate(self.readings.girths)
        ]
        return (
            *found,
            *_gap_inputs(x, area),
            _allowance("section", "section", 0.0, float(np.trapezoid(open_area, x))),
            _allowance("unlike ends", "section", 0.0, 1.0),
            _allowance("waterline", "waterline", 0.0, wide * figure("waterline-mark")),
            _allowance("end", "ends", figure("end-share"), figure("end-share-off")),
        )

    def sums(self, values: Values) -> tuple[float, float]:
        """Return volume [m³] and moment [m⁴]."""
        x, area, open_each = self._sections()
        area = area + np.array([values[f"girth {i}"] for i in range(len(x))])
        area = area + values["waterline"] * area / max(float(area.max()), 1e-12)
        inner = under_curve(x, area, 0.0)
        outer = ends(x, area, self.readings.length, values["end"])
        more, at = _gaps_filled(x, values)
        volume, moment = inner.area + outer.area + more, inner.moment + outer.moment + at
        about, open_area = inner.moment / inner.area, values["section"]
        unlike = values["unlike ends"] * float(np.trapezoid(open_each * abs(x - about), x))
        return volume + open_area, moment + open_area * about + unlike


def standing_piece(thing: Standing) -> Piece:
    """Return something that stands above the waterline as a piece of the sum."""
    inputs, volume = _standing(thing)
    at = Input(key="place", group=thing.name, value=thing.x, spread=figure("place"))

    def sums(values: Values) -> tuple[float, float]:
        found = volume(values)
        return found, found * values["place"]

    return Piece(
        name=thing.name,
        inputs=(*inputs, at),
        sums=sums,
        density=0.0 if thing.mass is not None else thing.material.density,
        mass=thing.mass or 0.0,
    )


def _standing(thing: Standing) -> tuple[list[Input], Callable[[Values], float]]:
    """Return the inputs of a thing's volume, and that volume by them [m³]."""
    name, made = thing.name, thing.material
    density = _allowance("density", name, made.density, made.spread)
    if thing.volume is not None:
        spread = figure("volume-reading") * thing.volume
        return [_allowance("volume", name, thing.volume, spread)], lambda v: v["volume"]
    if thing.mass is not None:
        mass = _allowance("mass", name, thing.mass, figure("scale-reading") * thing.mass)
        if thing.hung is None:
            return [mass, density], lambda v: v["mass"] / v["density"]
        hung = _allowance("hung", name, thing.hung, figure("hung-reading") * thing.mass)
        return [mass, hung], lambda v: (v["mass"] - v["hung"]) / HUNG_DENSITY
    wall, spread = wall_of((thing.wall or 0.0,))
    read = hypot(figure("girth-reading"), figure("girth-share") * (thing.girth or 0.0))
    top = float(thing.has_top)
    return [
        _allowance("wall", name, wall, spread),
        _allowance("girth", name, thing.girth or 0.0, read),
        _allowance("height", name, thing.height or 0.0, figure("girth-reading")),
        _allowance("lid", name, top * figure("lid-share"), top * figure("lid-share-off")),
    ], _shell


def _shell(values: Values) -> float:
    """Return the volume of a tower's wall and top [m³]."""
    wall = values["wall"]
    girth = max(values["girth"] - np.pi * wall, 0.0)
    return float(wall * (girth * values["height"] + values["lid"] * values["girth"] ** 2))


def hull_piece(readings: Readings) -> Piece:
    """Return the hull above the waterline as a piece of the sum.

    Where both the walls and the moulding were measured, each counts by how sure it is.
    """
    if readings.kind == "dry":
        dry = Sealed(readings=readings)
        return Piece(
            name=fact("hull-above-waterline"),
            inputs=dry.inputs(),
            sums=dry.sums,
            density=HUNG_DENSITY,  # filled with water and weighed, the rule is right for a dry hull
            mass=0.0,
        )
    trust = _trust(readings)
    skin = Skin(readings=readings, trust=trust)
    return Piece(
        name=fact("hull-skin"),
        inputs=skin.inputs(),
        sums=skin.sums,
        density=readings.material.density,
        mass=0.0,
    )


def _trust(readings: Readings) -> float:
    """Return the share of the skin's volume to take from wall and area [-]."""
    if not readings.moulding:
        return 1.0
    if not readings.walls:
        return 0.0
    by_wall, by_scale = (
        spread_of(Piece(name="", inputs=skin.inputs(), sums=skin.sums, density=0.0, mass=0.0))
        for skin in (Skin(readings=readings, trust=1.0), Skin(readings=readings, trust=0.0))
    )
    return by_scale**2 / (by_wall**2 + by_scale**2)


def moves(piece: Piece) -> list[tuple[Input, float, float]]:
    """Return by how much each input's spread moves volume [m³] and moment [m⁴]."""
    usual = {one.key: one.value for one in piece.inputs}
    found: list[tuple[Input, float, float]] = []
    for one in piece.inputs:
        high = piece.sums({**usual, one.key: one.value + one.spread})
        low = piece.sums({**usual, one.key: one.value - one.spread})
        found.append((one, (high[0] - low[0]) / 2, (high[1] - low[1]) / 2))
    return found


def spread_of(piece: Piece) -> float:
    """Return the 95 % spread of a piece's volume [m³]."""
    return hypot(*(volume for _, volume, _ in moves(piece)))
