"""Plants to be run in tests, by what is changed of them."""

from dataclasses import replace

from trimdive.plant import Bottle, System
from trimdive.plant.driving import MotorLine, PumpCurve, Thread, motor_line, pump_curve
from trimdive.plant.system import ALONE, Piston
from trimdive.plant.water import Way

WIDE = Way(bore=50e-3, length=1e-2, valve=50e-3, density=998.2, viscosity=1e-3)  # loses nothing
NARROW = Way(bore=4e-3, length=1.0, valve=4e-3, density=998.2, viscosity=1e-3)


def pump(flow: float = 2 / 6e4, head: float = 1e5, way: Way = WIDE, share: float = 1) -> PumpCurve:
    return pump_curve(flow=flow, head=head, current=0.8, stalled=3.0, share=share, way=way)


def motor(torque: float = 1.0, turns: float = 5.0) -> MotorLine:
    return motor_line(turns=turns, torque=torque, current=0.3, stalled=5.0, share=1.0)


def piston(area: float, torque: float = 1.0, turns: float = 5.0) -> Piston:
    thread = Thread(lead=1.5e-3, diameter=7.25e-3, friction=0.15, collar=0.0, flank=0.0)
    return Piston(motor=motor(torque, turns), thread=thread, area=area, seal=40.0)


def bottle(gas: str = "R-134a", celsius: float = 10.0, mass: float = 0.04) -> Bottle:
    return Bottle(
        gas=gas, mass=mass, volume=0.0, pressure=0.0, jet=0.6e-3, celsius=celsius, metal=30.0,
        left=0.1,
    )  # fmt: skip


def air_bottle(volume: float, pressure: float) -> Bottle:
    return replace(bottle("air", mass=0.0), volume=volume, pressure=pressure)


CLOSED = System(
    name="pump", kind="pump closed", tanks=("tank",), room=1.5e-3, blown=0.0, full=1.5e-3,
    neutral=1.3e-3, air=1.5e-3, closed_with=0.0, others=ALONE, low=0.03, high=0.15, waterline=0.15,
    is_round=True, density=998.2, viscosity=1e-3, celsius=10.0, volts=12.0, share=1.0, starts=0.4,
    drive=pump(), stretch=0.0, holes=2e-4, vent=1.2e-5, unpowered="shut", leaks=0.0, assumed=(),
)  # fmt: skip


def system(**changes: object) -> System:
    return replace(CLOSED, **changes)  # pyright: ignore[reportArgumentType] - as each test says


def gas_system(**changes: object) -> System:
    fields = {"kind": "gas", "drive": bottle(), "room": 0.174e-3, "full": 0.174e-3,
              "neutral": 0.155e-3, "low": 0.0065, "high": 0.0705, "waterline": 0.076}  # fmt: skip
    return system(**(fields | changes))
