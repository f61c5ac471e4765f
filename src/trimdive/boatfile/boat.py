"""The boat: everything that one boat file holds."""

import datetime
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, PrivateAttr

from trimdive.boatfile.bench import LeakTest
from trimdive.boatfile.piece import End, Piece
from trimdive.boatfile.pieces import (
    Coat,
    Cylinder,
    Foam,
    Hatch,
    KeepClear,
    Lead,
    Mark,
    Opening,
    Part,
    Photo,
    Plan,
    Tank,
    Waterline,
)
from trimdive.boatfile.placing import Lane, Placing, Pocket, Run
from trimdive.boatfile.plant import Battery, Failsafe, Linkage, Plant
from trimdive.boatfile.quantities import (
    NOT_GIVEN,
    Celsius,
    FullLength,
    FullWeight,
    Name,
    Salt,
    Scale,
    Share,
    Size,
    Speed,
    Time,
    WaterDepth,
    Weight,
)
from trimdive.boatfile.regions import Region
from trimdive.boatfile.skin_marks import DraughtMark, Hole, PlateLine
from trimdive.boatfile.tub import FromTub, Reading, Spreads
from trimdive.boatfile.typed import Typed
from trimdive.units import unit_named, usual_names, write, write_fine

BEYOND = 5e-4  # a place so far beyond an end is told as beyond it [m]
FORMAT = 1  # of the boat files that this version writes


def _unit(kind: str) -> BeforeValidator:
    """Return the check that a text names a unit of a kind."""

    def name_of(text: object) -> object:
        return unit_named(text, kind).name if isinstance(text, str) else text

    return BeforeValidator(name_of)


class Units(Piece):
    """The boat's own units: for numbers that stand without one, and for what is written."""

    length: Annotated[str, _unit("length")] | None = Field(default=None, description="Lengths.")
    mass: Annotated[str, _unit("mass")] | None = Field(default=None, description="Masses.")
    volume: Annotated[str, _unit("volume")] | None = Field(default=None, description="Volumes.")
    angle: Annotated[str, _unit("angle")] | None = Field(default=None, description="Angles.")
    temperature: Annotated[str, _unit("temperature")] | None = Field(
        default=None, description="Temperatures."
    )
    density: Annotated[str, _unit("density")] | None = Field(default=None, description="Densities.")
    speed: Annotated[str, _unit("speed")] | None = Field(default=None, description="Speeds.")
    percent: Annotated[str, _unit("percent")] | None = Field(default=None, description="Shares.")
    salt: Annotated[str, _unit("salt")] | None = Field(default=None, description="Salt in water.")
    area: Annotated[str, _unit("area")] | None = Field(default=None, description="Areas.")
    pressure: Annotated[str, _unit("pressure")] | None = Field(
        default=None, description="Pressures."
    )
    force: Annotated[str, _unit("force")] | None = Field(default=None, description="Forces.")

    @property
    def own(self) -> dict[str, str]:
        """Return the units that are named, by kind."""
        return {kind: unit for kind, unit in self if unit}

    def shown(self, kind: str) -> str:
        """Return the unit in which a kind of quantity is written."""
        return self.own.get(kind) or usual_names(kind)[0]

    def write(self, value: float, kind: str, digits: int | None = None) -> str:
        """Return an SI value as text in the boat's own unit."""
        return write(value, kind, self.shown(kind), digits)

    def write_fine(self, value: float, kind: str) -> str:
        """Return an SI value in the boat's own unit, to two figures at the least."""
        return write_fine(value, kind, self.shown(kind))


class FullSize(Piece):
    """The boat that she is a model of."""

    length: FullLength | None = Field(default=None, description="Length over all.")
    breadth: FullLength | None = Field(default=None, description="Greatest breadth.")
    draught: FullLength | None = Field(default=None, description="Draught on the surface.")
    displacement_surfaced: FullWeight | None = Field(
        default=None, description="Displacement on the surface."
    )
    displacement_dived: FullWeight | None = Field(default=None, description="Displacement dived.")
    speed_surfaced: Speed | None = Field(default=None, description="Speed on the surface.")
    speed_dived: Speed | None = Field(default=None, description="Speed dived.")


class Brief(Piece):
    """What was promised: what she is to be judged by."""

    lift_limit: Weight | None = Field(default=None, description="Heaviest lift, dry.")
    car_length: Size | None = Field(
        default=None, description="Longest that fits the car or the box."
    )
    pond_depth: WaterDepth | None = Field(default=None, description="Depth of her water.")
    waters: tuple[Name, ...] = Field(
        default=(), description="Waters in which she is to dive, by their names."
    )
    run_time: Time | None = Field(default=None, description="Running time.")
    speed: Speed | None = Field(default=None, description="Speed of the model.")
    radio: str = Field(default="", description="Radio band and set.")
    finish: str = Field(default="", description="Finish.")


class WeighIn(Piece):
    """The whole boat on the scale, with what is aboard that day and no water in her."""

    date: datetime.date = Field(description="When.")
    mass: Weight = Field(description="Reading of the scale.")
    note: str = Field(default="", description="What was aboard, what was new.")


class FillStep(Piece):
    """One row of the table of fillings: how full tanks are then; the others stay as they were."""

    levels: dict[Name, Share] = Field(description="How full each tank is, by its name.")


class WaterOf(Piece):
    """The water in which she is trimmed."""

    kind: Literal["fresh", "sea", "pool"] = Field(default="fresh", description="Kind of water.")
    temperature: Celsius = Field(default=15.0, description="Temperature.")
    salt: Salt = Field(
        default=NOT_GIVEN,
        description="Salt in sea or pool water; left out, 35 g/kg at sea and none in fresh water.",
    )


class Boat(Piece):
    """A boat as it lies on the bench."""

    format: Literal[1] = Field(default=FORMAT, description="Format of the boat file.")
    name: Name = Field(description="Her name.")
    scale: Scale | None = Field(default=None, description="Scale, as 1:20.")
    plan_scale: Scale | None = Field(
        default=None, description="Scale of the paper plan, for figures read on the plan."
    )
    note: str = Field(default="", description="Anything you want to remember.")
    length: Size | None = Field(
        default=None, description="Length over all; needed where anything is measured from the bow."
    )
    measured_from: End = Field(
        default="stern", description="End from which every x is measured: stern or bow."
    )
    units: Units = Field(default=Units(), description="The boat's own units.")
    full_size: FullSize | None = Field(default=None, description="The boat she is a model of.")
    water: WaterOf = Field(default=WaterOf(), description="The water in which she is trimmed.")
    waterline: Waterline | None = Field(
        default=None, description="The waterline at which she is meant to float."
    )
    brief: Brief | None = Field(default=None, description="The brief.")
    marks: tuple[Mark, ...] = Field(
        default=(), alias="mark", description="Places where draughts are read."
    )
    regions: tuple[Region, ...] = Field(
        default=(), alias="region", description="Regions of the hull."
    )
    openings: tuple[Opening, ...] = Field(
        default=(), alias="opening", description="Holes through the hull."
    )
    hatches: tuple[Hatch, ...] = Field(
        default=(), alias="hatch", description="What opens so that things come out."
    )
    holes: tuple[Hole, ...] = Field(
        default=(), alias="hole", description="Holes in the skin: flooding, limbers, vents."
    )
    plate_lines: tuple[PlateLine, ...] = Field(
        default=(), alias="plate_line", description="Lines to mark on the skin: welds, waterline."
    )
    draught_marks: tuple[DraughtMark, ...] = Field(
        default=(),
        alias="draught_mark",
        description="Figures of the draught at stem, stern or on the side.",
    )
    plans: tuple[Plan, ...] = Field(
        default=(), alias="plan", description="Pictures of plans, with what was marked on them."
    )
    photos: tuple[Photo, ...] = Field(
        default=(), alias="photo", description="Photographs of her afloat, with what was marked."
    )
    coats: tuple[Coat, ...] = Field(default=(), alias="coat", description="Paint and filler.")
    cylinders: tuple[Cylinder, ...] = Field(
        default=(), alias="cylinder", description="Watertight cylinders."
    )
    tanks: tuple[Tank, ...] = Field(
        default=(), alias="tank", description="Tanks for ballast water."
    )
    parts: tuple[Part, ...] = Field(
        default=(), alias="part", description="Anything with a mass and a place."
    )
    lead: tuple[Lead, ...] = Field(default=(), description="Pieces of lead.")
    foam: tuple[Foam, ...] = Field(default=(), description="Pieces of foam.")
    keep_clear: tuple[KeepClear, ...] = Field(
        default=(), description="Spaces in which nothing may stand."
    )
    weigh_ins: tuple[WeighIn, ...] = Field(
        default=(), alias="weigh_in", description="The whole boat on the scale, with the dates."
    )
    fills: tuple[FillStep, ...] = Field(
        default=(), alias="fill", description="A table of fillings, passed one after another."
    )
    pockets: tuple[Pocket, ...] = Field(
        default=(), alias="pocket", description="Spaces in which lead or foam may be put."
    )
    lanes: tuple[Lane, ...] = Field(
        default=(),
        alias="lane",
        description="How far parts may slide when lead and foam are placed.",
    )
    runs: tuple[Run, ...] = Field(
        default=(),
        alias="run",
        description="Hoses, cables and rods from one thing to another, and how long they may be.",
    )
    placing: Placing = Field(default=Placing(), description="How lead and foam are to be placed.")
    plants: tuple[Plant, ...] = Field(
        default=(), alias="plant", description="What floods and empties the tanks."
    )
    batteries: tuple[Battery, ...] = Field(
        default=(), alias="battery", description="Batteries with their fuses and wires."
    )
    failsafe: Failsafe | None = Field(
        default=None, description="What is done by itself when something fails."
    )
    linkages: tuple[Linkage, ...] = Field(
        default=(), alias="linkage", description="Servos with the rods and horns that they move."
    )
    leak_tests: tuple[LeakTest, ...] = Field(
        default=(), alias="leak_test", description="Cylinders closed and watched on a gauge."
    )
    spreads: Spreads = Field(
        default=Spreads(), description="How far places, volumes and litres may be off."
    )
    readings: tuple[Reading, ...] = Field(
        default=(), alias="reading", description="What was read in the tub, with the dates."
    )
    from_tub: tuple[FromTub, ...] = Field(
        default=(),
        description="What the readings say was wrong; written as the correction is taken over.",
    )
    limits: dict[str, str] = Field(
        default={}, description="Limits of your own, by their names in the table of limits."
    )

    _entered_from: str = PrivateAttr(default="")  # how the file measures, once x are turned
    _typed: Typed = PrivateAttr(default_factory=Typed)  # as the file has it

    @property
    def entered_from(self) -> str:
        """Return the end from which the builder measures, stern or bow."""
        return self._entered_from or self.measured_from

    def typed(self, place: str) -> str | None:
        """Return a figure as it is typed in her file; None where none is.

        Args:
            place: Of the figure, such as "part[3].mass".
        """
        found = self._typed.figures.get(place)
        return None if found is None else str(found).strip()

    def along(self, x: float) -> float:
        """Return a place [m] forward from the stern as the builder measures it [m]."""
        return (self.length or 0.0) - x if self.entered_from == "bow" else x

    def place(self, x: float) -> str:
        """Return a place [m] forward from the stern in the builder's words."""
        far, end = self.along(x), self.entered_from
        if far < -BEYOND:
            way = "aft" if end == "stern" else "forward"
            return f"{self.units.write(-far, 'length')} {way} of the {end}"
        return f"{self.units.write(max(far, 0.0), 'length')} from the {end}"

    @property
    def readings_now(self) -> tuple[Reading, ...]:
        """Return what was read of her as she is now: nothing that is past."""
        return tuple(reading for reading in self.readings if not reading.past)

    @property
    def pieces(self) -> tuple[Part, ...]:
        """Return parts, lead and foam, in the order of the file."""
        return (*self.parts, *self.lead, *self.foam)
