"""A plant: why its figures are so, what it cannot do, what was taken, what it does unpowered."""

from math import pi

from trimdive.data import row
from trimdive.fact import Fact
from trimdive.text.plant_figures import at_depth, bars, grams, lightness, seconds
from trimdive.text.said import said, says
from trimdive.text.say import Say

MOVED = {"in": "in", "out": "out", "air": "of room made by air"}  # by which way it goes


def _litres(volume: float) -> str:
    return f"{volume * 1e3:.2f} L"


@says("falls-in")
def _falls_in(say: Say, moved: float, holes: float, vent: float) -> str:
    bore = 2e3 * (vent / pi) ** 0.5
    return (
        f"{_litres(moved)} fall in through {holes * 1e6:.0f} mm² below, as fast as a vent of "
        f"{bore:.1f} mm lets the air go"
    )


@says("bag-pressed")
def _bag_pressed(say: Say, moved: float) -> str:
    return f"the water presses {_litres(moved)} of air out of the bag, back through its valve"


@says("piston-moves")
def _piston_moves(
    say: Say, moved: float, way: str, area: float, lead: float, turns: float
) -> str:  # fmt: skip
    return (
        f"{area * 1e4:.1f} cm² of piston, {lead * 1e3:g} mm a turn at {turns * 60:.0f} rpm: "
        f"{_litres(moved)} {MOVED[way]}"
    )


@says("pump-moves")
def _pump_moves(
    say: Say, moved: float, way: str, mean: float, free: float, is_helped: bool
) -> str:  # fmt: skip
    helped = ", and the pressed air helps" if is_helped else ""
    return (
        f"{_litres(moved)} {MOVED[way]} at {mean * 6e4:.1f} L/min on average; the pump moves "
        f"{free * 6e4:.1f} with no back pressure{helped}"
    )


@says("some-stays-in")
def _some_stays_in(say: Say, moved: float, time: float, left: float) -> str:
    return f"{_litres(moved)} come out in {seconds(time)}, and {_litres(left)} stay in"


@says("jet-lets-through")
def _jet_lets_through(say: Say, jet: float, gas: float, coldest: float | None) -> str:
    cold = "" if coldest is None else f"; the bottle falls to {coldest:.0f} °C"
    return f"a jet of {jet * 1e3:.1f} mm lets {gas * 1e3:.1f} g through{cold}"


@says("full-by-shape")
def _full_by_shape(say: Say) -> str:
    return "as full as its shape allows"


@says("full-against-air")
def _full_against_air(say: Say, air: float, has_motor: bool, planned: float | None) -> str:
    ends = "its motor stalls" if has_motor else "its pump stalls"
    wanted = "" if planned is None else f"; planned is {say.share(planned)}"
    return f"there {bars(air)} of pressed air stand against it and {ends}{wanted}"


@says("tank-air-squeezed")
def _tank_air_squeezed(say: Say, fast: float) -> str:
    return (
        f"the water squeezes it, not the dry space; filled at once it is up to {bars(fast)}, until "
        "it has cooled"
    )


@says("caps-pushed")
def _caps_pushed(say: Say, state: Fact, why: Fact) -> str:
    return f"{said(say, state)}: {said(say, why)}; it pushes the caps off"


@says("water-drawn-in")
def _water_drawn_in(say: Say, state: Fact, why: Fact) -> str:
    return f"{said(say, state)}: {said(say, why)}; a leak draws water in"


@says("force-on-screw")
def _force_on_screw(say: Say, area: float, seal: float) -> str:
    return f"pressure on {area * 1e4:.1f} cm² of piston, and {seal:.0f} N that its seal rubs"


@says("torque-on-screw")
def _torque_on_screw(say: Say, given_back: float, stalls: float) -> str:
    return (
        f"the thread gives {say.share(given_back)} of it back; the motor stalls at {stalls:.2f} N m"
    )


@says("most-current")
def _most_current(say: Say, volts: float) -> str:
    return f"at {volts:.1f} V, at the highest back pressure"


@says("energy-of-a-dive")
def _energy_of_a_dive(say: Say, depth: float) -> str:
    return f"filled at the surface and emptied {at_depth(say.boat, depth)}, all tanks"


@says("battery-used")
def _battery_used(say: Say, share: float) -> str:
    return f"{say.share(share)} of the battery, if only the plant drew on it"


@says("gas-of-a-blow")
def _gas_of_a_blow(say: Say, room: float, gas: str) -> str:
    return f"{_litres(room)} of {gas} at the pressure down there"


@says("liquid-in-bottle")
def _liquid_in_bottle(say: Say, mass: float, left: float, celsius: float) -> str:
    return (
        f"{mass * 1e3:.0f} g less {say.share(left)} that stays in the bottle, at {celsius:.0f} °C"
    )


@says("gas-in-bottle")
def _gas_in_bottle(say: Say, volume: float, pressure: float, celsius: float) -> str:
    return f"{_litres(volume)} at {bars(pressure)}, at {celsius:.0f} °C"


@says("left-without-power")
def _left_without_power(say: Say, does: Fact, on_top: float) -> str:
    return (
        f"{said(say, does)}; then she is {lightness(on_top)} just under the surface, and depth "
        "takes its share"
    )


@says("heavier-without-power")
def _heavier_without_power(say: Say, water: float, squeezed: float) -> str:
    return (
        f"{_litres(water)} are in her tanks then, and pressure has made her {grams(squeezed)} "
        "heavier"
    )


@says("plant-refuses")
def _plant_refuses(say: Say, what: str) -> str:
    return what


@says("plant-wants")
def _plant_wants(say: Say, mend: str) -> str:
    return mend


@says("plant-troubled")
def _plant_troubled(say: Say, name: str, where: str, what: Fact) -> str:
    of_it = "" if where == name else f"{where}: "
    return f"{name}: {of_it}{said(say, what)}"


@says("water-stays-in")
def _water_stays_in(say: Say, depth: float, left: float, is_empty: bool) -> str:
    ends = "the bottle is empty" if is_empty else "it stalls"
    return f"{at_depth(say.boat, depth)} {_litres(left)} stay in the tank, then {ends}"


@says("come-up-under-power")
def _come_up_under_power(say: Say) -> str:
    return "Come up under power first, or use a stronger one."


@says("usual-taken")
def _usual_taken(say: Say, key: str) -> str:
    entry = row("plant_usual", key)
    unit = "" if entry["unit"] == "1" else f" {entry['unit']}"
    return f"{entry['value']}{unit} taken: {entry['note']}"


@says("gas-taken")
def _gas_taken(say: Say, gas: str) -> str:
    return f"{gas} taken: the gas"


@says("air-taken")
def _air_taken(say: Say, known: Fact) -> str:
    return f"{said(say, known)}: taken, not entered"


@says("others-as-filled")
def _others_as_filled(say: Say, tanks: tuple[str, ...]) -> str:
    return f"with {' and '.join(tanks)} filled as now"


@says("gas-blows-it")
def _gas_blows_it(say: Say) -> str:
    return "its valve springs open and the gas blows it"


@says("water-sinks-her")
def _water_sinks_her(say: Say) -> str:
    return "its valve opens and water comes in: she sinks"


@says("pump-leaks")
def _pump_leaks(say: Say) -> str:
    return "the stopped pump leaks, towards the side with less pressure"


@says("valve-opens")
def _valve_opens(say: Say) -> str:
    return "its valve opens, and water goes where the pressure pushes it"


@says("screw-holds")
def _screw_holds(say: Say) -> str:
    return "the screw holds the piston in place"


@says("valve-stays-shut")
def _valve_stays_shut(say: Say) -> str:
    return "its valve stays shut and the water stays as it is"
