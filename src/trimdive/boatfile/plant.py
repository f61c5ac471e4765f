"""What floods and empties the tanks, what feeds it, and what happens when something fails."""

from typing import Literal

from pydantic import Field

from trimdive.boatfile.piece import Measured, Piece
from trimdive.boatfile.quantities import (
    Angle,
    Area,
    Celsius,
    Charge,
    Current,
    Flow,
    Force,
    Friction,
    Length,
    Name,
    Pressure,
    Room,
    Share,
    Size,
    Speed,
    Time,
    Torque,
    Turning,
    Voltage,
    WaterDepth,
    Weight,
    Yes,
)

Kind = Literal["piston", "pump closed", "pump vented", "pump bag", "gas", "snorkel", "air bag"]
KINDS: tuple[Kind, ...] = (
    "piston",
    "pump closed",
    "pump vented",
    "pump bag",
    "gas",
    "snorkel",
    "air bag",
)
Action = Literal["come up", "stay", "drop weight"]


class Pump(Piece):
    """A pump for water or air, by what it does at its nominal voltage."""

    sort: Literal["gear", "hose", "diaphragm", "centrifugal"] = Field(
        default="gear", description="How it pumps; a hose pump holds when it stands."
    )
    flow: Flow | None = Field(default=None, description="What it pumps against nothing.")
    head: Pressure | None = Field(default=None, description="Pressure at which nothing flows.")
    voltage: Voltage | None = Field(default=None, description="Voltage for these figures.")
    current: Current | None = Field(default=None, description="What it draws against nothing.")
    stalled: Current | None = Field(default=None, description="What it draws at that pressure.")
    starts: Voltage | None = Field(
        default=None, description="Least voltage at which it starts; left out, a share of its own."
    )


class Motor(Piece):
    """A motor with its gear, by what it does at its nominal voltage."""

    voltage: Voltage | None = Field(default=None, description="Voltage for these figures.")
    turns: Turning | None = Field(default=None, description="How fast it runs free, geared down.")
    torque: Torque | None = Field(default=None, description="Torque at which it stalls, geared.")
    current: Current | None = Field(default=None, description="What it draws running free.")
    stalled: Current | None = Field(default=None, description="What it draws stalled.")


class Screw(Piece):
    """The screw that drives a piston."""

    lead: Size | None = Field(default=None, description="How far a turn takes the piston.")
    diameter: Size | None = Field(default=None, description="Mean diameter of its thread.")
    friction: Friction | None = Field(
        default=None, description="Friction of thread and nut, such as 0.2 or 20 %."
    )
    thread: Literal["square", "trapezoid"] = Field(
        default="trapezoid", description="Form of the thread: square, or trapezoid of 30°."
    )
    collar: Size | None = Field(
        default=None, description="Mean diameter of a plain collar; left out, it runs on balls."
    )


class Hose(Piece):
    """The hose between the tank and the water, or the pump and the bag."""

    bore: Size | None = Field(default=None, description="Its bore.")
    length: Size | None = Field(default=None, description="Its length.")


class Valve(Piece):
    """A valve in the way of the water, or of the gas."""

    bore: Size | None = Field(default=None, description="Its bore; left out, the hose's.")
    unpowered: Literal["shut", "open", "stays"] = Field(
        default="shut", description="What it does when its power goes."
    )


class Store(Piece):
    """The bottle that gas comes from."""

    gas: Name | None = Field(default=None, description="Which gas, by its name in the table.")
    mass: Weight | None = Field(default=None, description="What is in it, liquefied.")
    volume: Room | None = Field(default=None, description="Room of a bottle of compressed gas.")
    pressure: Pressure | None = Field(
        default=None, description="Pressure in it above the air's, of compressed gas."
    )
    jet: Size | None = Field(default=None, description="Bore of the jet that the gas comes from.")
    temperature: Celsius | None = Field(
        default=None, description="How cold the bottle is; left out, as the water."
    )


class Plant(Piece):
    """What floods and empties one tank or several."""

    name: Name = Field(description="What you call it.")
    kind: Kind = Field(
        description="piston; pump closed, vented or bag; gas; snorkel; or air bag: see plant.md."
    )
    tanks: tuple[Name, ...] = Field(min_length=1, description="Tanks that it serves.")
    battery: Name | None = Field(
        default=None, description="Battery that feeds it; left out, the first."
    )
    pump: Pump | None = Field(default=None, description="Its pump.")
    motor: Motor | None = Field(default=None, description="The motor of a piston's screw.")
    screw: Screw | None = Field(default=None, description="The screw of a piston.")
    hose: Hose | None = Field(default=None, description="Its hose.")
    valve: Valve | None = Field(
        default=None, description="Its valve: a pump without one leaks when it stands."
    )
    store: Store | None = Field(default=None, description="The bottle of a tank blown by gas.")
    vent: Size | None = Field(
        default=None, description="Bore of the vent of a tank that is open below."
    )
    openings: Area | None = Field(default=None, description="Area open below, of such a tank.")
    free_air: Room | None = Field(
        default=None,
        description="Air in the dry space, tank empty, here or as air of its cylinder; left out, "
        "by what is listed in it.",
    )
    closed_at: Share | None = Field(
        default=None,
        description="How full the tank was when the dry space was closed; left out, as its "
        "cylinder, an air bag flat.",
    )
    seal: Force | None = Field(default=None, description="How hard the piston's seal rubs.")
    stretch: Pressure | None = Field(
        default=None, description="Pressure that stretches a bag when it is full."
    )


class Battery(Piece):
    """A battery, its fuse and its wires."""

    name: Name = Field(description="What you call it.")
    voltage: Voltage = Field(gt=0, description="Its nominal voltage.")
    capacity: Charge = Field(gt=0, description="What it holds.")
    low: Voltage | None = Field(
        default=None, description="Voltage at which it counts as empty; left out, nine tenths."
    )
    drive: Current = Field(
        default=0.0, description="What motors and gear draw from it at once, besides the plant."
    )
    fuse: Current | None = Field(default=None, description="Its fuse.")
    wire: Area | None = Field(default=None, description="Copper in its wire.")
    wire_length: Size | None = Field(
        default=None, description="How long the wire is, one way."
    )  # fmt: skip


class Failsafe(Piece):
    """What is done by itself when something fails: come up, stay, or drop weight."""

    signal_lost: Action | None = Field(default=None, description="When no signal comes.")
    battery_low: Action | None = Field(default=None, description="When the battery is low.")
    leak: Action | None = Field(default=None, description="When water is felt inside.")
    too_deep: Action | None = Field(default=None, description="When she is too deep.")
    too_deep_at: WaterDepth | None = Field(default=None, description="Depth that is too deep.")
    after: Time | None = Field(default=None, description="How long it waits.")
    own_battery: Yes = Field(
        default=False, description="true: receiver and failsafe have a battery of their own."
    )
    drops: Name | None = Field(
        default=None, description="Part or piece of lead that is dropped, by its name."
    )


class Linkage(Measured):
    """A servo that moves a plane, a rudder or a valve by a rod."""

    name: Name = Field(description="What you call it.")
    arm: Size = Field(description="Servo arm, from its middle to the rod's hole.")
    horn: Size = Field(description="Horn, from its stock to the rod's hole.")
    travel: Angle = Field(description="How far the servo turns to either side.")
    throw: Angle | None = Field(default=None, description="Angle wanted to either side.")
    torque: Torque = Field(description="What the servo holds.")
    rubs: Force | None = Field(default=None, description="How hard the rod's seal rubs.")
    moves: Literal["planes", "rudder", "valve"] = Field(
        default="planes", description="What it moves."
    )
    area: Area | None = Field(default=None, description="Area of the planes or rudder together.")
    span: Size | None = Field(default=None, description="Their span, tip to tip or root to tip.")
    stock: Share | None = Field(
        default=None, description="Where the stock lies in the chord, from its leading edge."
    )
    speed: Speed | None = Field(default=None, description="Speed at which they must move.")
    rod: Size | None = Field(default=None, description="Diameter of the rod.")
    gland: Size | None = Field(default=None, description="From the servo arm to the gland.")
    x_aft: Length | None = Field(default=None, description="After end of the rod.")
    y_aft: Length = Field(default=0.0, description="How far to port that end is.")
    z_aft: Length | None = Field(default=None, description="How high that end is.")
    x_fore: Length | None = Field(default=None, description="Fore end of the rod.")
    y_fore: Length = Field(default=0.0, description="How far to port that end is.")
    z_fore: Length | None = Field(default=None, description="How high that end is.")
    shaft_y: Length = Field(default=0.0, description="How far to port the shaft runs there.")
    shaft_z: Length | None = Field(
        default=None, description="How high the shaft runs at the rod's after end."
    )
    shaft_slope: Angle = Field(default=0.0, description="How much the shaft rises forward.")
    shaft: Size | None = Field(default=None, description="Diameter of the shaft or its tube.")
